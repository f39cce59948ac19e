//! The table of knives: one row for each, with its numbers and its windows through the reel's life.

use super::life::{Life, ReelWindows, Trial};
use super::lip::LipLeft;
use super::price::{price_in, total_of};
use super::set_once::{SetOnce, set_once};
use super::verdict::{Judgement, OnTrial};
use super::window::Window;
use super::window::windows;
use crate::analysis::advice::{AimedAttitude, Certainty};
use crate::analysis::{Case, FindingId, Findings, Level, Solution, Solved};
use crate::geometry::{Impossible, KnifeSection, Pose, Setting, Stance};
use crate::unit::{Fitted, Knife, Pieces, Unit};
use crate::units::{Angle, Length, Sentence, Share, System};

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

/// What a knife is set to, height of cut kept, the reel as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnifeAim {
    /// The least attitude that clears the underside by its limit and a margin, or else the nearest
    /// that is told about its worst finding.
    pub attitude: Angle,
    /// The rear roller's place from the bench for it.
    pub rear_roller: Length,
    /// Why it is the least that will do, or that the readings' ± leave it undecided; none where it is
    /// the nearest.
    pub why: Option<Sentence>,
    /// How sure it is that every limit it is to hold is held there.
    pub certainty: Certainty,
}

/// Why there is no attitude to aim a knife at, the reel as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoAim {
    /// Reel and knife do not meet as the unit is set.
    DoesNotMeet,
    /// The edge is in the ground: there is no height of cut to keep.
    EdgeInGround,
    /// No attitude holds every limit.
    NoRange,
    /// There is a working range, but no attitude clears what is past its limit without making another
    /// finding worse.
    NoneClears,
    /// The attitude that clears the worst finding lies outside every working range.
    OutsideRange(Angle),
}

impl NoAim {
    /// Why there is none, as a sentence.
    #[must_use]
    pub fn sentence(self) -> Sentence {
        match self {
            Self::DoesNotMeet => Sentence::new(
                "With the reel as it is, reel and knife do not meet at the attitude set now.",
                &[],
            ),
            Self::EdgeInGround => Sentence::new(
                "The edge is in the ground: set the height of cut first.",
                &[],
            ),
            Self::NoRange => {
                Sentence::new("With the reel as it is no attitude holds every limit.", &[])
            }
            Self::NoneClears => Sentence::new(
                "There is a working attitude range with the reel as it is, but no attitude clears what is past its limit without making another finding worse.",
                &[],
            ),
            Self::OutsideRange(attitude) => Sentence::new(
                "The attitude that would clear the worst finding, {}, is outside the working attitude range.",
                &[attitude.into()],
            ),
        }
    }
}

impl KnifeAim {
    /// What a knife on trial is set to, the reel as it is, for somebody who reads in `system`.
    ///
    /// # Errors
    /// When there is no such attitude, with why.
    pub fn of(
        unit: &Unit,
        trial: &Trial,
        (place, section): (Fitted, KnifeSection),
        system: System,
    ) -> Result<Self, NoAim> {
        let setting = trial.setting(unit, section, unit.setting.reel_diameter);
        let solution = Solution::of(unit, &setting).map_err(|_| NoAim::DoesNotMeet)?;
        let case = Case {
            unit,
            setting: &setting,
            solution: &solution,
        };
        let windows = windows(unit, &setting, trial.height_of_cut);
        Self::within(&windows, &case, (trial, place), system)
    }

    /// The same with its working ranges known.
    fn within(
        windows: &[Window],
        case: &Case,
        (trial, place): (&Trial, Fitted),
        system: System,
    ) -> Result<Self, NoAim> {
        if windows.is_empty() {
            return Err(NoAim::NoRange);
        }
        if case.solution.pose.height_of_cut.mm() <= 0.0 {
            return Err(NoAim::EdgeInGround);
        }
        let follows = case.unit.follows.with_knife(place);
        let aimed = AimedAttitude::of(case, follows, system).ok_or(NoAim::NoneClears)?;
        let holds = |window: &Window| (window.low..=window.high).contains(&aimed.attitude);
        if !windows.iter().any(holds) {
            return Err(NoAim::OutsideRange(aimed.attitude));
        }
        let stance = Stance::Wanted {
            attitude: aimed.attitude,
            height_of_cut: trial.height_of_cut,
        };
        let setting = Setting {
            stance,
            ..*case.setting
        };
        let pose = Pose::solve(&case.unit.profile, &setting).map_err(|_| NoAim::DoesNotMeet)?;
        Ok(Self {
            attitude: aimed.attitude,
            rear_roller: pose.rear_roller.moved,
            why: aimed.why,
            certainty: aimed.certainty,
        })
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
    /// What it is set to, or why its working range with the reel as it is leaves no room for that.
    pub aim: Result<KnifeAim, NoAim>,
    /// The lip that is left of it.
    pub lip: LipLeft,
}

impl KnifeRow {
    /// The row of one of the document's knives, at the attitude and height in force, for somebody who
    /// reads in `system`.
    #[must_use]
    pub fn of(solved: &Solved, place: Fitted, knife: &Knife, system: System) -> Self {
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
        let solution = Solution::of(unit, &now);
        let aim = solution.as_ref().map_err(|_| NoAim::DoesNotMeet);
        let aim = aim.and_then(|solution| {
            let case = Case {
                unit,
                setting: &now,
                solution,
            };
            KnifeAim::within(&life[1].windows, &case, (&trial, place), system)
        });
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
            aim,
            lip: LipLeft::of(&section, &unit.grinding),
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

/// The rows of the bench knife and every option, at the attitude and height in force, for somebody
/// who reads in the units the unit was measured in.
#[must_use]
pub fn table(solved: &Solved) -> Vec<KnifeRow> {
    let knives = solved.document.knives();
    knives
        .map(|(place, knife)| KnifeRow::of(solved, place, knife, solved.unit.system))
        .collect()
}
