//! How values are shown, in the units a person works in.

use super::digits::{SMALL_INCHES, fixed, fraction};
use super::{Angle, Length, Measure as _, Ratio, Share, System};

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

    /// A length that was chosen round in one system, as somebody reads it in this one, with the round one
    /// beside it where the two differ: `0.0197 in (0.5 mm)`.
    #[must_use]
    pub fn length_chosen_in(self, own: Self, length: Length) -> String {
        let shown = length.entry(self);
        if self.is_metric() == own.is_metric() {
            return shown;
        }
        format!("{shown} ({})", length.entry(own))
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

    /// A roller's move in its bracket to be read: `up 0.118 in` towards the reel, `down` from it,
    /// `unchanged` where it reads as zero.
    #[must_use]
    pub fn roller_move(self, moved: Length) -> String {
        let shown = self.length(Length::from_mm(moved.mm().abs()));
        match moved.mm() {
            _ if reads_as_zero(&shown) => "unchanged".to_owned(),
            mm if mm > 0.0 => format!("up {shown}"),
            _ => format!("down {shown}"),
        }
    }
}

/// Whether every digit of a quantity that is read is a zero.
fn reads_as_zero(shown: &str) -> bool {
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
    fn a_length_chosen_round_in_one_system_is_read_with_that_beside_it_in_the_other() {
        let half_mm = Length::from_mm(0.5);
        let read_in = |reader: System, own| reader.length_chosen_in(own, half_mm);
        assert_eq!(
            read_in(System::InchDecimal, System::Millimetre),
            "0.0197 in (0.5 mm)"
        );
        assert_eq!(read_in(System::Millimetre, System::Millimetre), "0.5 mm");
        let fractions = read_in(System::InchDecimal, System::InchFraction);
        assert_eq!(fractions, "0.0197 in");
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
