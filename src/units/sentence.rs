//! Sentences with quantities in them, kept as values until somebody reads them in their own units.

use super::{Angle, Length, Measure as _, Ratio, Rollers, Share, Speed, System, Turning};

/// The most quantities one sentence holds.
const MOST_VALUES: usize = 6;
/// How many more decimals are written at the most to tell a number from its limit.
const MOST_MORE_DECIMALS: usize = 4;

/// A quantity inside a sentence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A share, in percent.
    Share(Share),
    /// A bare ratio.
    Ratio(Ratio),
    /// A speed over the ground.
    Speed(Speed),
    /// A speed of turning.
    Turning(Turning),
    /// A length that something is judged by.
    Limit(Length),
    /// A radius of the ground.
    Radius(Length),
    /// A roller's move in its bracket, in the shop's words: up is towards the reel.
    Move(Length),
    /// The same as what is to be done, with the rollers named.
    MoveOf(Rollers, Length),
}

impl Value {
    /// How many base units it is: millimetres, degrees, parts of one.
    #[must_use]
    pub fn base(self) -> f64 {
        match self {
            Self::Length(length)
            | Self::Limit(length)
            | Self::Radius(length)
            | Self::Move(length)
            | Self::MoveOf(_, length) => length.base(),
            Self::Angle(angle) => angle.base(),
            Self::Share(share) => share.base(),
            Self::Ratio(ratio) => ratio.base(),
            Self::Speed(speed) => speed.base(),
            Self::Turning(turning) => turning.base(),
        }
    }

    /// So many base units of the same kind.
    #[must_use]
    pub fn with_base(self, base: f64) -> Self {
        match self {
            Self::Length(_) => Self::Length(Length::from_base(base)),
            Self::Limit(_) => Self::Limit(Length::from_base(base)),
            Self::Radius(_) => Self::Radius(Length::from_base(base)),
            Self::Move(_) => Self::Move(Length::from_base(base)),
            Self::MoveOf(rollers, _) => Self::MoveOf(rollers, Length::from_base(base)),
            Self::Angle(_) => Self::Angle(Angle::from_base(base)),
            Self::Share(_) => Self::Share(Share::from_base(base)),
            Self::Ratio(_) => Self::Ratio(Ratio::from_base(base)),
            Self::Speed(_) => Self::Speed(Speed::from_base(base)),
            Self::Turning(_) => Self::Turning(Turning::from_base(base)),
        }
    }

    /// The quantity as it reads in `system`.
    #[must_use]
    pub fn shown_in(self, system: System) -> String {
        match self {
            Self::Length(length) => system.length(length),
            Self::Limit(limit) => system.limit(limit),
            Self::Angle(angle) => system.angle(angle),
            Self::Share(share) => system.share(share),
            Self::Ratio(ratio) => system.ratio(ratio),
            Self::Speed(speed) => speed.entry(system),
            Self::Turning(turning) => turning.entry(system),
            Self::Radius(length) => system.radius(length),
            Self::Move(length) => system.roller_move(length),
            Self::MoveOf(rollers, length) => system.move_of(rollers, length),
        }
    }

    /// The same with so many more decimals, where they are written.
    fn finer_in(self, system: System, more: usize) -> String {
        match self {
            Self::Length(length) => system.finer_length(length, more),
            Self::Limit(limit) => system.finer_limit(limit, more),
            Self::Angle(angle) => System::finer_angle(angle, more),
            Self::Share(share) => System::finer_share(share, more),
            Self::Ratio(ratio) => System::finer_ratio(ratio, more),
            Self::Speed(_)
            | Self::Turning(_)
            | Self::Radius(_)
            | Self::Move(_)
            | Self::MoveOf(..) => self.shown_in(system),
        }
    }

