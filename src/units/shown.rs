//! How values are shown, in the units a person works in.

use super::digits::{SMALL_INCHES, fixed, fraction};
use super::{Angle, Length, Measure as _, Quantity, Ratio, Share, System};

/// Off by less than this an entry is the value itself: far less than anybody measures.
const ROUND_MM: f64 = 1e-6;
/// A limit of so many figures at the most is one that somebody chose.
const ROUND_FIGURES: usize = 2;

impl System {
    /// A length to be read: `0.125 in`, `1/8 in`, `3.18 mm`.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        self.finer_length(length, 0)
    }

    /// The same with so many more decimals.
    pub(super) fn finer_length(self, length: Length, more: usize) -> String {
        let (mm, inches) = (length.mm(), length.inches());
        match self {
            Self::Millimetre => {
                let decimals = match mm.abs() {
                    large if large >= 99.995 => 1,
                    middle if middle >= 9.9995 => 2,
                    _ => 3,
                };
                format!("{} mm", fixed(mm, decimals + more))
            }
            Self::InchDecimal => in_decimals(inches, more),
            // Fractions are for the eye: what lies between them is read in decimals.
            Self::InchFraction => {
                fraction(inches, more).unwrap_or_else(|| in_decimals(inches, more))
            }
        }
    }

    /// A length in a column of lengths that add up: the same decimals whatever its size.
    #[must_use]
    pub fn in_column(self, length: Length) -> String {
        match self {
            Self::Millimetre => format!("{} mm", fixed(length.mm(), 3)),
            Self::InchDecimal | Self::InchFraction => format!("{} in", fixed(length.inches(), 4)),
        }
    }

    /// What a step adds to such a column, a plus before what adds and no sign before what reads as zero.
    #[must_use]
    pub fn step_in_column(self, by: Length) -> String {
        with_plus(by.mm(), self.in_column(by))
    }

    /// A radius of ground to be read: `6.1 m`, `20.0 ft`.
    #[must_use]
    pub fn radius(self, radius: Length) -> String {
        match self {
            Self::Millimetre => format!("{} m", fixed(radius.mm() / 1000.0, 2)),
            Self::InchDecimal | Self::InchFraction => {
                format!("{} ft", fixed(radius.inches() / 12.0, 1))
            }
        }
    }

    /// A length that something is judged by, to be read. What is round in the other kind of unit alone is
    /// told there, with what it reads here beside it: `0.5 mm (0.020 in)`, and not `0.0197 in`.
    #[must_use]
    pub fn limit(self, limit: Length) -> String {
        self.round_elsewhere(limit).map_or_else(
            || self.length(limit),
            |round| format!("{round} ({})", self.about(limit)),
        )
    }

    /// The same with so many more decimals than a length has.
    pub(super) fn finer_limit(self, limit: Length, more: usize) -> String {
        let here = self.finer_length(limit, more);
        match self.round_elsewhere(limit) {
            Some(round) => format!("{round} ({here})"),
            None => here,
        }
    }

    /// How a limit reads in the other kind of unit, where it is round there and not here.
    fn round_elsewhere(self, limit: Length) -> Option<String> {
        let other = if self.is_metric() {
            Self::InchDecimal
        } else {
            Self::Millimetre
        };
        let round_in = |system: Self| {
            let entry = limit.entry(system);
            let read = Quantity::<Length>::parse(&entry).ok()?.value();
            let is_exact = (read - limit).mm().abs() < ROUND_MM;
            (is_exact && figures(&entry) <= ROUND_FIGURES).then_some(entry)
        };
        round_in(self).is_none().then(|| round_in(other)).flatten()
    }

    /// What a limit reads as: the value of the figures that are told of it in this kind of unit.
    pub(super) fn as_read_about(self, limit: Length) -> Length {
        let told = match self.round_elsewhere(limit) {
            Some(_) => self.about(limit),
            None => self.length(limit),
        };
        Quantity::<Length>::parse(&told).map_or(limit, |read| read.value())
    }

    /// About how long a limit is here that is round elsewhere: in two figures, as fine as is read.
    fn about(self, limit: Length) -> String {
        let (number, unit, least, most) = if self.is_metric() {
            (limit.mm(), "mm", 2, 3)
        } else {
            (limit.inches(), "in", 3, 4)
        };
        let decimals = (least..most)
            .find(|decimals| number.abs() * 10.0_f64.powi(*decimals) >= 10.0)
            .unwrap_or(most);
        format!("{} {unit}", fixed(number, decimals.unsigned_abs() as usize))
    }

    /// An angle to be read: `4.50°`.
    #[must_use]
    pub fn angle(self, angle: Angle) -> String {
        Self::finer_angle(angle, 0)
    }

    /// A place of a turn to be read, from 0° round to 360°: `188.13°` for -171.87°.
    #[must_use]
    pub fn round_the_turn(self, at: Angle) -> String {
        let deg = at.deg().rem_euclid(360.0);
        // What would be read as the whole turn is its begin.
        let deg = if deg < 359.995 { deg } else { 0.0 };
        self.angle(Angle::from_deg(deg))
    }

    pub(super) fn finer_angle(angle: Angle, more: usize) -> String {
        format!("{}°", fixed(angle.deg(), 2 + more))
    }

    /// A share to be read: `4.0 %`.
    #[must_use]
    pub fn share(self, share: Share) -> String {
        Self::finer_share(share, 0)
    }

    pub(super) fn finer_share(share: Share, more: usize) -> String {
        format!("{} %", fixed(share.of_one() * 100.0, 1 + more))
    }

    /// A ratio to be read: `1.10`.
    #[must_use]
    pub fn ratio(self, ratio: Ratio) -> String {
        Self::finer_ratio(ratio, 0)
    }

    pub(super) fn finer_ratio(ratio: Ratio, more: usize) -> String {
        fixed(ratio.number(), 2 + more)
    }
}

