//! A knife on trial through the reel's life: the reel new, as it is set, and at scrap size.

use super::window::Window;
use crate::analysis::Solution;
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// A size of the reel in its life.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Life {
    /// Its diameter when new.
    New,
    /// As it is set now.
    Now,
    /// Its scrap size.
    Scrap,
}

impl Life {
    /// The three sizes, from new to scrap.
    pub const ALL: [Self; 3] = [Self::New, Self::Now, Self::Scrap];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Now => "now",
            Self::Scrap => "scrap",
        }
    }

    /// The reel's diameter then.
    #[must_use]
    pub fn diameter(self, unit: &Unit) -> Length {
        match self {
            Self::New => unit.new_diameter,
            Self::Now => unit.setting.reel_diameter,
            Self::Scrap => unit.smallest_diameter,
        }
    }
}

/// A knife put on the unit, all else set as it is: attitude and height of cut in force.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trial {
    /// The attitude in force.
    pub attitude: Angle,
    /// The height of cut in force.
    pub height_of_cut: Length,
}

impl Trial {
    /// The attitude and height of cut in force on a solved unit.
    #[must_use]
    pub fn of(solution: &Solution) -> Self {
        Self {
            attitude: solution.pose.attitude,
            height_of_cut: solution.pose.height_of_cut,
        }
    }

    /// The unit's setting with a knife fitted and the reel at a diameter.
    #[must_use]
    pub fn setting(&self, unit: &Unit, knife: KnifeSection, reel_diameter: Length) -> Setting {
        Setting {
            knife,
            reel_diameter,
            stance: Stance::Wanted {
                attitude: self.attitude,
                height_of_cut: self.height_of_cut,
            },
            ..unit.setting
        }
    }
}

/// The windows that a knife leaves at one size of the reel.
#[derive(Clone, Debug, PartialEq)]
pub struct ReelWindows {
    /// When in the reel's life.
    pub life: Life,
    /// Its diameter then.
    pub diameter: Length,
    /// The usable windows, from the least attitude up; none where no attitude holds all limits.
    pub windows: Vec<Window>,
}

impl ReelWindows {
    /// The widest window.
    #[must_use]
    pub fn widest(&self) -> Option<&Window> {
        self.windows
            .iter()
            .max_by(|a, b| a.width().deg().total_cmp(&b.width().deg()))
    }
}
