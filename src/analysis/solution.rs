//! A unit solved: its pose and every number that follows from it.

use kurbo::Point;

use super::numbers::{Assembled, Given, Lowest, MowingNumbers, Numbers, OnGround};
use crate::geometry::{Impossible, Pose, Setting, Sweep, Terrain};
use crate::unit::Unit;
use crate::units::{Angle, Length, Share};

/// A unit solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solution {
    /// Where everything stands on the plate.
    pub pose: Pose,
    /// What the reel does below the cut line.
    pub sweep: Sweep,
    /// Sweep over height of cut; none when the edge is not above the plate.
    pub sweep_share: Option<Share>,
    /// Plate to the lowest point of the reel's circle: height of cut less sweep.
    pub reel_clearance: Length,
    /// Plate to the lowest point of the knife's underside and its hardware.
    pub underside_clearance: Length,
    /// That lowest point.
    pub lowest_on_plate: Point,
    /// What it belongs to.
    pub lowest: Lowest,
    /// The point of the underside that stands nearest the ground; on shaped ground not always the lowest
    /// over the plate.
    pub nearest_ground_on_plate: Point,
    /// The point that comes nearest the ground at the low end, the rollers at their lowest.
    pub nearest_ground_at_low_end_on_plate: Point,
    /// The front bottom of the knife's lip.
    pub lip_bottom_on_plate: Point,
    /// How clear the front roller and the rear one stand of the knife's front face, underside and back;
    /// negative where a roller and the knife are in one place.
    pub rollers_to_knife: [Length; 2],
    /// The top angle below which the face behind the edge would stand inside the reel.
    pub top_angle_needed: Angle,
    /// What the top face has more than that; none where its angle is not given.
    pub top_face_clearance: Option<Angle>,
    /// The ground under the rollers.
    pub terrain: Terrain,
    /// What is left on that ground.
    pub on_ground: OnGround,
    /// What the speeds give, when they are known.
    pub mowing: Option<MowingNumbers>,
}

impl Solution {
    /// Solves a unit in one of its settings.
    ///
    /// # Errors
    /// When the geometry cannot exist.
    pub fn of(unit: &Unit, setting: &Setting) -> Result<Self, Impossible> {
        let given = Given {
            profile: &unit.profile,
            setting,
            shape: unit.shape,
            sink: unit.sink,
            wear: &unit.wear,
            mowing: unit.mowing,
            blades: unit.blades,
        };
        let is_tipped = unit.wear.has_runout();
        let hardware = unit.hardware.that_can_be_lowest(&unit.shape, is_tipped);
        let assembled = Assembled::of(&given, &hardware)?;
        let numbers = assembled.numbers;
        Ok(Self {
            pose: assembled.stood.into(),
            sweep: numbers.sweep,
            sweep_share: numbers.sweep_share,
            reel_clearance: numbers.reel_clearance,
            underside_clearance: numbers.underside_clearance,
            lowest_on_plate: assembled.lowest_on_plate.into(),
            lowest: assembled.lowest,
            nearest_ground_on_plate: assembled.nearest_ground.into(),
            nearest_ground_at_low_end_on_plate: assembled.nearest_ground_at_low_end.into(),
            lip_bottom_on_plate: assembled.lip_bottom_on_plate.into(),
            rollers_to_knife: numbers.rollers_to_knife,
            top_angle_needed: numbers.top_angle_needed,
            top_face_clearance: numbers.top_face_clearance,
            terrain: assembled.ground.into(),
            on_ground: numbers.on_ground,
            mowing: numbers.mowing,
        })
    }

    /// Every number, by its [`NumberId`](super::NumberId).
    #[must_use]
    pub fn numbers(&self) -> Numbers {
        let pose = &self.pose;
        Numbers {
            reel_diameter: Length::from_mm(2.0 * pose.reel_radius_mm),
            height_of_cut: pose.height_of_cut,
            attitude: pose.attitude,
            extension: pose.extension,
            gap: pose.gap,
            front_roller_move: pose.front_roller.moved,
            rear_roller_move: pose.rear_roller.moved,
            sweep: self.sweep,
            sweep_share: self.sweep_share,
            reel_clearance: self.reel_clearance,
            underside_clearance: self.underside_clearance,
            lip_clearance: Length::from_mm(self.lip_bottom_on_plate.y),
            rollers_to_knife: self.rollers_to_knife,
            top_angle_needed: self.top_angle_needed,
            top_face_clearance: self.top_face_clearance,
            on_ground: self.on_ground,
            mowing: self.mowing,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::analysis::{FindingId, Findings, NumberId, Solved};
    use crate::unit::read_text;
    use crate::units::Value;

    const DEMO_UNIT: &str = include_str!("../../demo-units/sports-metric.ron");

    #[test]
    fn what_a_finding_judges_is_its_number_of_the_table() {
        let solved = Solved::of(&read_text(DEMO_UNIT).expect("reads")).expect("solves");
        let numbers = solved.solution.numbers();
        let mut judged_by_number = 0;
        for (finding, judged) in Findings::all_judged(&solved.case()) {
            let number = FindingId::number(finding).expect("a number decides it");
            assert_eq!(numbers.value(number), Some(judged.value), "{finding}");
            judged_by_number += 1;
        }
        assert!(judged_by_number >= 8);
        let moved = solved.solution.pose.front_roller.moved;
        let front = numbers.value(NumberId::FrontRollerMove);
        assert_eq!(front, Some(Value::Move(moved)));
    }
}