/// How many figures a number has, the zeros before the first not counted.
fn figures(shown: &str) -> usize {
    let digits = shown.bytes().filter(u8::is_ascii_digit);
    digits.skip_while(|digit| *digit == b'0').count()
}

/// Whether every digit of a quantity that is read is a zero.
#[must_use]
pub fn reads_as_zero(shown: &str) -> bool {
    let mut digits = shown.bytes().filter(u8::is_ascii_digit);
    digits.all(|digit| digit == b'0')
}

/// A change to be read, a plus before what is more than zero and reads so.
#[must_use]
pub fn with_plus(base: f64, shown: String) -> String {
    if base > 0.0 && !reads_as_zero(&shown) {
        format!("+{shown}")
    } else {
        shown
    }
}

fn in_decimals(inches: f64, more: usize) -> String {
    // What rounds up to the small length is no longer small.
    let is_small = inches.abs() < SMALL_INCHES - 0.000_05;
    let decimals = if is_small { 4 } else { 3 };
    format!("{} in", fixed(inches, decimals + more))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_that_is_round_in_the_other_unit_is_read_there_with_what_it_comes_to() {
        let [inch, fractions, mm] = System::ALL;
        let of_mm = [0.5, 0.025, 0.05, 1.0, 1.5, 3.0].map(Length::from_mm);
        assert_eq!(
            of_mm.map(|limit| inch.limit(limit)),
            [
                "0.5 mm (0.020 in)",
                "0.025 mm (0.0010 in)",
                "0.05 mm (0.0020 in)",
                "1 mm (0.039 in)",
                "1.5 mm (0.059 in)",
                "3 mm (0.118 in)"
            ]
        );
        assert_eq!(
            of_mm.map(|limit| fractions.limit(limit))[0],
            "0.5 mm (0.020 in)"
        );
        assert_eq!(of_mm.map(|limit| mm.limit(limit))[0], "0.500 mm");
        let of_inches = [0.02, 0.001, 0.04, 0.06].map(Length::from_inches);
        assert_eq!(
            of_inches.map(|limit| mm.limit(limit)),
            [
                "0.02 in (0.51 mm)",
                "0.001 in (0.025 mm)",
                "0.04 in (1.02 mm)",
                "0.06 in (1.52 mm)"
            ]
        );
        assert_eq!(of_inches.map(|limit| inch.limit(limit))[0], "0.0200 in");
        // Round in neither: as any length reads.
        assert_eq!(inch.limit(Length::from_mm(0.123_456_7)), "0.0049 in");
        assert_eq!(inch.limit(Length::ZERO), "0.0000 in");
    }

    #[test]
    fn a_step_that_reads_as_zero_has_no_sign() {
        let step = |mm: f64| System::Millimetre.step_in_column(Length::from_mm(mm));
        let steps = [0.0, -0.0, 1e-9, -1e-9, 0.0004, 0.001, -0.25].map(step);
        let zero = "0.000 mm";
        let wanted = [zero, zero, zero, zero, zero, "+0.001 mm", "-0.250 mm"];
        assert_eq!(steps, wanted);
        let step = System::InchDecimal.step_in_column(Length::from_mm(1e-6));
        assert_eq!(step, "0.0000 in");
    }

    #[test]
    fn a_length_is_shown_in_each_system() {
        let shown =
            |inches: f64| System::ALL.map(|system| system.length(Length::from_inches(inches)));
        assert_eq!(shown(0.125), ["0.125 in", "1/8 in", "3.175 mm"]);
        assert_eq!(shown(1.375), ["1.375 in", "1-3/8 in", "34.92 mm"]);
        assert_eq!(shown(7.0), ["7.000 in", "7 in", "177.8 mm"]);
        assert_eq!(shown(0.0202), ["0.0202 in", "0.0202 in", "0.513 mm"]);
        assert_eq!(shown(0.015_625), ["0.0156 in", "1/64 in", "0.397 mm"]);
        assert_eq!(shown(-0.375), ["-0.375 in", "-3/8 in", "-9.525 mm"]);
        // Not "9/32 in + 3.7 thou".
        assert_eq!(shown(0.284_93), ["0.285 in", "0.285 in", "7.237 mm"]);
        assert_eq!(shown(-0.377), ["-0.377 in", "-0.377 in", "-9.576 mm"]);
        assert_eq!(shown(0.0), ["0.0000 in", "0.0000 in", "0.000 mm"]);
    }
}
