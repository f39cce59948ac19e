//! What rollers that are not parallel do to the cut.

use super::parallel::{Parallel, bar_variance, plate_variance};
use crate::analysis::Level;
use crate::analysis::caution::HANDS_ON;
use crate::geometry::Pose;
use crate::plate::{Measured, Readings, RollerReadings, Station};
use crate::units::{Length, System};

/// How much of a roller's slope reaches the edge between them: parts of one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollerShares {
    /// Of the front roller's.
    pub front: f64,
    /// Of the rear roller's.
    pub rear: f64,
}

/// The cut to expect from the rollers as they are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExpectedCut {
    /// The height of cut at the right end less that at the left end.
    pub right_less_left: Length,
    /// How far that can be off either way, k = 2.
    pub expanded: Length,
    /// The height of cut at the left end, in the middle and at the right end.
    pub heights: [Length; 3],
    /// How much each roller has to do with it.
    pub shares: RollerShares,
    /// What was measured, where both ends were.
    pub measured: Option<CutMeasured>,
    /// What was measured at each place, where it was.
    pub places: [Option<PlaceMeasured>; 3],
}

/// The cut as it was measured off the bar, at left and right end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutMeasured {
    /// The height of cut at the right end less that at the left end.
    pub right_less_left: Length,
    /// How far that can be off either way, k = 2; none where a reading says nothing of itself.
    pub expanded: Option<Length>,
    /// Whether it is what was expected, within what both can be off by; none where that cannot be told.
    pub agrees: Option<bool>,
}

/// The height of cut measured at one place, beside what was expected there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaceMeasured {
    /// Where.
    pub station: Station,
    /// What was measured less what was expected.
    pub over: Length,
    /// How far that can be off either way, k = 2, by what the reading says of itself.
    pub expanded: Length,
    /// Whether it is what was expected; none where the reading has no ± to tell a fault from its own
    /// coarseness.
    pub agrees: Option<bool>,
}

impl RollerShares {
    /// By how far the rollers stand ahead of the edge and behind it; none where they stand on one spot.
    #[must_use]
    pub fn of(ahead: Length, behind: Length) -> Option<Self> {
        let apart = (ahead + behind).mm();
        (apart > 0.0).then(|| Self {
            front: behind.mm() / apart,
            rear: ahead.mm() / apart,
        })
    }

    /// Of a unit as it stands.
    #[must_use]
    pub fn of_pose(pose: &Pose) -> Option<Self> {
        let edge = pose.edge_on_plate.x;
        Self::of(
            Length::from_mm(pose.front_roller.centre.x - edge),
            Length::from_mm(edge - pose.rear_roller.centre.x),
        )
    }
}

impl ExpectedCut {
    /// From both rollers' slopes, for a unit standing as it does now.
    pub(super) fn of(
        pose: &Pose,
        sheet: &Readings,
        front: &Parallel,
        rear: &Parallel,
    ) -> Option<Self> {
        let shares = RollerShares::of_pose(pose)?;
        let slope = shares.front * front.slope + shares.rear * rear.slope;
        let right_less_left = sheet.cut_width * -slope;
        let middle = pose.height_of_cut;
        let expanded = expanded(sheet, shares)?;
        let heights = [
            middle - right_less_left * 0.5,
            middle,
            middle + right_less_left * 0.5,
        ];
        // What the rollers' slopes can be off by tilts the cut about its middle.
        let off = [expanded * 0.5, Length::ZERO, expanded * 0.5];
        let place = |place: usize| {
            let station = Station::ALL[place];
            let height = sheet.height.at(station)?;
            Some(PlaceMeasured::of(
                station,
                *height,
                heights[place],
                off[place],
            ))
        };
        Some(Self {
            right_less_left,
            expanded,
            heights,
            shares,
            measured: measured(sheet, right_less_left, expanded),
            places: [place(0), place(1), place(2)],
        })
    }

    /// The places that were read.
    pub fn places_read(&self) -> impl Iterator<Item = &PlaceMeasured> {
        self.places.iter().flatten()
    }

    /// Whether the cut is what was expected wherever it was measured, and from end to end; none where
    /// that cannot be told, or before it was measured.
    #[must_use]
    pub fn agrees(&self) -> Option<bool> {
        let ends = self.measured.map(|measured| measured.agrees);
        let told = self.places_read().map(|place| place.agrees).chain(ends);
        let told: Vec<_> = told.collect();
        if told.contains(&Some(false)) {
            return Some(false);
        }
        let is_all = !told.is_empty() && !told.contains(&None);
        is_all.then_some(true)
    }

