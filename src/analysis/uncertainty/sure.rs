//! How sure a number is, to be told beside it.

use super::perturbed::Inputs;
use super::{COUNT, LEAST_BEND, Part, Uncertainty, bases};
use crate::analysis::numbers::NumberId;
use crate::geometry::Setting;
use crate::unit::{Document, Field, Fitted, Follows, Reading, Unit};
use crate::units::{Length, Measure as _, System, Value};

/// How sure a number is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sure {
    /// It rests on what was set alone, which is taken as exact.
    AsSet,
    /// It rests on readings, none of which has a ±: nobody knows.
    NotEntered,
    /// It can be off by so much, in its base unit: its expanded uncertainty.
    Off(f64),
    /// The same, by a lean that is not given alone: the readings it rests on have no ±.
    ByLeanAlone(f64),
}

impl Sure {
    /// What is told beside the number; empty where it is as set.
    #[must_use]
    pub fn told(self, value: Value, system: System) -> String {
        // A ± goes neither up nor down.
        let as_length = |off: f64| match value {
            Value::Move(_) | Value::MoveOf(..) => Length::from_base(off).into(),
            _ => value.with_base(off),
        };
        let shown = |off: f64| as_length(off).shown_in(system);
        match self {
            Self::AsSet => String::new(),
            Self::NotEntered => "± not entered".to_owned(),
            Self::Off(off) => format!("± {}", shown(off)),
            Self::ByLeanAlone(off) => format!("± {}, the lean alone", shown(off)),
        }
    }
}

/// Which numbers rest on any reading; until it is tried, every one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rests([bool; COUNT]);

impl Default for Rests {
    fn default() -> Self {
        Self([true; COUNT])
    }
}

/// Every reading is moved by so much, each by a little more than the one before it, so that no two
/// make up for each other by chance.
const MOVE: f64 = 1e-3;
/// The first irrational part of that.
const GOLDEN: f64 = 0.618_033_988_749_895;
/// A number that changes by less has not moved but for rounding.
const LEAST_CHANGE: f64 = 1e-11;

impl Rests {
    /// Tries all readings of a document together, its setting's own values held.
    #[must_use]
    pub fn of(document: &Document, unit: &Unit, setting: &Setting, follows: Follows) -> Self {
        let plain = Inputs::<f64>::exact(unit, setting);
        let mut moved = plain.clone();
        let readings = Field::all(document).filter_map(|field| match field {
            Field::Reading(Reading::Knife(knife, _))
                if knife != Fitted::Bench && knife != unit.fitted =>
            {
                None
            }
            Field::Reading(reading) if field.text(document).is_some() => Some(reading),
            _ => None,
        });
        let by = std::iter::successors(Some(GOLDEN), |part| Some((part + GOLDEN).fract()));
        for (reading, part) in readings.zip(by) {
            moved.shift(reading, follows, MOVE * (1.0 + part));
        }
        let [before, after] = [&plain, &moved].map(|inputs| inputs.numbers().ok());
        let Some((before, after)) = before.zip(after) else {
            return Self::default();
        };
        let (before, after) = (bases(&before), bases(&after));
        Self(std::array::from_fn(|place| {
            let change = (after[place] - before[place]).abs();
            change > LEAST_CHANGE * (1.0 + before[place].abs())
        }))
    }
}

impl Uncertainty {
    /// The same, with what is known of which numbers rest on readings.
    #[must_use]
    pub fn resting(self, rests: Rests) -> Self {
        Self { rests, ..self }
    }

    /// How sure a number is.
    #[must_use]
    pub fn sure(&self, number: NumberId) -> Sure {
        let place = number as usize;
        let mut moving = self.parts.iter().filter(|part| {
            // Where a number has no slope, a reading may still bend it.
            part.sensitivities[place] != 0.0 || part.bends[place] > LEAST_BEND
        });
        let Some(first) = moving.next() else {
            return if self.rests.0[place] {
                Sure::NotEntered
            } else {
                Sure::AsSet
            };
        };
        let off = self.expanded(number);
        let is_lean = |part: &Part| part.reading == Reading::Lean;
        if self.is_lean_open() && is_lean(first) && moving.all(is_lean) {
            Sure::ByLeanAlone(off)
        } else {
            Sure::Off(off)
        }
    }

    /// What is told beside a number of how sure it is; empty where it is as set.
    #[must_use]
    pub fn told_beside(&self, number: NumberId, value: Value, system: System) -> String {
        let told = self.sure(number).told(value, system);
        if self.is_rough(number) {
            told + " and more"
        } else {
            told
        }
    }
}
