//! Putting a change into the document, so that it can be tried.

use super::{Change, Knob};
use crate::analysis::Solution;
use crate::geometry::Stance;
use crate::unit::{Document, Fitted};
use crate::units::{Angle, Length, Measure, Quantity, Speed, System, Turning};

impl Change {
    /// Sets a knob in a document as this change says, written in `system`, exact to less than
    /// anybody reads.
    pub fn put(&self, knob: Knob, document: &mut Document, now: &Solution, system: System) {
        let pose = &now.pose;
        let length = Length::from_mm(self.trial.base());
        match knob {
            Knob::Attitude => document.set_stance(
                Stance::Wanted {
                    attitude: Angle::from_deg(self.trial.base()),
                    height_of_cut: pose.height_of_cut,
                },
                system,
            ),
            Knob::HeightOfCut => document.set_stance(
                Stance::Wanted {
                    attitude: pose.attitude,
                    height_of_cut: length,
                },
                system,
            ),
            Knob::FrontRoller => document.set_stance(
                Stance::Rollers {
                    front_move: length,
                    rear_move: pose.rear_roller.moved,
                },
                system,
            ),
            Knob::RearRoller => document.set_stance(
                Stance::Rollers {
                    front_move: pose.front_roller.moved,
                    rear_move: length,
                },
                system,
            ),
            Knob::FrontRollerHeightKept => document.set_stance(
                Stance::FrontRoller {
                    front_move: length,
                    height_of_cut: pose.height_of_cut,
                },
                system,
            ),
            Knob::RearRollerHeightKept => document.set_stance(
                Stance::RearRoller {
                    rear_move: length,
                    height_of_cut: pose.height_of_cut,
                },
                system,
            ),
            Knob::Knife => document.fit_knife(self.knife.unwrap_or(Fitted::Bench)),
            Knob::Extension => document.setting.extension = Some(exactly(length, system)),
            Knob::FaceGround => document.setting.face_ground = Some(exactly(length, system)),
            Knob::TopGround => document.setting.top_ground = Some(exactly(length, system)),
            Knob::GroundSpeed => {
                if let Some(mowing) = &mut document.mowing {
                    let speed = Speed::from_base(self.trial.base());
                    mowing.ground_speed = exactly(speed, system);
                }
            }
            Knob::ReelSpeed => {
                if let Some(mowing) = &mut document.mowing {
                    let speed = Turning::from_base(self.trial.base());
                    mowing.reel_speed = exactly(speed, system);
                }
            }
            Knob::RollersTrued => {
                document.wear.front_runout = Some(exactly(Length::ZERO, system));
                document.wear.rear_runout = Some(exactly(Length::ZERO, system));
            }
            Knob::RollersParallel => {
                document.wear.end_difference = Some(exactly(Length::ZERO, system));
            }
        }
    }
}

fn exactly<M: Measure>(value: M, system: System) -> Quantity<M> {
    Quantity::exactly(value, system)
}
