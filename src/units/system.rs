//! How values are shown: decimal inches, fractions and thou, or millimetres.

use super::{Angle, Length, Ratio, Share};

/// The units a person works in. It changes what is shown, never a stored value.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum System {
    /// `0.125 in`.
    #[default]
    InchDecimal,
    /// `1/8 in`, `1-3/8 in + 4 thou`, small lengths in thou.
    InchFraction,
    /// `3.18 mm`.
    Millimetre,
}

/// Below this many inches a length is shown finer, or in thou.
const SMALL_INCHES: f64 = 0.1;
/// The finest fraction shown, in parts of an inch.
const FINEST_FRACTION: f64 = 64.0;

impl System {
    /// Every system, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::InchDecimal, Self::InchFraction, Self::Millimetre];

    /// Its name in the unit switch.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::InchDecimal => "in, decimal",
            Self::InchFraction => "in, fraction + thou",
            Self::Millimetre => "mm",
        }
    }

    /// A length to be read: `0.125 in`, `1/8 in`, `3.18 mm`.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        let (mm, inches) = (length.mm(), length.inches());
        match self {
            Self::Millimetre => {
                let decimals = match mm.abs() {
                    large if large >= 99.995 => 1,
                    middle if middle >= 9.9995 => 2,
                    _ => 3,
                };
                format!("{} mm", fixed(mm, decimals))
            }
            Self::InchDecimal => {
                // What rounds up to the small length is no longer small.
                let is_small = inches.abs() < SMALL_INCHES - 0.000_05;
                let decimals = if is_small { 4 } else { 3 };
                format!("{} in", fixed(inches, decimals))
            }
            Self::InchFraction => fraction(inches, |thou| fixed(thou, 1)),
        }
    }

    /// A length in a column of lengths that add up: the same decimals whatever its size, fractions
    /// of an inch in thou.
    #[must_use]
    pub fn in_column(self, length: Length) -> String {
        match self {
            Self::Millimetre => format!("{} mm", fixed(length.mm(), 3)),
            Self::InchDecimal => format!("{} in", fixed(length.inches(), 4)),
            Self::InchFraction => format!("{} thou", fixed(length.inches() * 1000.0, 1)),
        }
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

    /// An angle to be read: `4.50°`.
    #[must_use]
    pub fn angle(self, angle: Angle) -> String {
        format!("{}°", fixed(angle.deg(), 2))
    }

    /// A share to be read: `4.0 %`.
    #[must_use]
    pub fn share(self, share: Share) -> String {
        format!("{} %", fixed(share.of_one() * 100.0, 1))
    }

    /// A ratio to be read: `1.10`.
    #[must_use]
    pub fn ratio(self, ratio: Ratio) -> String {
        fixed(ratio.number(), 2)
    }

    /// A roller's move in its bracket to be read: `up 0.118 in` towards the reel, `down` from it,
    /// `unchanged` where it reads as zero.
    #[must_use]
    pub fn roller_move(self, moved: Length) -> String {
        let shown = self.length(Length::from_mm(moved.mm().abs()));
        let is_zero = shown
            .bytes()
            .filter(u8::is_ascii_digit)
            .all(|digit| digit == b'0');
        match moved.mm() {
            _ if is_zero => "unchanged".to_owned(),
            mm if mm > 0.0 => format!("up {shown}"),
            _ => format!("down {shown}"),
        }
    }

    pub(super) fn length_entry(self, length: Length) -> String {
        match self {
            Self::Millimetre => format!("{} mm", trimmed(length.mm(), 3)),
            Self::InchDecimal => format!("{} in", trimmed(length.inches(), 4)),
            Self::InchFraction => fraction(length.inches(), |thou| trimmed(thou, 1)),
        }
    }
}

/// A number with so many decimals, and no minus before a zero.
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_zero = text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    if is_zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

pub(super) fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// `1-3/8 in`, with what the nearest 64th leaves over in thou.
fn fraction(inches: f64, write_thou: impl Fn(f64) -> String) -> String {
    if inches.abs() < SMALL_INCHES {
        return format!("{} thou", write_thou(inches * 1000.0));
    }
    let magnitude = inches.abs();
    let parts = (magnitude * FINEST_FRACTION).round();
    let left_over_thou = (magnitude - parts / FINEST_FRACTION) * 1000.0;
    let whole = (parts / FINEST_FRACTION).floor();
    let (mut upper, mut lower) = (parts - whole * FINEST_FRACTION, FINEST_FRACTION);
    while upper > 0.0 && upper % 2.0 == 0.0 {
        upper /= 2.0;
        lower /= 2.0;
    }
    let sign = if inches < 0.0 { "-" } else { "" };
    let main = match (whole > 0.0, upper > 0.0) {
        (true, true) => format!("{sign}{whole}-{upper}/{lower} in"),
        (true, false) => format!("{sign}{whole} in"),
        _ => format!("{sign}{upper}/{lower} in"),
    };
    let rest = write_thou(left_over_thou.abs());
    if rest.bytes().all(|b| matches!(b, b'0' | b'.')) {
        return main;
    }
    let joint = if (left_over_thou > 0.0) == (inches > 0.0) {
        '+'
    } else {
        '-'
    };
    format!("{main} {joint} {rest} thou")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_shown_in_each_system() {
        let shown =
            |inches: f64| System::ALL.map(|system| system.length(Length::from_inches(inches)));
        assert_eq!(shown(0.125), ["0.125 in", "1/8 in", "3.175 mm"]);
        assert_eq!(shown(1.375), ["1.375 in", "1-3/8 in", "34.92 mm"]);
        assert_eq!(shown(7.0), ["7.000 in", "7 in", "177.8 mm"]);
        assert_eq!(shown(0.0202), ["0.0202 in", "20.2 thou", "0.513 mm"]);
        assert_eq!(
            shown(-0.377),
            ["-0.377 in", "-3/8 in - 2.0 thou", "-9.576 mm"]
        );
        assert_eq!(shown(0.0), ["0.0000 in", "0.0 thou", "0.000 mm"]);
    }
}
