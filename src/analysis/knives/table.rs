//! The table of knives: one row for each, with its numbers and its windows through the reel's life.

use super::life::{Life, ReelWindows, Trial};
use super::price::{price_in, total_of};
use super::set_once::{SetOnce, set_once};
use super::verdict::{Judgement, OnTrial};
use super::window::windows;
use crate::analysis::{Case, FindingId, Findings, Level, Solution, Solved};
use crate::geometry::{Impossible, Pose, Setting, Stance};
use crate::unit::{Fitted, Knife, Pieces, Unit};
use crate::units::{Angle, Length, Share};

/// How a knife's numbers stand to their limits as set now, the reel as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RowLevels {
    /// The edge against the reel's centre.
    pub behind_centre: Level,
    /// The sweep below the cut.
    pub sweep: Level,
    /// The underside over the ground.
    pub underside: Level,
}

impl RowLevels {
    fn of(unit: &Unit, setting: &Setting, solution: &Solution) -> Self {
        let case = Case {
            unit,
            setting,
            solution,
        };
        let level = |finding| {
            let judged = Findings::judged(&case, finding);
            judged.map_or(Level::Fine, |judged| judged.level())
        };
        Self {
            behind_centre: level(FindingId::Ahead),
            sweep: level(FindingId::Sweep),
            underside: level(FindingId::Underside),
        }
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
    /// The number in its price; none where there is none.
    pub price: Option<f64>,
    /// How many are wanted.
    pub quantity: Pieces,
    /// The attitudes that hold every limit at every diameter of the reel, from new to scrap.
    pub set_once: Option<SetOnce>,
    /// Whether it fits.
    pub judgement: Judgement,
    /// The unit solved with it at the attitude and height in force, the reel as it is now.
    pub solution: Result<Solution, Impossible>,
    /// How those numbers stand to their limits.
    pub levels: Option<RowLevels>,
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
        let section = solved.document.section_of(place, knife);
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
        let ends = [&life[0], &life[2]];
        let set_once = set_once(unit, &now, trial.height_of_cut, ends);
        let on_trial = OnTrial {
            unit,
            trial: &trial,
            knife: (place, section),
            set_once: set_once.as_ref(),
        };
        let judgement = on_trial.judge();
        let rear_for_middle = life[1].widest().and_then(|window| {
            let stance = Stance::Wanted {
                attitude: window.middle(),
                height_of_cut: trial.height_of_cut,
            };
            let pose = Pose::solve(&unit.profile, &Setting { stance, ..now }).ok()?;
            Some(pose.rear_roller.moved)
        });
        let solution = Solution::of(unit, &now);
        Self {
            knife: place,
            name: knife.name.clone(),
            price: knife.price.as_deref().and_then(price_in),
            quantity: knife.quantity,
            set_once,
            judgement,
            extension: now.total_extension(&unit.profile),
            levels: solution.as_ref().ok().map(|s| RowLevels::of(unit, &now, s)),
            solution,
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

    /// The top angle needed as set now: how far below the datum its top face must fall, going back
    /// from the edge, to clear the reel.
    #[must_use]
    pub fn top_angle_needed(&self) -> Option<Angle> {
        let solution = self.solution.as_ref().ok()?;
        Some(solution.top_angle_needed)
    }

    /// What all that are wanted of it cost; none without a price.
    #[must_use]
    pub fn total(&self) -> Option<f64> {
        total_of(self.price, self.quantity)
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

    /// How much attitude it leaves, set once from a new reel to a scrap one; zero where there is none.
    #[must_use]
    pub fn room(&self) -> Angle {
        self.set_once.as_ref().map_or(Angle::ZERO, SetOnce::width)
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
