//! What turns steadily on a unit: its scale, and the setting with it at each place.

use super::Case;
use super::ranges::{
    LEAST_HEIGHT_MM, MOST_EXTENSION, MOST_HEIGHT_MM, MOST_ROLLER_MOVE, attitude_range,
};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::units::{Angle, Length, Value};

/// What turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scale {
    /// The attitude, height of cut kept.
    Attitude,
    /// The front roller by itself.
    FrontRoller,
    /// The rear roller by itself.
    RearRoller,
    /// The front roller, the rear one keeping the height of cut.
    FrontRollerHeightKept,
    /// The rear roller, the front one keeping the height of cut.
    RearRollerHeightKept,
    /// The edge further ahead or back.
    Extension,
    /// Metal off the front face.
    FaceGround,
    /// Metal off the top face.
    TopGround,
    /// The height of cut, attitude kept.
    HeightOfCut,
}

/// One scale of one unit as it is set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Dial<'a> {
    pub(super) case: Case<'a>,
    pub(super) scale: Scale,
}

impl Dial<'_> {
    /// Where it stands: millimetres or degrees.
    pub(super) fn now(&self) -> f64 {
        let setting = self.case.setting;
        let pose = &self.case.solution.pose;
        match self.scale {
            Scale::Attitude => pose.attitude.deg(),
            Scale::FrontRoller | Scale::FrontRollerHeightKept => pose.front_roller.moved.mm(),
            Scale::RearRoller | Scale::RearRollerHeightKept => pose.rear_roller.moved.mm(),
            Scale::FaceGround => setting.knife.face_ground.mm(),
            Scale::TopGround => setting.knife.top_ground.mm(),
            Scale::HeightOfCut => pose.height_of_cut.mm(),
            Scale::Extension => setting.extension.mm(),
        }
    }

    /// A place of it as a quantity.
    pub(super) fn value(&self, at: f64) -> Value {
        match self.scale {
            Scale::Attitude => Angle::from_deg(at).into(),
            Scale::FrontRoller
            | Scale::RearRoller
            | Scale::FrontRollerHeightKept
            | Scale::RearRollerHeightKept
            | Scale::Extension
            | Scale::FaceGround
            | Scale::TopGround
            | Scale::HeightOfCut => Length::from_mm(at).into(),
        }
    }

    /// From where to where it is looked at. Metal that is off stays off.
    pub(super) fn range(&self) -> (f64, f64) {
        let now = self.now();
        let setting = self.case.setting;
        match self.scale {
            Scale::Attitude => {
                let (low, high) = attitude_range(&self.case.unit.limits);
                (low.deg().min(now), high.deg().max(now))
            }
            Scale::FrontRoller
            | Scale::RearRoller
            | Scale::FrontRollerHeightKept
            | Scale::RearRollerHeightKept => {
                let most_mm = MOST_ROLLER_MOVE.mm();
                (now - most_mm, now + most_mm)
            }
            Scale::FaceGround => (now, setting.knife.lip_length.mm().max(now)),
            Scale::TopGround => (now, setting.knife.lip_thickness.mm().max(now)),
            Scale::HeightOfCut => (LEAST_HEIGHT_MM.min(now), MOST_HEIGHT_MM.max(now)),
            Scale::Extension => {
                let most_mm = MOST_EXTENSION.mm();
                (now.min(-most_mm), now.max(most_mm))
            }
        }
    }

    /// What is left of the lip with so much metal off; none on a scale that takes none off.
    pub(super) fn lip_left(&self, at: f64) -> Option<Length> {
        let knife = &self.case.setting.knife;
        let off = Length::from_mm(at);
        match self.scale {
            Scale::FaceGround => Some(knife.lip_length - off),
            Scale::TopGround => Some(knife.lip_thickness - off),
            _ => None,
        }
    }

    /// The setting with it at a place.
    pub(super) fn setting(&self, at: f64) -> Setting {
        let setting = *self.case.setting;
        let pose = &self.case.solution.pose;
        let length = Length::from_mm(at);
        let standing = |stance| Setting { stance, ..setting };
        match self.scale {
            Scale::Attitude => standing(Stance::Wanted {
                attitude: Angle::from_deg(at),
                height_of_cut: pose.height_of_cut,
            }),
            Scale::HeightOfCut => standing(Stance::Wanted {
                attitude: pose.attitude,
                height_of_cut: length,
            }),
            Scale::FrontRoller => standing(Stance::Rollers {
                front_move: length,
                rear_move: pose.rear_roller.moved,
            }),
            Scale::RearRoller => standing(Stance::Rollers {
                front_move: pose.front_roller.moved,
                rear_move: length,
            }),
            Scale::FrontRollerHeightKept => standing(Stance::FrontRoller {
                front_move: length,
                height_of_cut: pose.height_of_cut,
            }),
            Scale::RearRollerHeightKept => standing(Stance::RearRoller {
                rear_move: length,
                height_of_cut: pose.height_of_cut,
            }),
            Scale::FaceGround => Setting {
                knife: KnifeSection {
                    face_ground: length,
                    ..setting.knife
                },
                ..setting
            },
            Scale::TopGround => Setting {
                knife: KnifeSection {
                    top_ground: length,
                    ..setting.knife
                },
                ..setting
            },
            Scale::Extension => Setting {
                extension: length,
                ..setting
            },
        }
    }
}