    /// The manner in which it is read where fractions are: decimals for a length that is none.
    fn manner_in(self, system: System) -> System {
        let is_in_decimals = match self {
            Self::Length(length) | Self::Limit(length) => {
                system == System::InchFraction
                    && system.length(length) == System::InchDecimal.length(length)
            }
            _ => false,
        };
        if is_in_decimals {
            System::InchDecimal
        } else {
            system
        }
    }

    /// It as what something is judged by.
    #[must_use]
    pub const fn as_limit(self) -> Self {
        match self {
            Self::Length(length) => Self::Limit(length),
            other => other,
        }
    }

    /// A limit as a quantity like any other.
    const fn as_number(self) -> Self {
        match self {
            Self::Limit(limit) => Self::Length(limit),
            other => other,
        }
    }

    /// Whether it reads like another of its kind although it is another.
    fn is_mistaken_for(self, other: Self, system: System, more: usize) -> bool {
        let other = other.as_number();
        self.with_base(other.base()) == other
            && self != other
            && self.finer_in(system, more) == other.finer_in(system, more)
    }

    /// Whether what a limit comes to, told in few figures, reads on another side of it than it stands, or
    /// like it.
    fn seems_past(self, limit: Self, system: System) -> bool {
        let Self::Limit(length) = limit else {
            return false;
        };
        let about = system.as_read_about(length);
        let read = self.as_read_in(system).base();
        (read - about.mm()) * (self.base() - length.mm()) <= 0.0 && self != limit.as_number()
    }
}

macro_rules! value_from {
    ($($kind:ident),*) => {
        $(impl From<$kind> for Value {
            fn from(quantity: $kind) -> Self {
                Self::$kind(quantity)
            }
        })*
    };
}

value_from!(Length, Angle, Share, Ratio, Speed, Turning);

/// A sentence whose every `{}` stands for a quantity. No allocation until it is read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sentence {
    template: &'static str,
    values: [Option<Value>; MOST_VALUES],
    /// The place of the number that is judged by those of its kind after it.
    judged: Option<usize>,
}

impl Sentence {
    /// A sentence with its quantities in order, one for each `{}`.
    ///
    /// One with more quantities than a sentence holds does not compile:
    ///
    /// ```compile_fail,E0080
    /// # use sweepgauge::units::{Length, Sentence};
    /// let seven = [Length::ZERO.into(); 7];
    /// let _ = Sentence::new("{} {} {} {} {} {} {}", &seven);
    /// ```
    #[must_use]
    pub fn new<const N: usize>(template: &'static str, values: &[Value; N]) -> Self {
        const { assert!(N <= MOST_VALUES, "a sentence holds fewer quantities") };
        debug_assert_eq!(template.matches("{}").count(), N, "{template}");
        let mut kept = [None; MOST_VALUES];
        for (place, value) in kept.iter_mut().zip(values) {
            *place = Some(*value);
        }
        Self {
            template,
            values: kept,
            judged: None,
        }
    }

    /// The same sentence, whose quantity at a place is judged by the limits of its kind after it:
    /// where they differ, they read differently, with more decimals if it takes them.
    #[must_use]
    pub const fn judging(mut self, place: usize) -> Self {
        self.judged = Some(place);
        self
    }

