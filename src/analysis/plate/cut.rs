//! What rollers that are not parallel do to the cut.

use super::parallel::{Parallel, bar_variance, plate_variance};
use crate::geometry::Pose;
use crate::plate::{Measured, Readings, RollerReadings};
use crate::units::Length;

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
}

/// The cut as it was measured off the bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutMeasured {
    /// The height of cut at the right end less that at the left end.
    pub right_less_left: Length,
    /// How far that can be off either way, k = 2.
    pub expanded: Length,
    /// Whether it is what was expected, within what both can be off by.
    pub agrees: bool,
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
        Some(Self {
            right_less_left,
            expanded,
            heights: [
                middle - right_less_left * 0.5,
                middle,
                middle + right_less_left * 0.5,
            ],
            shares,
            measured: measured(sheet, right_less_left, expanded),
        })
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

fn measured(sheet: &Readings, expected: Length, off: Length) -> Option<CutMeasured> {
    let (left, right): (Measured, Measured) = (sheet.height.left?, sheet.height.right?);
    let right_less_left = right.value - left.value;
    let standard_mm = left.standard.mm().hypot(right.standard.mm());
    let expanded = Length::from_mm(2.0 * standard_mm);
    let apart_mm = (right_less_left - expected).mm().abs();
    Some(CutMeasured {
        right_less_left,
        expanded,
        agrees: apart_mm <= off.mm().hypot(expanded.mm()) + super::parallel::SAME_MM,
    })
}
