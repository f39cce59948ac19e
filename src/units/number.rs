//! Numbers as people write them in a shop: `0.125`, `.125`, `1/8`, `1-3/8`, `-1 3/8`.

use thiserror::Error;

/// Why a text is not a number.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NumberProblem {
    /// It does not look like a number.
    #[error("\"{0}\" is not a number")]
    NotANumber(String),
    /// A comma where a point belongs.
    #[error("the decimal is written with a point, like {0}, not with a comma")]
    DecimalComma(String),
    /// A fraction over zero.
    #[error("\"{0}\" divides by zero")]
    DividesByZero(String),
    /// More digits than a number holds.
    #[error("\"{0}\" is too large a number")]
    TooLarge(String),
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
        return Err(NumberProblem::DecimalComma(trimmed.replace(',', ".")));
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
        assert!(matches!(parse("1/0"), Err(NumberProblem::DividesByZero(_))));
        assert!(matches!(
            parse(&"9".repeat(400)),
            Err(NumberProblem::TooLarge(_))
        ));
    }

    #[test]
    fn a_term_is_split_where_its_unit_begins() {
        assert_eq!(split_term(" -1 3/8 in"), ("-1 3/8", "in"));
        assert_eq!(split_term(".125\""), (".125", "\""));
        assert_eq!(split_term("6 %"), ("6", "%"));
        assert_eq!(split_term("wide"), ("", "wide"));
    }
}
