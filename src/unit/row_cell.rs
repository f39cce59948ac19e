//! Texts in the cells of a table: what a spreadsheet would take for a formula is written as text, and
//! every text comes back as it was.

use std::borrow::Cow;

/// What makes a spreadsheet take a cell for text.
const MARK: char = '\'';

/// The text of a cell for a text: with a mark before it where it begins like a formula, or where
/// blanks at its ends would be lost.
pub(super) fn written(text: &str) -> Cow<'_, str> {
    if needs_mark(text) {
        Cow::Owned(format!("{MARK}{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that a cell was written for; of one that a person wrote, without the blanks around it.
pub(super) fn read(cell: &str) -> &str {
    match cell.strip_prefix(MARK) {
        Some(text) if needs_mark(text) => text,
        _ => cell.trim(),
    }
}

/// A text that needs a mark needs one as well when it has one: so none is taken off that was not
/// put there.
fn needs_mark(text: &str) -> bool {
    let unmarked = text.trim_start_matches(MARK);
    let is_formula = unmarked.starts_with(['=', '+', '-', '@', '\t', '\r']);
    is_formula && !is_number(unmarked)
        || unmarked.starts_with(char::is_whitespace)
        || text.ends_with(char::is_whitespace)
}

/// Whether it is a number with a sign, perhaps with its unit: a spreadsheet takes it for that much.
/// Brackets and the like, without which no formula does anything, it has none.
fn is_number(text: &str) -> bool {
    let digits = text.trim_start_matches(['+', '-']).trim_start_matches('.');
    let is_plain = |c: char| c.is_alphanumeric() || matches!(c, '.' | '/' | '-' | ' ' | '%' | '°');
    text.len() <= 40
        && digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(is_plain)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn what_begins_like_a_formula_is_written_as_text() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("+cmd|' /C calc'!A0", "'+cmd|' /C calc'!A0"),
            ("-2+3+cmd|' /C calc'!A0", "'-2+3+cmd|' /C calc'!A0"),
            ("\t=1", "'\t=1"),
            ("\r=1", "'\r=1"),
            ("'=1", "''=1"),
            ("-", "'-"),
            ("-0.377 in", "-0.377 in"),
            ("+3", "+3"),
            ("-1.25", "-1.25"),
            ("-3/8 in - 2.0 thou", "-3/8 in - 2.0 thou"),
            ("-4.50°", "-4.50°"),
            ("'quoted", "'quoted"),
            ("plain", "plain"),
        ] {
            assert_eq!(written(text), cell, "{text:?}");
            assert_eq!(read(cell), text);
        }
        assert_eq!(read("  as pasted "), "as pasted");
    }

    proptest! {
        #[test]
        fn every_text_comes_back(text in "['=+@\\-\t\r\n a1(|]{0,6}|.{0,12}") {
            let cell = written(&text);
            prop_assert_eq!(read(&cell), &text);
            let is_defused = !cell.starts_with(['=', '+', '-', '@', '\t', '\r']) || is_number(&cell);
            prop_assert!(is_defused, "{cell:?}");
        }
    }
}
