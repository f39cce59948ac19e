//! Words measured by the bundled fonts, so that layout knows what every painter will set.

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, GlyphId, MetadataProvider as _};
use unicode_width::UnicodeWidthChar as _;

use super::fonts;

/// Height of a line of words, in parts of their size.
pub const LINE: f64 = 1.15;

/// How far each letter of a font carries the next, in parts of the letters' size.
struct Advances {
    /// The letters that nearly all words are made of, by their code.
    ascii: [f64; 128],
    others: HashMap<char, f64>,
    /// The box that stands for a letter the font lacks; about as wide as one of another script.
    missing: f64,
}

static REGULAR: LazyLock<Advances> = LazyLock::new(|| Advances::of(fonts::REGULAR));
static SEMIBOLD: LazyLock<Advances> = LazyLock::new(|| Advances::of(fonts::SEMIBOLD));

impl Advances {
    fn of(font: &[u8]) -> Self {
        let font = FontRef::new(font).expect("a bundled font is a font");
        let (size, place) = (Size::unscaled(), LocationRef::default());
        let whole = f64::from(font.metrics(size, place).units_per_em);
        let glyphs = GlyphMetrics::new(&font, size, place);
        let advance = |glyph| {
            glyphs
                .advance_width(glyph)
                .map(|units| f64::from(units) / whole)
        };
        let missing = advance(GlyphId::NOTDEF).unwrap_or(0.0);
        let mut all = Self {
            ascii: [missing; 128],
            others: HashMap::new(),
            missing,
        };
        for (code, glyph) in font.charmap().mappings() {
            let (Some(letter), Some(advance)) = (char::from_u32(code), advance(glyph)) else {
                continue;
            };
            match all.ascii.get_mut(letter as usize) {
                Some(place) => *place = advance,
                None => {
                    all.others.insert(letter, advance);
                }
            }
        }
        all
    }

    fn of_letter(&self, letter: char) -> f64 {
        self.ascii
            .get(letter as usize)
            .or_else(|| self.others.get(&letter))
            .copied()
            .unwrap_or_else(|| match letter.width() {
                // A mark that stands over or under the letter before.
                Some(0) => 0.0,
                // As wide as it is high.
                Some(2) => 1.0,
                _ => self.missing,
            })
    }
}

/// How wide a line of words is at a size, in the units of that size: the sum of the letters'
/// advances, which kerning would only narrow a little.
#[must_use]
pub fn width(text: &str, size: f64, is_strong: bool) -> f64 {
    let advances = if is_strong { &*SEMIBOLD } else { &*REGULAR };
    size * text.chars().map(|c| advances.of_letter(c)).sum::<f64>()
}

/// A text with no more of it than fits into a width; what is cut off is an ellipsis.
#[must_use]
pub fn fitted(text: &str, size: f64, is_strong: bool, most: f64) -> Cow<'_, str> {
    const ELLIPSIS: char = '…';
    let advances = if is_strong { &*SEMIBOLD } else { &*REGULAR };
    let most = most / size;
    let room = most - advances.of_letter(ELLIPSIS);
    // Where it is cut if the rest does not fit; no letter past the end of the room is measured.
    let (mut reached, mut cut) = (0.0, 0);
    for (at, letter) in text.char_indices() {
        if reached <= room {
            cut = at;
        }
        reached += advances.of_letter(letter);
        if reached > most {
            return Cow::Owned(format!("{}{ELLIPSIS}", text[..cut].trim_end()));
        }
    }
    Cow::Borrowed(text)
}

/// Words spread over so many lines, as even as they come.
pub(in crate::drawing) fn in_lines(words: &str, lines: usize) -> Vec<String> {
    let length = words.len().div_ceil(lines);
    let mut set = Vec::new();
    let mut line = String::new();
    for word in words.split(' ') {
        if !line.is_empty() {
            if line.len() + 1 + word.len() / 2 >= length {
                set.push(std::mem::take(&mut line));
            } else {
                line.push(' ');
            }
        }
        line.push_str(word);
    }
    set.push(line);
    set
}

/// Whether the bundled fonts have every letter of a text.
#[must_use]
pub fn are_bundled(text: &str) -> bool {
    text.chars().all(is_bundled)
}

/// Whether the bundled fonts have a letter.
#[must_use]
pub fn is_bundled(letter: char) -> bool {
    letter.is_ascii() || REGULAR.others.contains_key(&letter)
}

/// How far a letter of the bundled fonts carries the next, in parts of its size.
#[must_use]
pub(in crate::drawing) fn advance(letter: char, is_strong: bool) -> f64 {
    let advances = if is_strong { &*SEMIBOLD } else { &*REGULAR };
    advances.of_letter(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_cut_to_the_width_there_is() {
        for text in ["", "i", "greens", "Grüße", &"wide".repeat(30_000)] {
            for most in [0.0, 5.0, 40.0, 200.0] {
                let cut = fitted(text, 12.0, false, most);
                let is_whole = cut == text;
                assert_eq!(is_whole, width(text, 12.0, false) <= most, "{cut}");
                let (letters, _) = cut.rsplit_once('…').unwrap_or((&cut, ""));
                assert!(text.starts_with(letters), "{cut}");
                // One letter more would be one too many.
                let room = width(&cut, 12.0, false);
                assert!(is_whole || cut == "…" || room <= most, "{cut}: {room}");
                let next = text.chars().nth(letters.chars().count()).map(String::from);
                let more = room + width(&next.unwrap_or_default(), 12.0, false);
                assert!(is_whole || more > most, "{cut}: {more}");
            }
        }
    }

    #[test]
    fn a_name_is_spread_over_lines() {
        let name = "edge ahead of centre";
        assert_eq!(in_lines(name, 1), [name]);
        assert_eq!(in_lines(name, 2), ["edge ahead", "of centre"]);
        assert_eq!(in_lines("sweep too deep", 3), ["sweep", "too", "deep"]);
    }

    #[test]
    fn letters_that_the_bundled_fonts_lack_are_known() {
        assert!(are_bundled("Grüße, 1½ in ± 2°"));
        assert!(!are_bundled("芝生") && !are_bundled("عشب"));
    }

    #[test]
    fn words_are_as_wide_as_the_fonts_say() {
        // Of 2048 units in an em: "n" 1257, "i" 518, "l" 518 in the regular one.
        for (text, units) in [("n", 1257.0), ("il", 1036.0), ("", 0.0)] {
            let width = width(text, 10.0, false);
            assert!(
                (width - 10.0 * units / 2048.0).abs() < 1e-9,
                "{text}: {width}"
            );
        }
        assert!(width("sweep", 12.0, true) > width("sweep", 12.0, false));
        assert!(width("±", 12.0, false) > 0.0 && width("×", 12.0, true) > 0.0);
    }

    #[test]
    fn a_letter_the_font_lacks_is_as_wide_as_its_kind_at_the_most() {
        // Kanji are as wide as high; marks stand over their letter; others are taken for a box.
        assert!((width("\u{4e00}\u{4e01}", 10.0, false) - 20.0).abs() < 1e-12);
        let (plain, marked) = (width("ع", 10.0, false), width("ع\u{64b}", 10.0, false));
        assert!(
            plain > 1.0 && (plain - marked).abs() < 1e-12,
            "{plain}, {marked}"
        );
    }
}
