//! Amounts as they are written: a number with its unit, or two of them joined.

use super::manner::Manner;
use super::{Measure, NumberProblem, QuantityProblem, number};

/// What one side of a `±` amounts to.
#[derive(Clone, Copy)]
pub(super) struct Amount {
    pub(super) base: f64,
    pub(super) unit: &'static str,
    pub(super) manner: Manner,
    /// The unit was not written but taken from where the text stands.
    pub(super) is_unit_understood: bool,
}

/// Reads a term, feet with inches, or two terms joined by a plus or minus between blanks:
/// `1-3/8 in + 4 thou`.
pub(super) fn sum<M: Measure>(
    text: &str,
    field_unit: Option<&'static str>,
) -> Result<Amount, QuantityProblem> {
    let (number, rest) = number::split_term(text);
    let joined = [(" + ", 1.0), (" - ", -1.0)]
        .into_iter()
        .find_map(|(joint, sign)| {
            rest.split_once(joint)
                .map(|(unit, next)| (unit, next, sign))
        });
    let (rest, next) = match joined {
        Some((unit, next, sign)) => (unit.trim(), Some((next, sign))),
        None => (rest, None),
    };
    let past_feet = number::next_number(rest)
        .map(|inches| rest.split_at(inches))
        .filter(|(symbol, _)| is_feet(&symbol.trim().trim_end_matches('.').to_lowercase()));
    let first = match past_feet {
        Some(parts) => feet_and_inches::<M>(text, number, parts)?,
        None => term::<M>(text, number, rest, field_unit)?,
    };
    let Some((next, sign)) = next else {
        return Ok(first);
    };
    let (number, symbol) = number::split_term(next);
    let second = term::<M>(next, number, symbol, None)?;
    // A drawing's `1' - 6"` is one foot six; read as a difference it would be half a foot.
    if is_feet(first.unit) && sign < 0.0 && is_inches(second.unit) {
        return Err(QuantityProblem::AfterFeet(text.trim().to_owned()));
    }
    let base = first.base + sign * second.base;
    if !base.is_finite() {
        return Err(QuantityProblem::of_number::<M>(NumberProblem::TooLarge(
            text.trim().to_owned(),
        )));
    }
    let manner = first.manner.with(second.manner);
    Ok(Amount {
        base,
        manner,
        ..first
    })
}

/// Reads `1' 6"`, `1'-6"`, `1 ft 6 in`: a foot's mark and, without a sign of their own, its inches.
fn feet_and_inches<M: Measure>(
    text: &str,
    number: &str,
    (symbol, inches): (&str, &str),
) -> Result<Amount, QuantityProblem> {
    let feet = term::<M>(text, number, symbol.trim(), None)?;
    let inches = inches.strip_prefix('-').unwrap_or(inches);
    let (inch_number, inch_symbol) = number::split_term(inches);
    let inches = term::<M>(inches, inch_number, inch_symbol, None)?;
    let is_part_of_foot = is_inches(inches.unit) && (0.0..M::size_of("ft")).contains(&inches.base);
    if !is_part_of_foot {
        return Err(QuantityProblem::AfterFeet(text.trim().to_owned()));
    }
    let base = feet.base.abs() + inches.base;
    Ok(Amount {
        base: base.copysign(feet.base),
        unit: inches.unit,
        manner: feet.manner.with(inches.manner),
        is_unit_understood: false,
    })
}

fn is_inches(unit: &str) -> bool {
    matches!(unit, "in" | "inch" | "inches" | "\"")
}

fn is_feet(unit: &str) -> bool {
    matches!(unit, "ft" | "foot" | "feet" | "'")
}

fn term<M: Measure>(
    text: &str,
    number: &str,
    symbol: &str,
    field_unit: Option<&'static str>,
) -> Result<Amount, QuantityProblem> {
    if number.is_empty() {
        return Err(QuantityProblem::of_number::<M>(NumberProblem::NotANumber(
            text.trim().to_owned(),
        )));
    }
    let written = symbol.trim_end_matches('.');
    let value = number::parse(number).map_err(|problem| {
        let is_unit = |(s, _): &(&str, f64)| s.eq_ignore_ascii_case(written);
        // What is no number may go on into what is no unit: then all of it is told.
        let is_whole = written.is_empty() || M::SYMBOLS.iter().any(is_unit);
        QuantityProblem::of_number::<M>(match problem {
            NumberProblem::NotANumber(_) if !is_whole => {
                NumberProblem::NotANumber(text.trim().to_owned())
            }
            problem => problem,
        })
    })?;
    let is_bare_allowed = M::SYMBOLS.iter().any(|(s, _)| s.is_empty());
    let is_unit_understood = written.is_empty() && !is_bare_allowed;
    let wanted = match (is_unit_understood, field_unit) {
        (false, _) => written,
        (true, Some(unit)) => unit,
        (true, None) => {
            return Err(QuantityProblem::NoUnit {
                text: text.trim().to_owned(),
                kind: M::KIND,
                example: M::EXAMPLE,
            });
        }
    };
    let known = M::SYMBOLS
        .iter()
        .find(|(s, _)| s.eq_ignore_ascii_case(wanted));
    let Some(&(unit, size)) = known else {
        return Err(QuantityProblem::UnknownUnit {
            symbol: symbol.to_owned(),
            kind: M::KIND,
            example: M::EXAMPLE,
        });
    };
    let base = value * size;
    if base.is_finite() {
        let manner = Manner::of(number, unit);
        Ok(Amount {
            base,
            unit,
            manner,
            is_unit_understood,
        })
    } else {
        Err(QuantityProblem::of_number::<M>(NumberProblem::TooLarge(
            number.to_owned(),
        )))
    }
}

/// The unit that a text ends with, if it has one of this kind.
pub(super) fn unit_of<M: Measure>(text: &str) -> Option<&'static str> {
    let (_, symbol) = number::split_term(text);
    let known = M::SYMBOLS
        .iter()
        .find(|(s, _)| !s.is_empty() && s.eq_ignore_ascii_case(symbol));
    known.map(|(symbol, _)| *symbol)
}
