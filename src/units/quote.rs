//! What a person wrote, quoted in a sentence: short enough for its line, and without a letter that
//! hides or steers what stands around it.

use std::fmt::{self, Display as _, Write as _};

/// A text between quotes, with no more of it than a sentence holds; what is cut off is an ellipsis,
/// and hidden letters are written out.
#[derive(Clone, Copy, Debug)]
pub struct Quoted<'a>(pub &'a str);

/// The letters of a wrong value that are told.
const LONGEST: usize = 60;

impl fmt::Display for Quoted<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_char('"')?;
        clipped(self.0, LONGEST).fmt(f)?;
        f.write_char('"')
    }
}

/// A text with no more than so many of its letters, hidden ones written out; what is cut off is an
/// ellipsis.
#[must_use]
pub fn clipped(text: &str, longest: usize) -> impl fmt::Display {
    fmt::from_fn(move |f| {
        let end = text.char_indices().nth(longest);
        let kept = end.map_or(text, |(end, _)| &text[..end]);
        in_plain_letters(kept, is_hidden).fmt(f)?;
        if end.is_some() {
            f.write_char('…')
        } else {
            Ok(())
        }
    })
}

/// A text with the letters that `is_written_out` names as escapes: `\n`, `\u{202e}`.
#[must_use]
pub fn in_plain_letters(text: &str, is_written_out: fn(char) -> bool) -> impl fmt::Display {
    fmt::from_fn(move |f| {
        for c in text.chars() {
            if is_written_out(c) {
                c.escape_default().fmt(f)?;
            } else {
                f.write_char(c)?;
            }
        }
        Ok(())
    })
}

/// Whether a letter is not seen itself but steers what is shown: a control, a line's end, a turn of
/// the direction of writing. Joiners and marks that belong to a script are none.
#[must_use]
pub fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{061c}'
                | '\u{200b}'
                | '\u{200e}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{feff}'
                | '\u{fff9}'..='\u{fffb}'
                | '\u{e0000}'..='\u{e001f}'
        )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrong_value_is_quoted_no_longer_than_a_line() {
        assert_eq!(Quoted("7 rpm").to_string(), "\"7 rpm\"");
        let quoted = Quoted(&"ä".repeat(900_000)).to_string();
        assert_eq!(quoted, format!("\"{}…\"", "ä".repeat(60)));
        assert_eq!(Quoted(&"9".repeat(60)).to_string().chars().count(), 62);
    }

    #[test]
    fn letters_that_steer_are_written_out_and_those_of_a_script_are_not() {
        let quoted = Quoted("a\u{1b}[31m\n\u{9b}\u{202e}b").to_string();
        assert_eq!(quoted, "\"a\\u{1b}[31m\\n\\u{9b}\\u{202e}b\"");
        let scripts = "Grüße, e\u{301}, 芝生, עִבְרִית, نسخه\u{200c}ها, 👩\u{200d}🌾";
        assert_eq!(Quoted(scripts).to_string(), format!("\"{scripts}\""));
    }
}
