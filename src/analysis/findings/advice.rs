//! What would bring a finding back: tried against every other limit before it is told.

use super::Case;
use crate::analysis::Solution;
use crate::analysis::knives::Margins;
use crate::analysis::ranges::attitude_range;
use crate::geometry::{Setting, Stance};
use crate::units::{Angle, Length, Sentence, Value};

/// How far inside a limit advice aims, so that what is set by it to the digits shown stays inside.
pub(super) const ADVISED_ROOM: f64 = 0.03;

impl Case<'_> {
    /// Another attitude at the same height of cut, if it can be set and keeps every other limit.
    pub(super) fn at_attitude(&self, attitude: Angle) -> Option<Solution> {
        let height_of_cut = self.solution.pose.height_of_cut;
        let (low, high) = attitude_range(&self.unit.limits);
        if height_of_cut.mm() <= 0.0 || attitude < low || attitude > high {
            return None;
        }
        let stance = Stance::Wanted {
            attitude,
            height_of_cut,
        };
        let tried = Setting {
            stance,
            ..*self.setting
        };
        let solution = Solution::of(self.unit, &tried).ok()?;
        let then = Case {
            setting: &tried,
            solution: &solution,
            ..*self
        };
        Margins::of(&then).are_kept().then_some(solution)
    }

    /// Advice to set another attitude, with the roller moves from where they stand now. None
    /// when it cannot be set or breaks another limit.
    pub(super) fn advise_attitude(&self, attitude: Angle) -> Option<Sentence> {
        let other = self.at_attitude(attitude)?;
        let (now, then) = (&self.solution.pose, &other.pose);
        Some(Sentence::new(
            "At this height of cut an attitude of {} would bring it back and keep the other limits: front roller {}, rear roller {} from where they stand now; the underside would then clear the ground by {}.",
            &[
                attitude.into(),
                Value::Move(then.front_roller.moved - now.front_roller.moved),
                Value::Move(then.rear_roller.moved - now.rear_roller.moved),
                other.on_ground.underside_clearance.into(),
            ],
        ))
    }

    /// Advice to raise the unit by more than so much, attitude kept.
    pub(super) fn advise_clearing(&self, by: Length) -> Sentence {
        let moved = self.solution.pose.roller_move_to_raise(by);
        Sentence::new(
            "Raising the height of cut by more than {}, both rollers down by more than {}, would bring it clear.",
            &[by.into(), moved.into()],
        )
    }

    /// Advice to raise the unit by so much, attitude kept.
    pub(super) fn advise_raising(&self, by: Length) -> Sentence {
        let moved = self.solution.pose.roller_move_to_raise(by);
        Sentence::new(
            "Raising the height of cut by {}, both rollers down by {}, would bring it back.",
            &[by.into(), moved.into()],
        )
    }
}
