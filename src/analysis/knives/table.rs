//! The table of knives: one row for each, with its numbers and its windows through the reel's life.

use super::window::{Window, windows};
use crate::analysis::{Solution, Solved};
use crate::geometry::{Impossible, KnifeSection, Pose, Setting, Stance};
use crate::unit::{Fitted, Knife, Unit};
use crate::units::{Angle, Length, Share};

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

/// A knife's numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct KnifeRow {
    /// Its place in the document.
    pub knife: Fitted,
    /// Its name.
    pub name: String,
    /// The total extension it gives.
    pub extension: Length,
    /// The unit solved with it at the attitude and height in force, the reel as it is now.
    pub solution: Result<Solution, Impossible>,
    /// Its windows with the reel new, as it is, and at scrap size.
    pub life: [ReelWindows; 3],
    /// The rear roller's place from the bench for the middle of the widest window as the reel is.
    pub rear_for_middle: Option<Length>,
}

impl KnifeRow {
    /// The row of one of the document's knives, at the attitude and height in force.
    #[must_use]
    pub fn of(solved: &Solved, place: Fitted, knife: &Knife) -> Self {
        let unit = &solved.unit;
        let trial = Trial::of(&solved.solution);
        let section = knife.section();
        let now = trial.setting(unit, section, unit.setting.reel_diameter);
        let life = Life::ALL.map(|life| {
            let diameter = life.diameter(unit);
            let setting = trial.setting(unit, section, diameter);
            let windows = windows(unit, &setting, trial.height_of_cut);
            ReelWindows {
                life,
                diameter,
                windows,
            }
        });
        let rear_for_middle = life[1].widest().and_then(|window| {
            let stance = Stance::Wanted {
                attitude: window.middle(),
                height_of_cut: trial.height_of_cut,
            };
            let pose = Pose::solve(&unit.profile, &Setting { stance, ..now }).ok()?;
            Some(pose.rear_roller.moved)
        });
        Self {
            knife: place,
            name: knife.name.clone(),
            extension: now.total_extension(&unit.profile),
            solution: Solution::of(unit, &now),
            life,
            rear_for_middle,
        }
    }

    /// The sweep as a share of the height of cut, as set now.
    #[must_use]
    pub fn sweep_share(&self) -> Option<Share> {
        self.solution
            .as_ref()
            .ok()
            .and_then(|solution| solution.sweep_share)
    }

    /// The windows at one size of the reel.
    #[must_use]
    pub fn at(&self, life: Life) -> &ReelWindows {
        match life {
            Life::New => &self.life[0],
            Life::Now => &self.life[1],
            Life::Scrap => &self.life[2],
        }
    }

    /// The narrowest of its widest windows through the reel's life; none where one is missing.
    #[must_use]
    pub fn least_room(&self) -> Option<Angle> {
        let widths = self
            .life
            .iter()
            .map(|reel| reel.widest().map(Window::width));
        widths
            .reduce(|least, next| Some(if next? < least? { next? } else { least? }))
            .flatten()
    }
}

/// The rows of the bench knife and every option, at the attitude and height in force.
#[must_use]
pub fn table(solved: &Solved) -> Vec<KnifeRow> {
    let knives = solved.document.knives();
    knives
        .map(|(place, knife)| KnifeRow::of(solved, place, knife))
        .collect()
}