    /// The sentence as a person who works in `system` reads it.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let mut values = self.readings(system).into_iter();
        let mut text = String::with_capacity(self.template.len() + 48);
        for (index, piece) in self.template.split("{}").enumerate() {
            if index > 0
                && let Some(value) = values.next()
            {
                text.push_str(&value);
            }
            text.push_str(piece);
        }
        text
    }

    /// How each quantity reads.
    fn readings(&self, system: System) -> Vec<String> {
        let values: Vec<Value> = self.values.iter().flatten().copied().collect();
        let mut read: Vec<_> = values.iter().map(|value| value.shown_in(system)).collect();
        let Some((place, number)) = self.judged.and_then(|at| Some((at, *values.get(at)?))) else {
            return read;
        };
        // A number that is read in decimals has its limits beside it in decimals.
        let system = number.manner_in(system);
        let limits = values.iter().enumerate().skip(place + 1);
        for (limit_place, limit) in limits {
            if limit.as_number().with_base(0.0) == number.with_base(0.0) {
                read[limit_place] = limit.shown_in(system);
            }
            if !number.is_mistaken_for(*limit, system, 0) {
                if number.seems_past(*limit, system) {
                    read[limit_place] = limit.finer_in(system, 0);
                }
                continue;
            }
            let told_apart = (1..=MOST_MORE_DECIMALS)
                .find(|more| !number.is_mistaken_for(*limit, system, *more));
            if let Some(more) = told_apart {
                read[place] = number.finer_in(system, more);
                read[limit_place] = limit.finer_in(system, more);
            }
        }
        read
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_sentence_drops_no_value() {
        let lengths = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0].map(|mm| Length::from_mm(mm).into());
        let full: Sentence = Sentence::new("{}, {}, {}, {}, {}, {}", &lengths);
        assert_eq!(
            full.shown_in(System::Millimetre),
            "1.000 mm, 2.000 mm, 3.000 mm, 4.000 mm, 5.000 mm, 6.000 mm"
        );
    }

    #[test]
    fn a_number_past_its_limit_never_reads_like_the_limit() {
        let told = |percent: f64, watch: f64| {
            let share = |percent: f64| Share::from_base(percent / 100.0).into();
            let values = [share(percent), share(watch), share(10.0)];
            let sentence = Sentence::new("{} (watch above {}, over above {})", &values);
            sentence.judging(0).shown_in(System::Millimetre)
        };
        let plain = "5.0 % (watch above 5.0 %, over above 10.0 %)";
        assert_eq!(told(5.0, 5.0), plain);
        assert_eq!(
            told(5.04, 5.0),
            "5.04 % (watch above 5.00 %, over above 10.0 %)"
        );
        assert_eq!(
            told(4.997, 5.0),
            "4.997 % (watch above 5.000 %, over above 10.0 %)"
        );
        assert_eq!(
            told(10.001, 5.0),
            "10.001 % (watch above 5.0 %, over above 10.000 %)"
        );
        // What no measuring tells apart is the same.
        assert_eq!(told(5.0 + 1e-9, 5.0), plain);
        let lengths = [0.0100, 0.010_01].map(|inches| Length::from_inches(inches).into());
        let sentence = Sentence::new("{} (minimum {})", &lengths).judging(0);
        let shown = System::ALL.map(|system| sentence.shown_in(system));
        assert_eq!(shown[0], "0.01000 in (minimum 0.01001 in)");
        assert_eq!(shown[1], "0.01000 in (minimum 0.01001 in)");
        assert_eq!(shown[2], "0.2540 mm (minimum 0.2543 mm)");
    }

    #[test]
    fn a_number_in_decimals_has_its_limit_in_decimals() {
        let told = |inches: f64| {
            let values = [inches, 6.5].map(|inches| Length::from_inches(inches).into());
            let sentence = Sentence::new("{}, minimum {}", &values).judging(0);
            sentence.shown_in(System::InchFraction)
        };
        assert_eq!(told(6.49), "6.490 in, minimum 6.500 in");
        assert_eq!(told(6.4999), "6.4999 in, minimum 6.5000 in");
        assert_eq!(told(6.375), "6-3/8 in, minimum 6-1/2 in");
    }

    #[test]
    fn a_sentence_reads_in_the_units_of_its_reader() {
        let sentence = Sentence::new(
            "{} below the cut at {}.",
            &[
                Length::from_inches(0.02).into(),
                Angle::from_deg(4.0).into(),
            ],
        );
        assert_eq!(
            sentence.shown_in(System::InchDecimal),
            "0.0200 in below the cut at 4.00°."
        );
        assert_eq!(
            sentence.shown_in(System::Millimetre),
            "0.508 mm below the cut at 4.00°."
        );
    }
}