    /// The word for it.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self.agrees() {
            Some(true) => "as expected",
            Some(false) => "not as expected",
            None => "undecided",
        }
    }

    /// How it stands beside what was expected.
    #[must_use]
    pub fn level(&self) -> Level {
        match self.agrees() {
            Some(true) => Level::Fine,
            Some(false) => Level::Over,
            None => Level::Watch,
        }
    }

    /// Whether every place is off the same way, as far as can be told: the height set is another than the
    /// unit's, and the cut is straight.
    #[must_use]
    pub fn is_off_alike(&self) -> bool {
        let Some(first) = self.places_read().next() else {
            return false;
        };
        let is_alike = |place: &PlaceMeasured| {
            let apart_mm = (place.over - first.over).mm().abs();
            let off = place.expanded.mm().hypot(first.expanded.mm());
            apart_mm <= off + super::parallel::SAME_MM
        };
        self.places_read().count() > 1
            && self.places_read().all(is_alike)
            && self.measured.is_none_or(|ends| ends.agrees != Some(false))
    }

    /// What to know of the cut that was measured, in a sentence; none before it was measured.
    #[must_use]
    pub fn told(&self, system: System) -> Option<String> {
        self.places_read().next()?;
        let off = |wanted: Option<bool>| {
            let off = self.places_read().filter(move |p| p.agrees == wanted);
            let off = off.map(|place| {
                let way = if place.over > Length::ZERO {
                    "over"
                } else {
                    "under"
                };
                let size = Length::from_mm(place.over.mm().abs());
                let station = place.station.word();
                format!("{station} {} {way} what is expected", system.length(size))
            });
            off.collect::<Vec<_>>().join(", ")
        };
        Some(match self.agrees() {
            Some(true) => "As expected: the difference is within the ± of both (k = 2).".to_owned(),
            Some(false) if self.is_off_alike() => format!(
                "Not as expected: {}. The cut is straight, and its height is not the unit's: fill in the unit, or set the height again: {HANDS_ON}.",
                off(Some(false))
            ),
            Some(false) => {
                let places = off(Some(false));
                let places = if places.is_empty() {
                    String::new()
                } else {
                    format!(": {places}")
                };
                format!(
                    "Not as expected{places}. Look for twist, a bent knife or a reading gone wrong."
                )
            }
            None => {
                let places = off(None);
                let places = if places.is_empty() {
                    String::new()
                } else {
                    format!(": {places}")
                };
                format!(
                    "Undecided{places}. ± not entered: write a height with its ±, like 0.125 in ± 0.001 in."
                )
            }
        })
    }
}

impl PlaceMeasured {
    fn of(station: Station, read: Measured, expected: Length, off: Length) -> Self {
        let over = read.value - expected;
        let expanded = read.standard * 2.0;
        Self {
            station,
            over,
            expanded,
            agrees: agrees(over, off.mm().hypot(expanded.mm()), &[read]),
        }
    }
}

/// Both rollers were read over one bar: what that is off by goes into both the same way, everything
/// else into each by itself.
fn expanded(sheet: &Readings, shares: RollerShares) -> Option<Length> {
    let (front, rear) = (sheet.front.as_ref()?, sheet.rear.as_ref()?);
    let weight = |share: f64, roller: &RollerReadings| Some(share / roller.measured_apart?.mm());
    let (front_weight, rear_weight) = (weight(shares.front, front)?, weight(shares.rear, rear)?);
    let own = |roller: &RollerReadings| {
        let ends = [roller.left?, roller.right?];
        let of_ends: f64 = ends.iter().map(|end| end.standard().mm().powi(2)).sum();
        Some(of_ends + plate_variance(sheet))
    };
    let variance = front_weight.powi(2) * own(front)?
        + rear_weight.powi(2) * own(rear)?
        + (front_weight + rear_weight).powi(2) * bar_variance(sheet);
    Some(sheet.cut_width * (2.0 * variance.sqrt()))
}

/// Whether what lies so far apart is one, both being off by so much; a reading without its ± can be off
/// by more than is known, which tells no fault.
fn agrees(apart: Length, off_mm: f64, read: &[Measured]) -> Option<bool> {
    if apart.mm().abs() <= off_mm + super::parallel::SAME_MM {
        return Some(true);
    }
    let is_known = read.iter().all(|read| read.standard > Length::ZERO);
    is_known.then_some(false)
}

fn measured(sheet: &Readings, expected: Length, off: Length) -> Option<CutMeasured> {
    let (left, right): (Measured, Measured) = (sheet.height.left?, sheet.height.right?);
    let right_less_left = right.value - left.value;
    let expanded_mm = 2.0 * left.standard.mm().hypot(right.standard.mm());
    let is_known = left.standard > Length::ZERO && right.standard > Length::ZERO;
    Some(CutMeasured {
        right_less_left,
        expanded: is_known.then(|| Length::from_mm(expanded_mm)),
        agrees: agrees(
            right_less_left - expected,
            off.mm().hypot(expanded_mm),
            &[left, right],
        ),
    })
}
