//! A step's text with fields in it.

use super::fields::{FigureOf, Pair};
use super::flaw::LessonFlawKind;
use crate::units::clipped;

/// Letters of an unknown field that are told.
const LONGEST: usize = 40;
/// What stands for a number that is asked for: a line to write it on.
const BLANK: &str = "_____";

/// A piece of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Piece<'a> {
    Words(&'a str),
    Figure(FigureOf),
}

/// A text cut into words and fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Template<'a>(Vec<Piece<'a>>);

impl<'a> Template<'a> {
    /// Reads a text: between braces stands the name of a field.
    ///
    /// # Errors
    /// When a field is unknown, a brace stands alone, or a number is typed.
    pub(super) fn parse(text: &'a str) -> Result<Self, LessonFlawKind> {
        let mut pieces = Vec::new();
        let mut rest = text;
        while let Some(at) = rest.find(['{', '}']) {
            let (words, from) = rest.split_at(at);
            pieces.push(Piece::Words(words));
            let inside = from.strip_prefix('{').and_then(|from| {
                let end = from.find(['{', '}'])?;
                from[end..]
                    .starts_with('}')
                    .then_some((&from[..end], &from[end + 1..]))
            });
            let (name, after) = inside.ok_or(LessonFlawKind::LoneBrace)?;
            let figure = FigureOf::named(name).ok_or_else(|| LessonFlawKind::NoSuchField {
                written: clipped(name, LONGEST).to_string(),
            })?;
            pieces.push(Piece::Figure(figure));
            rest = after;
        }
        pieces.push(Piece::Words(rest));
        let has_typed = |piece: &Piece| matches!(piece, Piece::Words(words) if words.contains(char::is_numeric));
        if pieces.iter().any(has_typed) {
            return Err(LessonFlawKind::TypedNumber);
        }
        Ok(Self(pieces))
    }

    /// Its fields.
    pub(super) fn figures(&self) -> impl Iterator<Item = FigureOf> {
        self.0.iter().filter_map(|piece| match piece {
            Piece::Words(_) => None,
            Piece::Figure(figure) => Some(*figure),
        })
    }

    /// The text with its fields filled in.
    ///
    /// # Errors
    /// When a field has no value, with the reason.
    pub(super) fn filled(&self, pair: Pair) -> Result<String, String> {
        self.asked(pair, |_| false)
    }

    /// The text with its fields filled in, and some of them left blank.
    ///
    /// # Errors
    /// When a field has no value, with the reason.
    pub(super) fn asked(
        &self,
        pair: Pair,
        is_asked: impl Fn(FigureOf) -> bool,
    ) -> Result<String, String> {
        let mut text = String::new();
        for piece in &self.0 {
            match piece {
                Piece::Words(words) => text.push_str(words),
                Piece::Figure(figure) if is_asked(*figure) => text.push_str(BLANK),
                Piece::Figure(figure) => text.push_str(&figure.in_text(pair)?),
            }
        }
        Ok(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_words_and_fields_and_nothing_typed() {
        let text = "The reel sweeps {sweep}, {b.sweep_share} beside it.";
        let figures: Vec<_> = Template::parse(text).expect("reads").figures().collect();
        let named = |name| FigureOf::named(name).expect("known");
        assert_eq!(figures, [named("sweep"), named("b.sweep_share")]);
        for (text, is_right) in [
            ("{sweep", false),
            ("sweep}", false),
            ("{{sweep}}", false),
            ("{}", false),
            ("{deepness}", false),
            ("deeper by 3 thou", false),
            ("half of it, ½", false),
            ("", true),
            ("no number at all", true),
        ] {
            assert_eq!(Template::parse(text).is_ok(), is_right, "{text}");
        }
    }
}
