//! The table of numbers: every number of a solution once, with its names, its meaning and its value.
//!
//! Window, report, pictures, knives, why and uncertainty read it. To add a number: where it is
//! assembled, a variant of [`NumberId`] with its entry (`id.rs`), and its value here.

mod assembled;
mod id;

pub(super) use assembled::{Assembled, Given};
pub use assembled::{Lowest, MowingNumbers, Numbers, OnGround};
pub use id::NumberId;

use crate::geometry::Number;
use crate::units::{Angle, Length, Ratio, Share, System, Value};

impl<N: Number> Numbers<N> {
    /// One of them in its base unit: millimetres, degrees, or a plain ratio. None where there is no
    /// such number.
    #[must_use]
    pub fn base(&self, id: NumberId) -> Option<N> {
        match id {
            NumberId::BehindCentre => Some(self.sweep.behind_centre.mm()),
            NumberId::SweepBelowCut => Some(self.sweep.below_cut.mm()),
            NumberId::SweepShare => self.sweep_share.map(Share::of_one),
            NumberId::SweepChord => Some(self.sweep.chord.mm()),
            NumberId::CentreAboveEdge => Some(self.sweep.centre_above_edge.mm()),
            NumberId::ClipAngle => Some(self.sweep.clip_angle.deg()),
            NumberId::HeightOfCut => Some(self.height_of_cut.mm()),
            NumberId::Attitude => Some(self.attitude.deg()),
            NumberId::ReelDiameter => Some(self.reel_diameter.mm()),
            NumberId::Extension => Some(self.extension.mm()),
            NumberId::Gap => Some(self.gap.mm()),
            NumberId::FrontRollerMove => Some(self.front_roller_move.mm()),
            NumberId::RearRollerMove => Some(self.rear_roller_move.mm()),
            NumberId::ReelOverPlate => Some(self.reel_clearance.mm()),
            NumberId::UndersideOverPlate => Some(self.underside_clearance.mm()),
            NumberId::LipBottom => Some(self.lip_clearance.mm()),
            NumberId::RollerToKnife => {
                let [front, rear] = self.rollers_to_knife.map(Length::mm);
                Some(if rear.re() < front.re() { rear } else { front })
            }
            NumberId::CutOnGround => Some(self.on_ground.cut.mm()),
            NumberId::ReelOnGround => Some(self.on_ground.reel_clearance.mm()),
            NumberId::ReelAtLowEnd => Some(self.on_ground.reel_at_low_end.mm()),
            NumberId::UndersideOnGround => Some(self.on_ground.underside_clearance.mm()),
            NumberId::UndersideAtLowEnd => Some(self.on_ground.underside_at_low_end.mm()),
            NumberId::ClipLength => self.mowing.map(|mowing| mowing.clip_length.mm()),
            NumberId::ClipToCut => self
                .mowing
                .and_then(|mowing| mowing.clip_to_cut.map(Ratio::number)),
            NumberId::TopAngleNeeded => Some(self.top_angle_needed.deg()),
            NumberId::TopFaceClearance => self.top_face_clearance.map(Angle::deg),
            NumberId::SweepOnGround => Some(self.on_ground.sweep.mm()),
            NumberId::AttitudeOnGround => Some(self.on_ground.attitude.deg()),
            NumberId::RunoutSwing => Some(self.on_ground.edge_swing.mm()),
        }
    }
}

impl Numbers {
    /// One of them as a quantity; none where there is no such number.
    #[must_use]
    pub fn value(&self, id: NumberId) -> Option<Value> {
        self.base(id).map(|base| id.value(base))
    }

    /// One of them in a reader's units, "none" where there is no such number. Left out where it would
    /// need speeds that are not known.
    #[must_use]
    pub fn shown(&self, id: NumberId, system: System) -> Option<String> {
        let applies = id.needs_no_speeds() || self.mowing.is_some();
        let shown = |value: Value| value.shown_in(system);
        applies.then(|| self.value(id).map_or("none".to_owned(), shown))
    }

    /// Those that stand under a drawing, each in a reader's units.
    #[must_use]
    pub fn key(&self, system: System) -> Vec<(NumberId, String)> {
        let key = NumberId::KEY.into_iter();
        key.filter_map(|id| Some((id, self.shown(id, system)?)))
            .collect()
    }
}
