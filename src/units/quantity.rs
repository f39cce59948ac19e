//! A quantity as a person typed it: the text, what it means, and how far it can be off.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::amount::{sum, unit_of};
use super::manner::Manner;
use super::{Measure, QuantityProblem, System, number};

/// A value with the text it was typed as. The value is always what the text says.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity<M> {
    text: String,
    value: M,
    half_width: Option<M>,
    manner: Manner,
}

impl<M: Measure> Quantity<M> {
    /// Reads a text whose unit must be written.
    ///
    /// # Errors
    /// When the text is no number with a unit of this kind; the problem says what would be right.
    pub fn parse(text: &str) -> Result<Self, QuantityProblem> {
        Self::read(text, None)
    }

    /// Reads a text typed into a field; a bare number gets the field's own unit, written out.
    ///
    /// # Errors
    /// As [`Quantity::parse`], but a missing unit is no error.
    pub fn typed(text: &str, field_unit: &'static str) -> Result<Self, QuantityProblem> {
        Self::read(text, Some(field_unit))
    }

    /// A value that nobody typed, such as a slider's, with the text that `system` gives it.
    ///
    /// The stored value is that of the text, so it is `value` rounded to what can be read. A value
    /// past 1e300 base units either way, or without end, is written as 1e300 of that sign.
    ///
    /// # Panics
    /// In a debug build when `value` is not a number: whoever worked it out went wrong. A release
    /// build writes zero instead, since no text stands for it.
    #[must_use]
    pub fn from_value(value: M, system: System) -> Self {
        Self::written(value, |value| value.entry(system))
    }

    /// A value kept to a millionth of what can be read, such as one that must not move the pose.
    /// What cannot be written is taken as [`Quantity::from_value`] takes it.
    #[must_use]
    pub fn exactly(value: M, system: System) -> Self {
        Self::written(value, |value| value.entry_with(system, EXTRA_DECIMALS))
    }

    /// A value in a unit of its kind with at most so many decimals, as a ground's radius in metres.
    /// What cannot be written is taken as [`Quantity::from_value`] takes it.
    #[must_use]
    pub fn written_in(value: M, symbol: &'static str, decimals: usize) -> Self {
        Self::written(value, |value| value.entry_in(symbol, decimals))
    }

    fn written(value: M, write: impl Fn(M) -> String) -> Self {
        let base = value.base();
        debug_assert!(!base.is_nan(), "only a number can be written");
        let base = if base.is_nan() {
            0.0
        } else {
            base.clamp(-LARGEST_WRITTEN, LARGEST_WRITTEN)
        };
        Self::parse(&write(M::from_base(base)))
            .unwrap_or_else(|problem| unreachable!("an entry can be read back: {problem}"))
    }

    /// What was typed, unit and all.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What the text means.
    #[must_use]
    pub fn value(&self) -> M {
        self.value
    }

    /// How far the value can be off either way: the half-width of a rectangular distribution.
    #[must_use]
    pub fn half_width(&self) -> Option<M> {
        self.half_width
    }

    /// Whether the text already reads as a person who works in `system` expects it.
    #[must_use]
    pub fn is_written_for(&self, system: System) -> bool {
        self.manner.suits(system)
    }

    /// The system of a person who writes as this was written.
    #[must_use]
    pub fn system(&self) -> System {
        self.manner.system()
    }

