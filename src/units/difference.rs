//! What one value is more than another, told so that it goes with the digits that are shown of both.

use super::shown::{reads_as_zero, with_plus};
use super::{System, Value};

/// Decimals of an inch that stand beside a fraction.
const FRACTION_DECIMALS: usize = 3;

impl Value {
    /// What another one is more than this one, to be read with its sign: `+0.125 in`, `-2.00°`,
    /// `+6.1 % points`; `same` where it reads as zero. It is the exact difference, rounded; where the digits
    /// that are shown of both differ by something else, `about` or `about the same`.
    #[must_use]
    pub fn more_in(self, other: Self, system: System) -> String {
        let more = self.with_base(other.base() - self.base());
        let shown = more.with_sign(system);
        let digits = [self, other, more].map(|value| read_number(&value.with_sign(system)));
        let is_about = match digits {
            [Some(one), Some(other), Some(more)] => {
                let off = (other.value - one.value - more.value).abs();
                off > 0.5 * more.last_place + 1e-9
            }
            _ => false,
        };
        if reads_as_zero(&shown) {
            let told = if is_about { "about the same" } else { "same" };
            return told.to_owned();
        }
        let shown = match self {
            Self::Share(_) => format!("{shown} points"),
            _ => shown,
        };
        let told = with_plus(more.base(), shown);
        if is_about {
            format!("about {told}")
        } else {
            told
        }
    }

    /// As it is shown, with a sign: a move's words tell a place, not how far two are apart.
    fn with_sign(self, system: System) -> String {
        match self {
            Self::Move(length) => system.length(length),
            other => other.shown_in(system),
        }
    }
}

/// A number as it stands in digits.
#[derive(Clone, Copy, Debug)]
struct ReadNumber {
    value: f64,
    /// What a one is worth in the last place; what a decimal of that size has, where it is a fraction.
    last_place: f64,
}

/// Reads the number that a shown quantity begins with: `-0.0183 in`, `1-3/8 in`, `4.1 %`.
fn read_number(shown: &str) -> Option<ReadNumber> {
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-');
    let end = shown.find(|c| !is_number(c)).unwrap_or(shown.len());
    let (sign, number) = match shown[..end].strip_prefix('-') {
        Some(number) => (-1.0, number),
        None => (1.0, &shown[..end]),
    };
    let (whole, part) = number.rsplit_once('-').unwrap_or(("0", number));
    let (value, decimals) = match part.split_once('/') {
        Some((upper, lower)) => (parsed(upper)? / parsed(lower)?, FRACTION_DECIMALS),
        None => (
            parsed(part)?,
            part.split_once('.').map_or(0, |(_, after)| after.len()),
        ),
    };
    let decimals = i32::try_from(decimals).ok()?;
    Some(ReadNumber {
        value: sign * (parsed(whole)? + value),
        last_place: 0.1_f64.powi(decimals),
    })
}

fn parsed(number: &str) -> Option<f64> {
    number.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Angle, Length, Measure as _, Share};

    #[test]
    fn a_difference_has_its_sign_and_its_unit() {
        let length = |inches: f64| Value::from(Length::from_inches(inches));
        let from_zero = |value: Value, system| value.with_base(0.0).more_in(value, system);
        let shown = |value: Value| System::ALL.map(|system| from_zero(value, system));
        assert_eq!(shown(length(0.125)), ["+0.125 in", "+1/8 in", "+3.175 mm"]);
        assert_eq!(shown(length(-0.375)), ["-0.375 in", "-3/8 in", "-9.525 mm"]);
        assert_eq!(shown(length(1e-7)), ["same"; 3]);
        assert_eq!(shown(length(-1e-7)), ["same"; 3]);
        assert_eq!(shown(Share::from_base(0.0612).into()), ["+6.1 % points"; 3]);
        assert_eq!(shown(Angle::from_deg(-2.0).into()), ["-2.00°"; 3]);
        let down = Value::Move(Length::from_inches(-0.125));
        assert_eq!(from_zero(down, System::InchDecimal), "-0.125 in");
    }

    #[test]
    fn where_the_shown_digits_differ_by_something_else_it_is_about() {
        let share = |percent: f64| Value::from(Share::from_base(0.01 * percent));
        let told = |one: Value, other: Value| one.more_in(other, System::InchDecimal);
        // Shown are 4.1 % and 16.5 %, which differ by 12.4.
        assert_eq!(told(share(4.146), share(16.48)), "about +12.3 % points");
        assert_eq!(told(share(4.1), share(16.5)), "+12.4 % points");
        // Shown are 4.1 % and 4.2 %.
        assert_eq!(told(share(4.14), share(4.16)), "about the same");
        assert_eq!(told(share(4.16), share(4.24)), "about +0.1 % points");
        assert_eq!(told(share(4.14), share(4.14)), "same");
        let length = |inches: f64| Value::from(Length::from_inches(inches));
        // Small ones have a digit more, which the difference need not have.
        assert_eq!(told(length(0.0183), length(0.125)), "+0.107 in");
        assert_eq!(told(length(0.09996), length(0.2494)), "+0.149 in");
        let fractions = |one: f64, other: f64| {
            let [one, other] = [one, other].map(length);
            one.more_in(other, System::InchFraction)
        };
        assert_eq!(fractions(0.5, 0.125), "-3/8 in");
        assert_eq!(fractions(1.375, 2.0), "+5/8 in");
        assert_eq!(fractions(0.3334, 0.4584), "+1/8 in");
        assert_eq!(fractions(0.3334, 0.4586), "about +0.125 in");
    }

    /// Whatever two values are shown as: a difference that is not told as about one never contradicts them.
    #[test]
    fn a_difference_that_is_plain_is_that_of_the_digits() {
        let read = |text: &str| read_number(text).expect("it is a number").value;
        let mut about = 0;
        for step in 0..2000_u32 {
            let [one, other] = [7, 13].map(|by| f64::from(step * by % 997) * 0.003_717);
            for system in System::ALL {
                let [one, other] =
                    [one, other].map(|inches| Value::from(Length::from_inches(inches)));
                let told = one.more_in(other, system);
                if told.starts_with("about") {
                    about += 1;
                    continue;
                }
                let [one, other] = [one, other].map(|value| read(&value.shown_in(system)));
                let more = if told == "same" {
                    0.0
                } else {
                    read(told.trim_start_matches('+'))
                };
                let most = if system.is_metric() {
                    0.005_01
                } else {
                    0.000_501
                };
                assert!((other - one - more).abs() < most, "{one} {other}: {told}");
            }
        }
        assert!((1..4500).contains(&about), "{about}");
    }
}
