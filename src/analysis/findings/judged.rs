//! What a finding judges: one number, and the limits that say how it stands.

use super::Level;
use crate::units::{Measure, Sentence, System, Value};

/// Which side of a limit is the good one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Up to the limit, the limit itself included.
    AtMost,
    /// From the limit up, the limit itself included.
    AtLeast,
    /// Above the limit; on it is already too low.
    MoreThan,
}

/// One limit of a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// How the finding stands once the limit is passed.
    pub level: Level,
    /// Where it lies, in the base unit of the number that is judged.
    pub at_base: f64,
    /// Its good side.
    pub side: Side,
}

impl Bound {
    pub(super) fn new(level: Level, side: Side, at: impl Measure) -> Self {
        Self {
            level,
            at_base: at.base(),
            side,
        }
    }

    /// How far a value lies on the good side, in base units; negative past the limit.
    #[must_use]
    pub fn margin(&self, value_base: f64) -> f64 {
        match self.side {
            Side::AtMost => self.at_base - value_base,
            Side::AtLeast | Side::MoreThan => value_base - self.at_base,
        }
    }

    fn is_passed_by(&self, value: f64) -> bool {
        let margin = self.margin(value);
        margin < 0.0 || margin == 0.0 && self.side == Side::MoreThan
    }
}

/// The most limits that one number has.
const MOST_BOUNDS: usize = 3;

/// A number of the solution that is judged, with its limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The number.
    pub value: Value,
    /// Its limits, on either side the one that is passed first in front.
    pub bounds: [Option<Bound>; MOST_BOUNDS],
}

impl Judged {
    pub(super) fn by<const N: usize>(value: impl Into<Value>, bounds: [Option<Bound>; N]) -> Self {
        const { assert!(N <= MOST_BOUNDS, "a number has fewer limits") };
        let mut kept = [None; MOST_BOUNDS];
        kept[..N].copy_from_slice(&bounds);
        Self {
            value: value.into(),
            bounds: kept,
        }
    }

    /// The limits there are.
    pub fn limits(&self) -> impl Iterator<Item = &Bound> {
        self.bounds.iter().flatten()
    }

    /// How far the number lies inside the nearest of its limits, in base units; negative past one.
    #[must_use]
    pub fn margin(&self) -> f64 {
        let value = self.value.base();
        let margins = self.limits().map(|bound| bound.margin(value));
        margins.fold(f64::INFINITY, f64::min)
    }

    /// The nearest limit that lies within `off` of the number, both in base units.
    pub(in crate::analysis) fn doubt(&self, off: f64) -> Option<Doubt> {
        let value = self.value.base();
        self.limits()
            .map(|bound| bound.at_base)
            .filter(|at| (value - at).abs() < off)
            .min_by(|a, b| (value - a).abs().total_cmp(&(value - b).abs()))
            .map(|at| Doubt {
                off: self.value.with_base(off),
                limit: self.value.with_base(at).as_limit(),
            })
    }

    /// Whether a limit of a level lies within `off` of the number, in base units: whether it is passed is
    /// undecided.
    pub(in crate::analysis) fn may_pass(&self, level: Level, off: f64) -> bool {
        let value = self.value.base();
        let mut limits = self.limits().filter(|bound| bound.level == level);
        limits.any(|bound| (value - bound.at_base).abs() < off)
    }

    /// The word for the limit within which it is OK: its only limit may be the one past which it is over.
    #[must_use]
    pub fn ok_limit_word(&self) -> &'static str {
        if self.limits().any(|bound| bound.level == Level::Watch) {
            "OK limit"
        } else {
            "over limit"
        }
    }

    /// Its limits in a sentence, each by its word, in a reader's units.
    #[must_use]
    pub fn limits_told(&self, system: System) -> String {
        let told = self.limits().map(|bound| {
            let word = match bound.level {
                Level::Over => "over limit",
                Level::Fine | Level::Watch => "OK limit",
            };
            let at = self.value.with_base(bound.at_base).as_limit();
            format!("{word} {}", at.shown_in(system))
        });
        told.collect::<Vec<_>>().join(", ")
    }

    /// How the number stands: the worst of the limits it has passed.
    #[must_use]
    pub fn level(&self) -> Level {
        let value = self.value.base();
        self.limits()
            .filter(|bound| bound.is_passed_by(value))
            .map(|bound| bound.level)
            .max()
            .unwrap_or(Level::Fine)
    }
}

/// A limit that lies within what a number can be off.
///
/// The decision rule is a guard band as wide as the expanded uncertainty on either side of the limit
/// (JCGM 106:2012, 8.3.2, from memory): neither that the limit is kept nor that it is passed is shown
/// while the number lies nearer to it. ISO 14253-1 had that band up to its edition of 2013; that of
/// 2017 asks for 95 % of conformity instead, which a narrower band already gives (from memory).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// The expanded uncertainty of the number that is judged, about 95 %; without end where a reading
    /// within its ± gives a unit that cannot exist.
    pub off: Value,
    /// The limit.
    pub limit: Value,
}

impl Doubt {
    /// The doubt as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        if !self.off.base().is_finite() {
            return Sentence::new(
                "Undecided: within the readings' ± there are units that cannot exist, so how far it can be off is not known (limit {}). Check the readings and their ±.",
                &[self.limit],
            );
        }
        Sentence::new(
            "Undecided: it is known to ± {} (95 %), and the limit of {} lies within that.",
            &[self.off, self.limit],
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn a_number_stands_by_the_worst_limit_it_has_passed() {
        let bound = |level, side, mm| Some(Bound::new(level, side, Length::from_mm(mm)));
        let judged = |mm| {
            let bounds = [
                bound(Level::Watch, Side::AtLeast, 0.5),
                bound(Level::Over, Side::MoreThan, 0.0),
            ];
            Judged::by(Length::from_mm(mm), bounds).level()
        };
        assert_eq!(judged(0.5), Level::Fine);
        assert_eq!(judged(0.49), Level::Watch);
        assert_eq!(judged(0.0), Level::Over);
        assert_eq!(judged(-1.0), Level::Over);
    }
}
