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

/// Reads a term, or two joined by a plus or minus between blanks: `1-3/8 in + 4 thou`.
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
    let (symbol, next) = match joined {
        Some((unit, next, sign)) => (unit.trim(), Some((next, sign))),
        None => (rest, None),
    };
    let first = term::<M>(text, number, symbol, field_unit)?;
    let Some((next, sign)) = next else {
        return Ok(first);
    };
    let (number, symbol) = number::split_term(next);
    let second = term::<M>(next, number, symbol, None)?;
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
    let value = number::parse(number).map_err(QuantityProblem::of_number::<M>)?;
    let written = symbol.trim_end_matches('.');
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
