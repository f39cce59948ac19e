//! The manner in which a quantity was written, and which readers it suits as it stands.

use super::System;

/// How a quantity was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Manner {
    /// In millimetres, metres, kilometres an hour.
    Metric,
    /// In inches with a decimal point.
    InchDecimal,
    /// In whole inches, which read alike in decimals and in fractions.
    InchWhole,
    /// In fractions of an inch, or in thou.
    InchFraction,
    /// In a unit that every system shares: degrees, percent, turns.
    Shared,
}

impl Manner {
    /// The manner of a number with its unit.
    pub(super) fn of(number: &str, symbol: &str) -> Self {
        let is_fraction = number.contains(['/', '⁄']);
        match symbol {
            "mm" | "cm" | "m" | "km/h" | "kph" | "m/s" => Self::Metric,
            "thou" => Self::InchFraction,
            "in" | "inch" | "inches" | "\"" | "ft" | "foot" | "feet" | "'" => {
                if is_fraction {
                    Self::InchFraction
                } else if number.contains('.') {
                    Self::InchDecimal
                } else {
                    Self::InchWhole
                }
            }
            "mph" => Self::InchWhole,
            _ => Self::Shared,
        }
    }

    /// The manner of two terms together: what is finer says how the whole reads.
    pub(super) fn with(self, other: Self) -> Self {
        match (self, other) {
            (Self::InchWhole, _) | (Self::InchDecimal, Self::InchFraction) => other,
            _ => self,
        }
    }

    /// Whether it already reads as a person who works in `system` expects it.
    pub(super) fn suits(self, system: System) -> bool {
        match self {
            Self::Shared => true,
            Self::Metric => system == System::Millimetre,
            Self::InchWhole => system != System::Millimetre,
            Self::InchDecimal => system == System::InchDecimal,
            Self::InchFraction => system == System::InchFraction,
        }
    }

    /// The system of a person who writes so.
    pub(super) fn system(self) -> System {
        match self {
            Self::Metric => System::Millimetre,
            Self::InchFraction => System::InchFraction,
            Self::InchDecimal | Self::InchWhole | Self::Shared => System::InchDecimal,
        }
    }
}