    /// The text as a person who works in `system` expects it.
    ///
    /// The typed text itself where it already is in that system.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        if self.is_written_for(system) && !is_overlong(&self.text) {
            return self.text.clone();
        }
        // A fraction of an inch keeps its value as a decimal: 1/32 is 0.03125.
        let is_fraction = self.system() == System::InchFraction && system == System::InchDecimal;
        let digits = if is_fraction { FRACTION_DECIMALS } else { 0 };
        let written = |value: M| match digits {
            0 => value.entry(system),
            _ => value.entry_with(system, digits),
        };
        let value = written(self.value);
        match self.half_width {
            None => value,
            Some(half_width) => format!("{value} ± {}", written(half_width)),
        }
    }

    fn read(text: &str, field_unit: Option<&'static str>) -> Result<Self, QuantityProblem> {
        let text = text.trim();
        if text.is_empty() {
            return Err(QuantityProblem::Empty {
                kind: M::KIND,
                example: M::EXAMPLE,
            });
        }
        let (main_text, off_text) = split_half_width(text);
        let plain_off = off_text.map(in_plain_signs);
        if main_text.trim().is_empty() {
            return Err(QuantityProblem::OnlyHalfWidth(text.to_owned()));
        }
        if plain_off.as_deref().is_some_and(str::is_empty) {
            return Err(QuantityProblem::NoHalfWidth(text.to_owned()));
        }
        // `0.3 ± 0.02 in` is a reading in inches wherever it is typed.
        let lent = plain_off.as_deref().and_then(unit_of::<M>).or(field_unit);
        let main = sum::<M>(&in_plain_signs(main_text), lent)?;
        let off = plain_off
            .map(|off| sum::<M>(&off, Some(main.unit)))
            .transpose()?;
        if off.is_some_and(|off| off.base < 0.0) {
            return Err(QuantityProblem::NegativeHalfWidth(text.to_owned()));
        }
        let kept = match off_text {
            _ if !main.is_unit_understood => text.to_owned(),
            None => with_unit(text, main.unit),
            Some(off) => format!(
                "{} ± {}",
                with_unit(main_text.trim(), main.unit),
                off.trim()
            ),
        };
        Ok(Self {
            text: kept,
            value: M::from_base(main.base),
            half_width: off.map(|off| M::from_base(off.base)),
            manner: main.manner,
        })
    }
}

/// A text with the signs that stand for a minus, inches, feet and fractions as a keyboard has them.
fn in_plain_signs(text: &str) -> String {
    let text = text
        .trim()
        .replace('−', "-")
        .replace(['″', '”'], "\"")
        .replace(['′', '’'], "'");
    number::with_plain_fractions(&text).into_owned()
}

/// The largest value that is written out, in base units: read back in any unit it stays a number.
const LARGEST_WRITTEN: f64 = 1e300;

/// Decimals past those shown that keep a pose where it is to well under a nanometre.
/// What a fraction of an inch takes beyond the usual decimals, to its 64ths.
const FRACTION_DECIMALS: usize = 2;
const EXTRA_DECIMALS: usize = 6;

/// More decimals than anybody reads.
fn is_overlong(text: &str) -> bool {
    let decimals = text.split_once('.').map_or("", |(_, rest)| rest);
    decimals.bytes().take_while(u8::is_ascii_digit).count() > EXTRA_DECIMALS
}

fn with_unit(text: &str, unit: &str) -> String {
    format!("{text} {unit}").trim_end().to_owned()
}

/// Zero, as it is written where a field was left out.
impl<M: Measure> Default for Quantity<M> {
    fn default() -> Self {
        Self::from_value(M::from_base(0.0), System::Millimetre)
    }
}

fn split_half_width(text: &str) -> (&str, Option<&str>) {
    for sign in ["±", "+/-", "+-"] {
        if let Some((main, off)) = text.split_once(sign) {
            return (main, Some(off));
        }
    }
    (text, None)
}

impl<M> Serialize for Quantity<M> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de, M: Measure> Deserialize<'de> for Quantity<M> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Text<M>(std::marker::PhantomData<M>);
        impl<M: Measure> de::Visitor<'_> for Text<M> {
            type Value = Quantity<M>;
            fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                write!(
                    f,
                    "{} in quotes with its unit, like {}",
                    M::KIND,
                    M::EXAMPLE
                )
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Self::Value, E> {
                Quantity::parse(text).map_err(E::custom)
            }
        }
        // `any`, so that a bare number is answered with the sentence above.
        deserializer.deserialize_any(Text(std::marker::PhantomData))
    }
}

#[cfg(test)]
mod tests;
