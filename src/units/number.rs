//! Numbers as people write them in a shop: `0.125`, `.125`, `1/8`, `1-3/8`, `-1 3/8`.

use std::borrow::Cow;

use thiserror::Error;

use super::{Quoted, clipped};

/// Why a text is not a number.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NumberProblem {
    /// It does not look like a number.
    #[error("{} is not a number", Quoted(.0))]
    NotANumber(String),
    /// A comma where a point belongs.
    #[error("the decimal is written with a point, like {}, not with a comma", clipped(.0, 20))]
    DecimalComma(String),
    /// A fraction over zero.
    #[error("{} divides by zero", Quoted(.0))]
    DividesByZero(String),
    /// More digits than a number holds.
    #[error("{} is too large a number", Quoted(.0))]
    TooLarge(String),
}

/// A text with its one-letter fractions written out: `1½` is `1 1/2`, `1-½` is `1-1/2`.
pub(super) fn with_plain_fractions(text: &str) -> Cow<'_, str> {
    if !text.contains(|c| one_letter_fraction(c).is_some()) {
        return Cow::Borrowed(text);
    }
    let mut plain = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match one_letter_fraction(c) {
            Some(fraction) => {
                if plain.ends_with(|before: char| before.is_ascii_digit()) {
                    plain.push(' ');
                }
                plain.push_str(fraction);
            }
            None => plain.push(c),
        }
    }
    Cow::Owned(plain)
}

/// A text with points for its commas, such as could be typed: after the last one stands a digit.
fn with_point(text: &str) -> String {
    let mut pointed = text.replace(',', ".");
    if pointed.ends_with('.') {
        pointed.push('5');
    }
    pointed
}

const fn one_letter_fraction(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅒' => "1/10",
        _ => return None,
    })
}

/// Where the next number begins in what follows a number, past its unit: `' 6"` has one, `mm` none.
pub(super) fn next_number(rest: &str) -> Option<usize> {
    let digit = rest.find(|c: char| c.is_ascii_digit())?;
    Some(rest[..digit].trim_end_matches(['.', '-', '+']).len())
}

/// Splits a term such as `-1-3/8 in` into its number and what follows it.
pub(super) fn split_term(text: &str) -> (&str, &str) {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|&(at, c)| !(is_part_of_number(c) || c == ' ' && number_goes_on(&text[at..])))
        .map_or(text.len(), |(at, _)| at);
    (text[..end].trim(), text[end..].trim())
}

fn is_part_of_number(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '-' | '+' | '⁄')
}

/// A blank inside a number: between a sign and its digits, or between a whole and its fraction.
fn number_goes_on(rest: &str) -> bool {
    rest.trim_start().starts_with(|c: char| c.is_ascii_digit())
}

/// Reads one signed number.
pub(super) fn parse(text: &str) -> Result<f64, NumberProblem> {
    let not_a_number = || NumberProblem::NotANumber(text.to_owned());
    let trimmed = text.trim();
    let (sign, body) = match trimmed.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (
            1.0,
            trimmed.strip_prefix('+').unwrap_or(trimmed).trim_start(),
        ),
    };
    if body.contains(',') {
        return Err(NumberProblem::DecimalComma(with_point(trimmed)));
    }
    let value = match body.split_once(['/', '⁄']) {
        None => decimal(body).ok_or_else(not_a_number)?,
        Some((upper, lower)) => {
            let (whole, upper) = match upper.trim().split_once(['-', ' ']) {
                Some((whole, upper)) => (integer(whole).ok_or_else(not_a_number)?, upper),
                None => (0.0, upper),
            };
            let upper = integer(upper.trim()).ok_or_else(not_a_number)?;
            let lower = integer(lower.trim()).ok_or_else(not_a_number)?;
            if lower <= 0.0 {
                return Err(NumberProblem::DividesByZero(text.to_owned()));
            }
            whole + upper / lower
        }
    };
    if value.is_finite() {
        Ok(sign * value)
    } else {
        Err(NumberProblem::TooLarge(text.to_owned()))
    }
}

fn integer(text: &str) -> Option<f64> {
    let is_digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if is_digits { text.parse().ok() } else { None }
}

fn decimal(text: &str) -> Option<f64> {
    let is_plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if is_plain { text.parse().ok() } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_a_shop_writes_them() {
        for (text, value) in [
            ("0.125", 0.125),
            (".125", 0.125),
            ("1/8", 0.125),
            ("1-3/8", 1.375),
            ("1 3/8", 1.375),
            ("-1-3/8", -1.375),
            ("- 1/8", -0.125),
            ("+2", 2.0),
            ("7.", 7.0),
        ] {
            assert_eq!(parse(text), Ok(value), "{text}");
        }
    }

    #[test]
    fn what_is_not_a_number_is_said_with_the_text() {
        for text in [
            "", "-", ".", "1/", "/8", "1-2-3/8", "1.5/8", "--1", "1e3", "NaN", "inf", "1/8/2",
        ] {
            assert!(
                matches!(parse(text), Err(NumberProblem::NotANumber(t)) if t == text),
                "{text}"
            );
        }
        assert!(matches!(parse("3,2"), Err(NumberProblem::DecimalComma(t)) if t == "3.2"));
        assert!(matches!(parse("5,"), Err(NumberProblem::DecimalComma(t)) if t == "5.5"));
        assert!(matches!(parse("1/0"), Err(NumberProblem::DividesByZero(_))));
        assert!(matches!(
            parse(&"9".repeat(400)),
            Err(NumberProblem::TooLarge(_))
        ));
    }

    #[test]
    fn one_letter_fractions_are_written_out() {
        for (text, plain) in [
            ("½ in", "1/2 in"),
            ("1½ in", "1 1/2 in"),
            ("1-⅜ in", "1-3/8 in"),
            ("-1 ¾ in", "-1 3/4 in"),
            ("7 in", "7 in"),
        ] {
            assert_eq!(with_plain_fractions(text), plain);
        }
    }

    #[test]
    fn a_term_is_split_where_its_unit_begins() {
        assert_eq!(split_term(" -1 3/8 in"), ("-1 3/8", "in"));
        assert_eq!(split_term(".125\""), (".125", "\""));
        assert_eq!(split_term("6 %"), ("6", "%"));
        assert_eq!(split_term("wide"), ("", "wide"));
    }
}
