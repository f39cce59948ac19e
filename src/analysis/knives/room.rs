//! How far a range of attitudes can be off, because the readings can.

use super::life::Trial;
use super::set_once::End;
use crate::analysis::uncertainty::expanded;
use crate::analysis::{FindingId, NumberId, Solution, Uncertainty};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::{Fitted, Follows, Reading, Unit};
use crate::units::Angle;

/// Half the step of attitude over which a number's slope is taken, in degrees.
const STEP_DEG: f64 = 1e-3;

/// What the readings do to one end of a range.
#[derive(Clone, Debug, Default)]
struct Shifts {
    /// In degrees, with its sign, by each reading off by its standard uncertainty.
    by_reading: Vec<(Reading, f64)>,
    /// In degrees, what the numbers bend besides.
    bent: f64,
}

/// The expanded uncertainty of how far two ends lie from each other. A reading that moves both ends
/// alike moves the range and leaves it as wide.
#[must_use]
pub fn off_between(
    unit: &Unit,
    trial: &Trial,
    knife: (Fitted, KnifeSection),
    [low, high]: [&End; 2],
) -> Angle {
    if unit.uncertain.is_empty() {
        return Angle::ZERO;
    }
    let [low, high] = [low, high].map(|end| shifts(unit, trial, knife, end));
    let of = |shifts: &Shifts, reading: Reading| {
        let found = shifts.by_reading.iter().find(|(of, _)| *of == reading);
        found.map_or(0.0, |(_, shift)| *shift)
    };
    let parts = unit.uncertain.iter().map(|uncertain| {
        let reading = uncertain.reading;
        (of(&high, reading) - of(&low, reading), 1.0)
    });
    let off_deg = expanded(parts) + low.bent + high.bent;
    Angle::from_deg(off_deg)
}

/// At an end the number keeps its limit: where a reading moves the number, the attitude makes up for
/// it, by as much as the number changes with the attitude.
fn shifts(unit: &Unit, trial: &Trial, (place, knife): (Fitted, KnifeSection), end: &End) -> Shifts {
    let number = end.limit.finding().and_then(FindingId::number);
    let Some(number) = number else {
        return Shifts::default();
    };
    let setting = |deg: f64| Setting {
        stance: Stance::Wanted {
            attitude: Angle::from_deg(deg),
            height_of_cut: trial.height_of_cut,
        },
        ..trial.setting(unit, knife, end.diameter)
    };
    let deg = end.at.deg();
    let Some(slope) = slope(unit, &setting, number, deg) else {
        return Shifts::default();
    };
    let follows = Follows {
        reel_diameter: false,
        attitude: false,
        ..unit.follows.with_knife(place)
    };
    let uncertainty = Uncertainty::of_readings(unit, &setting(deg), follows);
    let by_reading = uncertainty.ranking(number).into_iter().map(|part| {
        (
            part.reading,
            -part.sensitivity.signum() * part.standard / slope,
        )
    });
    let expanded = uncertainty.expanded(number);
    Shifts {
        by_reading: by_reading.collect(),
        bent: (uncertainty.in_doubt_within(number) - expanded) / slope.abs(),
    }
}

/// How much a number changes over a degree of attitude; none where it does not.
fn slope(unit: &Unit, setting: &dyn Fn(f64) -> Setting, number: NumberId, deg: f64) -> Option<f64> {
    let at = |deg: f64| {
        let solution = Solution::of(unit, &setting(deg)).ok()?;
        solution.numbers().base(number)
    };
    // Beside a place where reel and knife no longer meet, from one side.
    let (from, to) = (deg - STEP_DEG, deg + STEP_DEG);
    let slope = match (at(from), at(deg), at(to)) {
        (Some(before), _, Some(after)) => (after - before) / (2.0 * STEP_DEG),
        (Some(before), Some(here), None) => (here - before) / STEP_DEG,
        (None, Some(here), Some(after)) => (after - here) / STEP_DEG,
        _ => return None,
    };
    (slope != 0.0).then_some(slope)
}
