//! What each adjustment would do for a finding, by itself: how far it goes to the finding's limit,
//! how far to where it is aimed, what else that changes, and whether anybody would do it.

mod along;
mod answer;
mod change;
mod into_document;
mod not_sensible;
mod sense;
mod told;

pub use answer::{knobs, worst_finding};
pub use change::{Change, Goal, KnobAnswer, Other, Undecided, WhyNot};
pub use not_sensible::NotSensible;
pub use told::Towards;

use crate::analysis::FindingId;
use crate::analysis::dial::Scale;

/// Something that can be adjusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Knob {
    /// The attitude, height of cut kept: both rollers move, the rear one most.
    Attitude,
    /// The front roller by itself: attitude and height of cut follow.
    FrontRoller,
    /// The rear roller by itself: attitude and height of cut follow.
    RearRoller,
    /// The front roller by so much, the rear one until the height of cut is back.
    FrontRollerHeightKept,
    /// The rear roller by so much, the front one until the height of cut is back.
    RearRollerHeightKept,
    /// Another knife of the list.
    Knife,
    /// The edge further ahead or back on its bar.
    Extension,
    /// Metal off the knife's front face.
    FaceGround,
    /// Metal off the knife's top face.
    TopGround,
    /// The height of cut, attitude kept.
    HeightOfCut,
    /// The forward speed.
    GroundSpeed,
    /// The reel's speed.
    ReelSpeed,
    /// Both rollers without runout.
    RollersTrued,
    /// Both ends at one height.
    RollersParallel,
}

impl Knob {
    /// Every knob: what is set before what is bought, and what takes metal off last.
    pub const ALL: [Self; 14] = [
        Self::Attitude,
        Self::FrontRoller,
        Self::RearRoller,
        Self::FrontRollerHeightKept,
        Self::RearRollerHeightKept,
        Self::HeightOfCut,
        Self::Extension,
        Self::GroundSpeed,
        Self::ReelSpeed,
        Self::RollersParallel,
        Self::RollersTrued,
        Self::Knife,
        Self::TopGround,
        Self::FaceGround,
    ];

    /// Every knob in the order they are told for a finding: what made it before what covers it up.
    #[must_use]
    pub fn all_for(finding: FindingId) -> [Self; 14] {
        let makes_it = |knob: &Self| match finding {
            FindingId::LowEnd | FindingId::LowEndUnderside | FindingId::RunoutSwing => {
                matches!(knob, Self::RollersParallel | Self::RollersTrued)
            }
            FindingId::Clip => knob.is_speed(),
            FindingId::Sweep
            | FindingId::Ahead
            | FindingId::Gap
            | FindingId::TopFace
            | FindingId::Reel
            | FindingId::Cut
            | FindingId::Underside
            | FindingId::Lip
            | FindingId::Scrap
            | FindingId::Rollers
            | FindingId::Attitude => false,
        };
        let mut all = Self::ALL;
        // As they stand among themselves.
        all.sort_by_key(|knob| !makes_it(knob));
        all
    }

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Attitude => "attitude",
            Self::FrontRoller => "front_roller",
            Self::RearRoller => "rear_roller",
            Self::FrontRollerHeightKept => "front_roller_height_kept",
            Self::RearRollerHeightKept => "rear_roller_height_kept",
            Self::Knife => "knife",
            Self::Extension => "extension",
            Self::FaceGround => "face_ground",
            Self::TopGround => "top_ground",
            Self::HeightOfCut => "height_of_cut",
            Self::GroundSpeed => "ground_speed",
            Self::ReelSpeed => "reel_speed",
            Self::RollersTrued => "rollers_trued",
            Self::RollersParallel => "rollers_parallel",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Attitude => "Attitude, height of cut kept",
            Self::FrontRoller => "Front roller alone",
            Self::RearRoller => "Rear roller alone",
            Self::FrontRollerHeightKept => "Front roller, height kept",
            Self::RearRollerHeightKept => "Rear roller, height kept",
            Self::Knife => "Another knife",
            Self::Extension => "Edge forward",
            Self::FaceGround => "Metal off front face",
            Self::TopGround => "Metal off top face",
            Self::HeightOfCut => "Height of cut",
            Self::GroundSpeed => "Ground speed",
            Self::ReelSpeed => "Reel speed",
            Self::RollersTrued => "Rollers trued",
            Self::RollersParallel => "Rollers parallel",
        }
    }

    /// Whether it changes a speed, which the machine's manual alone allows.
    #[must_use]
    pub const fn is_speed(self) -> bool {
        matches!(self, Self::GroundSpeed | Self::ReelSpeed)
    }

    /// Whether it moves the rollers in their brackets and changes no other thing.
    #[must_use]
    pub const fn moves_rollers_alone(self) -> bool {
        match self {
            Self::Attitude
            | Self::FrontRoller
            | Self::RearRoller
            | Self::FrontRollerHeightKept
            | Self::RearRollerHeightKept
            | Self::HeightOfCut => true,
            Self::Knife
            | Self::Extension
            | Self::FaceGround
            | Self::TopGround
            | Self::GroundSpeed
            | Self::ReelSpeed
            | Self::RollersTrued
            | Self::RollersParallel => false,
        }
    }

    /// The unit in which its change is told to programs.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Attitude => "deg",
            Self::GroundSpeed => "m/s",
            Self::ReelSpeed => "rpm",
            Self::FrontRoller
            | Self::RearRoller
            | Self::FrontRollerHeightKept
            | Self::RearRollerHeightKept
            | Self::Knife
            | Self::Extension
            | Self::FaceGround
            | Self::TopGround
            | Self::HeightOfCut
            | Self::RollersTrued
            | Self::RollersParallel => "mm",
        }
    }

    /// How it is tried.
    const fn kind(self) -> Kind {
        match self {
            Self::Attitude => Kind::Scaled(Scale::Attitude),
            Self::FrontRoller => Kind::Scaled(Scale::FrontRoller),
            Self::RearRoller => Kind::Scaled(Scale::RearRoller),
            Self::FrontRollerHeightKept => Kind::Scaled(Scale::FrontRollerHeightKept),
            Self::RearRollerHeightKept => Kind::Scaled(Scale::RearRollerHeightKept),
            Self::Knife => Kind::Knife,
            Self::Extension => Kind::Scaled(Scale::Extension),
            Self::FaceGround => Kind::Scaled(Scale::FaceGround),
            Self::TopGround => Kind::Scaled(Scale::TopGround),
            Self::HeightOfCut => Kind::Scaled(Scale::HeightOfCut),
            Self::GroundSpeed => Kind::Speed(SpeedKnob::Ground),
            Self::ReelSpeed => Kind::Speed(SpeedKnob::Reel),
            Self::RollersTrued => Kind::Wear(WearKnob::Trued),
            Self::RollersParallel => Kind::Wear(WearKnob::Parallel),
        }
    }
}

/// How a knob is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    /// At every place of its scale.
    Scaled(Scale),
    /// Every other knife.
    Knife,
    /// In closed form.
    Speed(SpeedKnob),
    /// As done.
    Wear(WearKnob),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum SpeedKnob {
    Ground,
    Reel,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum WearKnob {
    Trued,
    Parallel,
}

/// How far inside a limit a trial is set, as a part of its knob's range: far less than anybody reads.
const HAIR: f64 = 1e-9;
