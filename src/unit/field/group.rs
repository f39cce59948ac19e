//! The brackets of the unit file that fields stand in.

use std::fmt;

use super::Choice;
use crate::unit::Fitted;

/// Fields that stand in one pair of brackets. Its text is its path in the unit file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// The whole file, and what stands in no bracket of its own.
    Unit,
    /// The reel from new to scrap.
    Reel,
    /// What was measured on the plate.
    Bench,
    /// The front roller.
    FrontRoller,
    /// The rear roller.
    RearRoller,
    /// What belongs to the way the gap is closed.
    Closing,
    /// A knife.
    Knife(Fitted),
    /// The points of the hardware.
    HardwareList,
    /// A point of the hardware.
    Hardware(usize),
    /// The knives to compare.
    Options,
    /// What is being tried.
    Setting,
    /// The rollers as given.
    RollerMoves,
    /// Speeds while mowing.
    Mowing,
    /// What the rollers stand on.
    Ground,
    /// A straightedge laid on it.
    Straightedge,
    /// What is worn or out of true.
    Wear,
    /// What moves the rollers in their brackets.
    Brackets,
    /// How knives are ground.
    Grinding,
    /// Limits of one's own trials.
    Limits,
    /// The attitudes that the roller brackets allow.
    AttitudeRange,
}

impl Group {
    /// The group around it.
    #[must_use]
    pub const fn parent(self) -> Option<Self> {
        match self {
            Self::Unit => None,
            Self::Reel
            | Self::Bench
            | Self::Closing
            | Self::Knife(Fitted::Bench)
            | Self::HardwareList
            | Self::Options
            | Self::Setting
            | Self::Mowing
            | Self::Ground
            | Self::Wear
            | Self::Brackets
            | Self::Grinding
            | Self::Limits => Some(Self::Unit),
            Self::FrontRoller | Self::RearRoller => Some(Self::Bench),
            Self::Knife(Fitted::Option(_)) => Some(Self::Options),
            Self::Hardware(_) => Some(Self::HardwareList),
            Self::RollerMoves => Some(Self::Setting),
            Self::Straightedge => Some(Self::Ground),
            Self::AttitudeRange => Some(Self::Limits),
        }
    }

    /// The group and those around it, from the inside.
    pub(super) fn and_around(self) -> impl Iterator<Item = Self> {
        std::iter::successors(Some(self), |group| group.parent())
    }

    /// Whether it is a group or stands in it.
    #[must_use]
    pub fn is_within(self, other: Self) -> bool {
        self.and_around().any(|group| group == other)
    }

    /// What stands for it in a unit file.
    pub(in crate::unit) const fn wanted(self) -> &'static str {
        match self {
            Self::Unit
            | Self::Reel
            | Self::Bench
            | Self::Knife(Fitted::Bench)
            | Self::Setting
            | Self::Ground
            | Self::Wear
            | Self::Brackets
            | Self::Grinding => "its fields between round brackets",
            Self::FrontRoller => "(diameter: …, ahead: …)",
            Self::RearRoller => "(diameter: …, behind: …)",
            Self::Closing => Choice::Closing.wanted(),
            Self::Knife(Fitted::Option(_)) => "a knife, its fields between round brackets",
            Self::HardwareList => {
                "a list in square brackets, like [(behind: \"1.5 in\", below: \"0.3 in\")]"
            }
            Self::Hardware(_) => "(behind: …, below: …), with on: Knife for a point on the knife",
            Self::Options => "a list of knives in square brackets, or [] for none",
            Self::RollerMoves => "one or both of (front_move: …, rear_move: …), or None",
            Self::Mowing => "(ground_speed: …, reel_speed: …), or None",
            Self::Straightedge => "(length: \"6 ft\", gap: \"1/4 in\", at: Middle), or None",
            Self::Limits => "its fields between round brackets, or None",
            Self::AttitudeRange => "(low: …, high: …), or None",
        }
    }
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unit => "",
            Self::Reel => "reel",
            Self::Bench => "bench",
            Self::FrontRoller => "bench.front_roller",
            Self::RearRoller => "bench.rear_roller",
            Self::Closing => "closing",
            Self::Knife(Fitted::Bench) => "knife",
            Self::Knife(Fitted::Option(index)) => return write!(f, "options[{index}]"),
            Self::HardwareList => "hardware",
            Self::Hardware(index) => return write!(f, "hardware[{index}]"),
            Self::Options => "options",
            Self::Setting => "setting",
            Self::RollerMoves => "setting.rollers",
            Self::Mowing => "mowing",
            Self::Ground => "ground",
            Self::Straightedge => "ground.straightedge",
            Self::Wear => "wear",
            Self::Brackets => "brackets",
            Self::Grinding => "grinding",
            Self::Limits => "limits",
            Self::AttitudeRange => "limits.attitude_range",
        })
    }
}
