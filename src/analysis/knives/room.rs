//! How far a range of attitudes can be off, because the readings can.

use super::life::Trial;
use super::set_once::{End, SetOnce};
use crate::analysis::uncertainty::{LEAN_OFF, expanded, open_lean};
use crate::analysis::{FindingId, NumberId, Solution, Uncertainty};
use crate::geometry::{Closing, KnifeSection, Setting, Stance};
use crate::unit::{Fitted, Follows, Reading, Unit};
use crate::units::{Angle, System};

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

/// How far two ends can lie from where they are worked out to each other, about 95 %.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RoomOff {
    /// By everything that is not known for sure, a slide's lean that is not given included: what decides
    /// whether a knife fits.
    pub whole: Angle,
    /// By the readings alone: knives on one unit share its slide, so its lean leaves none of them better.
    pub by_readings: Angle,
}

impl RoomOff {
    /// The whole of it as it stands beside a room; none where it is zero. Without end where a reading
    /// within its ± gives a unit that cannot exist.
    #[must_use]
    pub fn told(self, system: System) -> Option<String> {
        let off = self.whole;
        if !off.deg().is_finite() {
            return Some("± not known".to_owned());
        }
        (off > Angle::ZERO).then(|| format!("± {}", system.angle(off)))
    }
}

/// The expanded uncertainty of how far two ends lie from each other, by the readings. A reading that
/// moves both ends alike moves the range and leaves it as wide.
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

/// How far the room can lie from `room` by a slide's lean that is not given: the farther of what the
/// slide leaves leaning [`LEAN_OFF`] to either side. Each lean is solved anew, since another size of the
/// reel may end the range then. Zero where no lean is open.
#[must_use]
pub fn off_by_lean(unit: &Unit, trial: &Trial, knife: KnifeSection, room: Angle) -> Angle {
    if open_lean(unit).is_none() {
        return Angle::ZERO;
    }
    let bench_line = unit.profile.bench.lean_of_bench_line();
    let away_deg = [bench_line - LEAN_OFF, bench_line + LEAN_OFF].map(|leaning| {
        let mut unit = unit.clone();
        if let Closing::ReelSlides { lean } | Closing::KnifeSlides { lean } =
            &mut unit.profile.closing
        {
            *lean = Some(leaning);
        }
        let room_then = SetOnce::of(&unit, trial, knife).map_or(Angle::ZERO, |range| range.width());
        // Where there is none as worked out and none then, the lean opens none.
        if room_then == Angle::ZERO && room <= Angle::ZERO {
            0.0
        } else {
            (room_then - room).deg().abs()
        }
    });
    Angle::from_deg(away_deg[0].max(away_deg[1]))
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
