//! Two values read beside each other, and what the second is more than the first: told so that it goes with
//! the digits that are shown of both.

use super::digits::fixed;
use super::shown::{reads_as_zero, with_plus};
use super::{System, Value};

/// Decimals of an inch that stand beside a fraction.
const FRACTION_DECIMALS: usize = 3;

/// Two values as they are read beside each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// Each of them.
    pub shown: [String; 2],
    /// What the second is more than the first, with its sign: `+0.125 in`, `-2.00°`, `+6.1 points` of two
    /// shares; `same` where it reads as zero. It is the exact difference, rounded no finer than either is shown; of two
    /// shares that of the digits shown, which a room subtracts.
    pub more: String,
    /// Whether the digits shown of both differ by something else.
    pub is_about: bool,
}

impl Compared {
    /// The difference in a line: `+0.125 in`, `about +12.3 points`, `about the same`.
    #[must_use]
    pub fn told(&self) -> String {
        match (self.is_about, self.more == SAME) {
            (false, _) => self.more.clone(),
            (true, true) => "about the same".to_owned(),
            (true, false) => format!("about {}", self.more),
        }
    }
}

impl Compared {
    /// Whether both read the same: neither differs from the other by a digit, or there is none of either.
    #[must_use]
    pub fn reads_same(&self) -> bool {
        self.more == SAME || self.shown[0] == self.shown[1]
    }
}

/// A difference that reads as zero.
const SAME: &str = "same";

impl Value {
    /// This value and another one of its kind beside each other. Fractions of an inch stand there where both
    /// values and their difference are fractions, else all three are decimals.
    #[must_use]
    pub fn compared(self, other: Self, system: System) -> Compared {
        let more = self.with_base(other.base() - self.base());
        let all = [self, other, more];
        let has_decimals = |value: Self| value.with_sign(system).contains('.');
        let system = match system {
            System::InchFraction if all.into_iter().any(has_decimals) => System::InchDecimal,
            system => system,
        };
        let [one, another, exact] = all.map(|value| value.with_sign(system));
        let (shown_more, is_about) = match [&one, &another, &exact].map(|text| Number::of(text)) {
            [Some(one), Some(another), Some(exact)] if matches!(self, Self::Share(_)) => {
                let shown = Number {
                    value: another.value - one.value,
                    ..exact
                };
                (
                    shown
                        .no_finer_than([one, another], Some(shown.value))
                        .written(),
                    false,
                )
            }
            [Some(one), Some(another), Some(exact)] => {
                let exact = exact.no_finer_than([one, another], more.in_shown_units(system));
                let off = (another.value - one.value - exact.value).abs();
                (exact.written(), off > 0.5 * exact.last_place() + 1e-9)
            }
            _ => (exact, false),
        };
        let told = match self {
            _ if reads_as_zero(&shown_more) => SAME.to_owned(),
            Self::Share(_) if shown_more.starts_with('-') => shown_more.replace('%', "points"),
            Self::Share(_) => format!("+{}", shown_more.replace('%', "points")),
            _ => with_plus(more.base(), shown_more),
        };
        Compared {
            shown: [self, other].map(|value| value.shown_in(system)),
            more: told,
            is_about,
        }
    }

    /// As it is shown, with a sign: a move's words tell a place, not how far two are apart.
    fn with_sign(self, system: System) -> String {
        match self {
            Self::Move(length) | Self::MoveOf(_, length) => system.length(length),
            other => other.shown_in(system),
        }
    }

    /// The number that its digits round; none where a kind has no one unit.
    fn in_shown_units(self, system: System) -> Option<f64> {
        match self {
            Self::Length(length) | Self::Move(length) | Self::MoveOf(_, length) => {
                Some(if system.is_metric() {
                    length.mm()
                } else {
                    length.inches()
                })
            }
            Self::Angle(angle) => Some(angle.deg()),
            Self::Share(share) => Some(100.0 * share.of_one()),
            Self::Ratio(ratio) => Some(ratio.number()),
            Self::Limit(_) | Self::Radius(_) | Self::Speed(_) | Self::Turning(_) => None,
        }
    }
}

/// A quantity as it stands in digits.
#[derive(Clone, Copy, Debug)]
struct Number<'a> {
    value: f64,
    /// Decimals; none of a fraction.
    decimals: Option<usize>,
    text: &'a str,
    /// What stands behind its digits.
    unit: &'a str,
}

impl<'a> Number<'a> {
    /// Reads the number that a shown quantity begins with: `-0.0183 in`, `1-3/8 in`, `4.1 %`.
    fn of(text: &'a str) -> Option<Self> {
        let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-');
        let end = text.find(|c| !is_number(c)).unwrap_or(text.len());
        let (number, unit) = text.split_at(end);
        let (sign, number) = match number.strip_prefix('-') {
            Some(number) => (-1.0, number),
            None => (1.0, number),
        };
        let parsed = |number: &str| number.parse::<f64>().ok();
        let (whole, part) = number.rsplit_once('-').unwrap_or(("0", number));
        let (value, decimals) = if let Some((upper, lower)) = part.split_once('/') {
            (parsed(upper)? / parsed(lower)?, None)
        } else {
            let decimals = part.split_once('.').map_or(0, |(_, after)| after.len());
            (parsed(part)?, Some(decimals))
        };
        Some(Self {
            value: sign * (parsed(whole)? + value),
            decimals,
            text,
            unit,
        })
    }

