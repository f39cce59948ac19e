//! The limits that findings are judged by.

use crate::unit::{LimitEntries, Turf};
use crate::units::{Angle, Length, Measure, Quantity, Ratio, Share, System};

/// The limits in force for a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Share of the height of cut above which the sweep should be watched.
    pub sweep_watch: Share,
    /// Share of the height of cut above which the sweep is too much.
    pub sweep_over: Share,
    /// Gap above which reel and knife want bringing together.
    pub gap_watch: Length,
    /// Gap above which they cut no more.
    pub gap_over: Length,
    /// Least clearance of the knife's underside.
    pub underside: Length,
    /// How far the edge may run ahead of centre before it is too much.
    pub ahead_of_centre: Length,
    /// How far the edge must stand behind centre at least; none where on centre will do.
    pub behind_centre: Option<Length>,
    /// Clip length over height of cut below which it should be watched: power and wear for no benefit.
    pub clip_least: Ratio,
    /// Clip length over height of cut above which it should be watched.
    pub clip_watch: Ratio,
    /// Clip length over height of cut above which it is too much.
    pub clip_over: Ratio,
    /// The attitudes that the roller brackets were said to allow, least and most.
    pub attitude_range: Option<(Angle, Angle)>,
    /// The least room in attitude that a knife is to leave from a new reel to a scrap one.
    pub room: Angle,
}

impl Limits {
    /// This program's starting values for a turf: a place to begin one's own trials, no standard
    /// (common practice, no source).
    ///
    /// Lengths are round in the system that the unit was measured in, so that a limit is judged by
    /// as it reads. How it is judged hangs on the unit alone, and not on the units it is read in.
    #[must_use]
    pub fn starting(turf: Turf, system: System) -> Self {
        let (sweep_watch, sweep_over, clip_watch, clip_over) = match turf {
            Turf::Green => (0.08, 0.15, 1.5, 2.0),
            Turf::Tee | Turf::Fairway | Turf::Rough => (0.05, 0.10, 1.1, 1.5),
        };
        let length = |inches, mm| match system {
            System::InchDecimal | System::InchFraction => Length::from_inches(inches),
            System::Millimetre => Length::from_mm(mm),
        };
        let underside = match turf {
            Turf::Green | Turf::Tee => length(0.02, 0.5),
            Turf::Fairway => length(0.06, 1.5),
            Turf::Rough => length(0.12, 3.0),
        };
        Self {
            sweep_watch: Share::from_base(sweep_watch),
            sweep_over: Share::from_base(sweep_over),
            // The feeler that a shop sets by is a thousandth of an inch.
            gap_watch: length(0.001, 0.025),
            gap_over: length(0.002, 0.05),
            underside,
            ahead_of_centre: length(0.04, 1.0),
            behind_centre: None,
            clip_least: Ratio::from_base(0.6),
            clip_watch: Ratio::from_base(clip_watch),
            clip_over: Ratio::from_base(clip_over),
            attitude_range: None,
            room: Angle::from_deg(1.0),
        }
    }

    /// The turf's starting values in the system that the unit was measured in, with what a file sets
    /// in their stead.
    #[must_use]
    pub fn in_force(turf: Turf, entries: Option<&LimitEntries>, system: System) -> Self {
        let starting = Self::starting(turf, system);
        let Some(entries) = entries else {
            return starting;
        };
        let (sweep_watch, sweep_over) = pair(
            (entries.sweep_watch.as_ref(), starting.sweep_watch),
            (entries.sweep_over.as_ref(), starting.sweep_over),
        );
        let (clip_watch, clip_over) = pair(
            (entries.clip_watch.as_ref(), starting.clip_watch),
            (entries.clip_over.as_ref(), starting.clip_over),
        );
        let (gap_watch, gap_over) = pair(
            (entries.gap_watch.as_ref(), starting.gap_watch),
            (entries.gap_over.as_ref(), starting.gap_over),
        );
        Self {
            sweep_watch,
            sweep_over,
            gap_watch,
            gap_over,
            underside: or(entries.underside.as_ref(), starting.underside),
            ahead_of_centre: or(entries.ahead_of_centre.as_ref(), starting.ahead_of_centre),
            behind_centre: entries.behind_centre.as_ref().map(Quantity::value),
            // A least that was not typed gives way to the limits that were.
            clip_least: entries
                .clip_least
                .as_ref()
                .map_or_else(|| least(starting.clip_least, clip_watch), Quantity::value),
            clip_watch,
            clip_over,
            attitude_range: entries
                .attitude_range
                .as_ref()
                .map(|range| (range.low.value(), range.high.value())),
            room: or(entries.room.as_ref(), starting.room),
        }
    }
}

fn or<M: Measure>(entry: Option<&Quantity<M>>, otherwise: M) -> M {
    entry.map_or(otherwise, Quantity::value)
}

fn least(starting: Ratio, watch: Ratio) -> Ratio {
    if starting > watch { watch } else { starting }
}

/// Two limits of one kind: where only one is set, the other gives way to it.
fn pair<M: Measure>(
    (watch, starting_watch): (Option<&Quantity<M>>, M),
    (over, starting_over): (Option<&Quantity<M>>, M),
) -> (M, M) {
    let (mut low, mut high) = (or(watch, starting_watch), or(over, starting_over));
    if low > high && over.is_none() {
        high = low;
    } else if low > high && watch.is_none() {
        low = high;
    }
    (low, high)
}
