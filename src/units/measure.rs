//! The kinds of quantity, each a bare number with its unit in the type.
//!
//! Each is over `f64` unless it says otherwise; the geometry also puts dual numbers into them.
//!
//! Plain newtypes rather than a dimensional library: six kinds, no products between them outside
//! two formulas, and the sums happen in `_mm` inside the geometry.

use std::f64::consts::PI;
use std::ops::{Add, Div, Mul, Neg, Sub};

use super::System;
use super::digits::{bare, fraction, trimmed};

/// A kind of quantity: its symbols, and how one is made from its base unit.
pub trait Measure: Copy + PartialEq + PartialOrd + std::fmt::Debug + 'static {
    /// What it is called in a sentence, with its article: "a length".
    const KIND: &'static str;
    /// What a right entry looks like.
    const EXAMPLE: &'static str;
    /// Accepted symbols and the size of each in base units; the first of a size is the one written.
    const SYMBOLS: &'static [(&'static str, f64)];
    /// The most that can be worked with, in base units and as it is told to a person.
    const MOST: (f64, &'static str);
    /// The least that can be worked with where there must be more than zero, in base units and as it
    /// is told to a person; none where any such value can be.
    const LEAST: Option<(f64, &'static str)> = None;
    /// The value of `base` base units.
    fn from_base(base: f64) -> Self;
    /// How many base units this is.
    fn base(self) -> f64;
    /// The unit a person who works in `system` writes, and the decimals worth writing.
    fn unit_in(system: System) -> (&'static str, usize);

    /// How many base units one of `symbol` is; one for a symbol that is none of this kind's.
    #[must_use]
    fn size_of(symbol: &str) -> f64 {
        Self::SYMBOLS
            .iter()
            .find(|(s, _)| *s == symbol)
            .map_or(1.0, |(_, size)| *size)
    }

    /// The value as an entry that can be read back: fine, with no more digits than it needs.
    #[must_use]
    fn entry(self, system: System) -> String {
        self.entry_with(system, 0)
    }

    /// The same with more decimals than anybody reads, to keep a value where it is.
    #[must_use]
    fn entry_with(self, system: System, extra_decimals: usize) -> String {
        let (unit, decimals) = Self::unit_in(system);
        self.entry_in(unit, decimals + extra_decimals)
    }

    /// The value in one of its units, with at most so many decimals.
    #[must_use]
    fn entry_in(self, symbol: &str, decimals: usize) -> String {
        let number = trimmed(self.base() / Self::size_of(symbol), decimals);
        format!("{number} {symbol}").trim_end().to_owned()
    }

    /// The bare number of it in the unit of a person who works in `system`, as exact as is of use: for a
    /// spreadsheet, whose table tells the unit.
    #[must_use]
    fn bare(self, system: System) -> String {
        let (unit, _) = Self::unit_in(system);
        bare(self.base() / Self::size_of(unit))
    }
}

macro_rules! measure {
    ($(#[$doc:meta])* $name:ident, $kind:literal, $example:literal, $symbols:expr, { $($items:item)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
        pub struct $name<N = f64>(N);

        impl $name {
            /// Zero of it.
            pub const ZERO: Self = Self(0.0);

            /// The same in numbers of another kind, without a derivative.
            #[must_use]
            pub fn exact<N: From<f64>>(self) -> $name<N> {
                $name(N::from(self.0))
            }
        }

        impl<N> $name<N> {
            /// The number of base units, to be changed in place.
            pub const fn base_mut(&mut self) -> &mut N {
                &mut self.0
            }
        }

        impl Measure for $name {
            const KIND: &'static str = $kind;
            const EXAMPLE: &'static str = $example;
            const SYMBOLS: &'static [(&'static str, f64)] = $symbols;
            fn from_base(base: f64) -> Self {
                Self(base)
            }
            fn base(self) -> f64 {
                self.0
            }
            $($items)*
        }

        impl<N: Add<Output = N>> Add for $name<N> {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl<N: Sub<Output = N>> Sub for $name<N> {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl<N: Neg<Output = N>> Neg for $name<N> {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl<N: Mul<f64, Output = N>> Mul<f64> for $name<N> {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
    };
}

/// Millimetres in an inch: exactly 25.4 (international inch, agreed 1959).
const MM_PER_INCH: f64 = 25.4;

measure!(
    /// A length. Base unit: millimetre.
    Length,
    "a length",
    "0.125 in, 1/8 in, 1-3/8 in or 3.2 mm",
    &[
        ("in", MM_PER_INCH),
        ("inch", MM_PER_INCH),
        ("inches", MM_PER_INCH),
        ("\"", MM_PER_INCH),
        ("mm", 1.0),
        ("cm", 10.0),
        ("m", 1000.0),
        ("thou", MM_PER_INCH / 1000.0),
        ("ft", 12.0 * MM_PER_INCH),
        ("foot", 12.0 * MM_PER_INCH),
        ("feet", 12.0 * MM_PER_INCH),
        ("'", 12.0 * MM_PER_INCH),
    ],
    {
        const MOST: (f64, &'static str) = (10_000.0, "10 m (about 33 ft)");
        const LEAST: Option<(f64, &'static str)> = Some((0.001, "0.001 mm"));
        fn unit_in(system: System) -> (&'static str, usize) {
            match system {
                System::Millimetre => ("mm", 3),
                System::InchDecimal | System::InchFraction => ("in", 4),
            }
        }
        fn entry(self, system: System) -> String {
            match system {
                System::InchFraction => {
                    fraction(self.inches(), 0).unwrap_or_else(|| self.entry_with(system, 0))
                }
                System::InchDecimal | System::Millimetre => self.entry_with(system, 0),
            }
        }
    }
);

measure!(
    /// An angle. Base unit: degree, so that what was typed comes back exactly.
    Angle,
    "an angle",
    "4.5 deg",
    &[("deg", 1.0), ("°", 1.0), ("degrees", 1.0), ("degree", 1.0)],
    {
        const MOST: (f64, &'static str) = (360.0, "360 deg");
        fn unit_in(_: System) -> (&'static str, usize) {
            ("deg", 3)
        }
    }
);

measure!(
    /// A speed over the ground. Base unit: millimetre a second.
    Speed,
    "a speed",
    "3.8 mph, 6 km/h or 1.7 m/s",
    &[
        ("mph", 5280.0 * 12.0 * MM_PER_INCH / 3600.0),
        ("km/h", 1_000_000.0 / 3600.0),
        ("kph", 1_000_000.0 / 3600.0),
        ("m/s", 1000.0),
    ],
    {
        const MOST: (f64, &'static str) = (100_000.0, "100 m/s");
        const LEAST: Option<(f64, &'static str)> = Some((0.1, "0.0001 m/s"));
        fn unit_in(system: System) -> (&'static str, usize) {
            match system {
                System::Millimetre => ("km/h", 2),
                System::InchDecimal | System::InchFraction => ("mph", 2),
            }
        }
    }
);

measure!(
    /// A speed of turning. Base unit: revolution a minute.
    Turning,
    "a turning speed",
    "1200 rpm",
    &[("rpm", 1.0), ("rev/min", 1.0)],
    {
        const MOST: (f64, &'static str) = (100_000.0, "100000 rpm");
        const LEAST: Option<(f64, &'static str)> = Some((0.01, "0.01 rpm"));
        fn unit_in(_: System) -> (&'static str, usize) {
            ("rpm", 0)
        }
    }
);

measure!(
    /// A share of something, written in percent. Base unit: the whole.
    Share,
    "a share",
    "6 %",
    &[("%", 0.01)],
    {
        const MOST: (f64, &'static str) = (100.0, "10000 %");
        fn unit_in(_: System) -> (&'static str, usize) {
            ("%", 2)
        }
    }
);

measure!(
    /// A plain ratio of two like things, written as a bare number or in percent.
    Ratio,
    "a ratio",
    "1.1 or 110 %",
    &[("", 1.0), ("%", 0.01)],
    {
        const MOST: (f64, &'static str) = (1000.0, "1000");
        fn unit_in(_: System) -> (&'static str, usize) {
            ("", 3)
        }
    }
);

impl<N: Copy> Length<N> {
    /// A length of so many millimetres.
    #[must_use]
    pub const fn from_mm(mm: N) -> Self {
        Self(mm)
    }

    /// In millimetres.
    #[must_use]
    pub const fn mm(self) -> N {
        self.0
    }
}

impl Length {
    /// A length of so many inches of exactly 25.4 mm.
    #[must_use]
    pub const fn from_inches(inches: f64) -> Self {
        Self(inches * MM_PER_INCH)
    }

    /// In inches of exactly 25.4 mm.
    #[must_use]
    pub const fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }
}

impl<N: Copy> Angle<N> {
    /// An angle of so many degrees.
    #[must_use]
    pub const fn from_deg(deg: N) -> Self {
        Self(deg)
    }

    /// In degrees.
    #[must_use]
    pub const fn deg(self) -> N {
        self.0
    }
}

impl<N: Mul<f64, Output = N>> Angle<N> {
    /// An angle of so many radians.
    #[must_use]
    pub fn from_rad(rad: N) -> Self {
        Self(rad * (180.0 / PI))
    }

    /// In radians.
    #[must_use]
    pub fn rad(self) -> N {
        self.0 * (PI / 180.0)
    }
}

impl<N: Copy> Speed<N> {
    /// A speed of so many millimetres a second.
    #[must_use]
    pub const fn from_mm_per_s(mm_per_s: N) -> Self {
        Self(mm_per_s)
    }

    /// In millimetres a second.
    #[must_use]
    pub const fn mm_per_s(self) -> N {
        self.0
    }
}

impl<N: Mul<f64, Output = N> + Div<f64, Output = N>> Turning<N> {
    /// A speed of so many revolutions a second.
    #[must_use]
    pub fn from_rev_per_s(rev_per_s: N) -> Self {
        Self(rev_per_s * 60.0)
    }

    /// In revolutions a second.
    #[must_use]
    pub fn rev_per_s(self) -> N {
        self.0 / 60.0
    }
}

impl<N: Copy> Share<N> {
    /// A part of one.
    #[must_use]
    pub const fn from_one(part: N) -> Self {
        Self(part)
    }

    /// As a part of one.
    #[must_use]
    pub const fn of_one(self) -> N {
        self.0
    }
}

impl<N: Copy> Ratio<N> {
    /// From a bare number.
    #[must_use]
    pub const fn from_number(number: N) -> Self {
        Self(number)
    }

    /// As a bare number.
    #[must_use]
    pub const fn number(self) -> N {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[expect(clippy::float_cmp, reason = "exact by definition")]
    fn an_inch_is_exactly_25_4_mm() {
        // International inch, 25.4 mm by definition (1959 agreement; NIST SP 811, appendix B).
        assert_eq!(Length::from_inches(1.0).mm(), 25.4);
        assert_eq!(Length::from_mm(25.4).inches(), 1.0);
    }

    #[test]
    fn a_mile_an_hour_is_0_447_04_m_a_second() {
        // NIST SP 811, appendix B.8: exact.
        let mph = Speed::SYMBOLS.iter().find(|(symbol, _)| *symbol == "mph");
        assert!(mph.is_some_and(|(_, size)| (size - 447.04).abs() < 1e-12));
    }
}