    /// What a one is worth in the last place; what one of a decimal has, where it is a fraction.
    fn last_place(self) -> f64 {
        let decimals = self.decimals.unwrap_or(FRACTION_DECIMALS);
        0.1_f64.powi(i32::try_from(decimals).unwrap_or(i32::MAX))
    }

    /// With no more decimals than the coarser of two, rounded from what it is exactly.
    fn no_finer_than(self, two: [Self; 2], exact: Option<f64>) -> Self {
        let coarsest = two.into_iter().filter_map(|number| number.decimals).min();
        match (self.decimals, coarsest, exact) {
            (Some(own), Some(coarsest), Some(exact)) if own > coarsest => {
                let factor = 10.0_f64.powi(i32::try_from(coarsest).unwrap_or(i32::MAX));
                Self {
                    value: (exact * factor).round() / factor,
                    decimals: Some(coarsest),
                    ..self
                }
            }
            _ => self,
        }
    }

    fn written(self) -> String {
        match self.decimals {
            Some(decimals) => format!("{}{}", fixed(self.value, decimals), self.unit),
            None => self.text.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Angle, Length, Measure as _, Share};

    fn inches(inches: f64) -> Value {
        Value::from(Length::from_inches(inches))
    }

    #[test]
    fn a_difference_has_its_sign_and_its_unit() {
        let from_zero = |value: Value, system| value.with_base(0.0).compared(value, system).more;
        let shown = |value: Value| System::ALL.map(|system| from_zero(value, system));
        assert_eq!(shown(inches(-1e-7)), ["same"; 3]);
        assert_eq!(shown(Share::from_base(0.0612).into()), ["+6.1 points"; 3]);
        assert_eq!(shown(Angle::from_deg(-2.0).into()), ["-2.00°"; 3]);
        let down = Value::Move(Length::from_inches(-0.125));
        assert_eq!(from_zero(down, System::InchDecimal), "-0.125 in");
        let more = |one: f64, other: f64| {
            System::ALL.map(|system| inches(one).compared(inches(other), system).more)
        };
        assert_eq!(more(0.25, 0.375), ["+0.125 in", "+1/8 in", "+3.175 mm"]);
        assert_eq!(more(0.5, 0.125), ["-0.375 in", "-3/8 in", "-9.52 mm"]);
        assert_eq!(more(1.375, 2.0), ["+0.625 in", "+5/8 in", "+15.88 mm"]);
    }

    #[test]
    fn where_the_shown_digits_differ_by_something_else_it_is_about() {
        let share = |percent: f64| Value::from(Share::from_base(0.01 * percent));
        let told = |one: Value, other: Value| one.compared(other, System::InchDecimal).told();
        // Shown are 4.1 % and 16.5 %, which differ by 12.4.
        assert_eq!(told(share(4.146), share(16.48)), "+12.4 points");
        assert_eq!(told(share(4.1), share(16.5)), "+12.4 points");
        assert_eq!(told(share(16.48), share(4.146)), "-12.4 points");
        // Shown are 4.1 % and 4.2 %, and twice 4.2 %.
        assert_eq!(told(share(4.14), share(4.16)), "+0.1 points");
        assert_eq!(told(share(4.16), share(4.24)), "same");
        assert_eq!(told(share(4.14), share(4.14)), "same");
        assert_eq!(told(inches(0.0036), inches(0.0035)), "-0.0001 in");
        // No finer than what is shown: both read 0.150 in.
        assert_eq!(told(inches(0.1502), inches(0.1499)), "same");
        // A small one has a digit more, which the difference need not have.
        assert_eq!(told(inches(0.0183), inches(0.125)), "+0.107 in");
    }

    #[test]
    fn fractions_stand_beside_fractions_alone() {
        let compared =
            |one: f64, other: f64| inches(one).compared(inches(other), System::InchFraction);
        let Compared { shown, more, .. } = compared(0.015_625, 0.0044);
        assert_eq!(shown, ["0.0156 in", "0.0044 in"]);
        assert_eq!(more, "-0.0112 in");
        let Compared { shown, more, .. } = compared(0.5, 0.125);
        assert_eq!(
            (shown, more.as_str()),
            (["1/2 in", "1/8 in"].map(str::to_owned), "-3/8 in")
        );
    }

    /// Whatever two values are shown as: a difference that is not told as about one never contradicts them.
    #[test]
    fn a_difference_that_is_plain_is_that_of_the_digits() {
        let read = |text: &str| Number::of(text).expect("it is a number").value;
        let mut about = 0;
        for step in 0..2000_u32 {
            let [one, other] = [7, 13].map(|by| f64::from(step * by % 997) * 0.003_717);
            for system in System::ALL {
                let compared = inches(one).compared(inches(other), system);
                if compared.is_about {
                    about += 1;
                    continue;
                }
                let [one, other] = compared.shown.each_ref().map(|shown| read(shown));
                let more = match compared.more.as_str() {
                    "same" => 0.0,
                    more => read(more.trim_start_matches('+')),
                };
                let most = if system.is_metric() {
                    0.005_01
                } else {
                    0.000_501
                };
                assert!((other - one - more).abs() < most, "{one} {other}: {more}");
            }
        }
        assert!((1..4500).contains(&about), "{about}");
    }
}
