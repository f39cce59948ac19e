//! What a whole sheet says.

use super::cut::ExpectedCut;
use super::doubt::Doubt;
use super::doubts::doubts_of;
use super::gauge_bar::{BarChoice, bar_choices};
use super::order::{StepState, order};
use super::parallel::Verdict;
use super::roller::{RollerResult, reread};
use crate::analysis::{Level, Solved};
use crate::plate::{Readings, Roller, RollerReadings, SheetFlaw, Step, Worksheet};
use crate::units::Length;

/// What a sheet says.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateResult {
    /// The sheet in plain values.
    pub readings: Readings,
    /// The front roller.
    pub front: Option<RollerResult>,
    /// The rear roller.
    pub rear: Option<RollerResult>,
    /// What the rollers as they are do to the cut.
    pub cut: Option<ExpectedCut>,
    /// The reel's diameter at its left end less that at its right end.
    pub reel_taper: Option<Length>,
    /// The reel's diameter in its middle over the mean of its ends.
    pub reel_barrel: Option<Length>,
    /// Readings that cannot be, or not together.
    pub doubts: Vec<Doubt>,
    /// Whether the bar that was measured suits the unit; none where one of both is not known.
    pub bar_suits: Option<bool>,
    /// The steps in working order.
    pub order: Vec<(Step, StepState)>,
}

impl PlateResult {
    /// What it says about one of the rollers.
    #[must_use]
    pub const fn roller(&self, roller: Roller) -> Option<&RollerResult> {
        match roller {
            Roller::Front => self.front.as_ref(),
            Roller::Rear => self.rear.as_ref(),
        }
    }

    /// How a step stands.
    #[must_use]
    pub fn state_of(&self, step: Step) -> StepState {
        let found = self.order.iter().find(|(of, _)| *of == step);
        found.map_or(StepState::ToDo, |(_, state)| *state)
    }

    /// What cannot be, of what was read in a step.
    pub fn doubts_of(&self, step: Step) -> impl Iterator<Item = &Doubt> {
        self.doubts
            .iter()
            .filter(move |doubt| doubt.step() == Some(step))
    }

    /// Whether something that was read in a step cannot be, and wants reading again.
    #[must_use]
    pub fn is_read_again(&self, step: Step) -> bool {
        self.doubts_of(step).any(Doubt::is_of_reading)
    }

    /// How the result of a step is, whether or not it wants doing again: fine as long as there is none.
    #[must_use]
    pub fn level_of(&self, step: Step) -> Level {
        let is_off_known = |roller: &RollerResult| {
            let parallel = roller.parallel.as_ref();
            parallel.is_some_and(|parallel| parallel.is_off_known)
        };
        let of_ends = |roller: Roller| {
            let parallel = self.roller(roller).filter(|of| of.parallel.is_some());
            parallel.map_or(Level::Fine, |roller| match roller.sure_verdict() {
                Some(Verdict::Fail) => Level::Over,
                Some(Verdict::Pass) => Level::Fine,
                None if roller.again.is_none() && roller.is_left() && is_off_known(roller) => {
                    Level::Fine
                }
                Some(Verdict::CannotTell) | None => Level::Watch,
            })
        };
        let of_runout = |roller: Roller| {
            let stations = self.roller(roller).into_iter();
            let stations = stations.flat_map(|roller| &roller.runout);
            // A runout that nobody can judge is open.
            let levels = stations.map(|station| station.level.unwrap_or(Level::Watch));
            levels.max().unwrap_or(Level::Fine)
        };
        let of_result = match step {
            Step::FrontEnds => of_ends(Roller::Front),
            Step::RearEnds => of_ends(Roller::Rear),
            Step::FrontRunout => of_runout(Roller::Front),
            Step::RearRunout => of_runout(Roller::Rear),
            Step::Height => {
                let cut = self.cut.filter(|cut| cut.places_read().next().is_some());
                cut.map_or(Level::Fine, |cut| cut.level())
            }
            Step::PlateAndBar
            | Step::Reel
            | Step::Bearings
            | Step::KnifeToReel
            | Step::FrontAdjuster
            | Step::RearAdjuster
            | Step::RockTest
            | Step::Attitude
            | Step::Record => Level::Fine,
        };
        let doubts = self.doubts_of(step).map(|doubt| doubt.level);
        doubts.fold(of_result, Ord::max)
    }

    /// The steps that are done, and whose result is not as it should be, with how it is.
    pub fn done_and_not_fine(&self) -> impl Iterator<Item = (Step, Level)> {
        let done = self.order.iter();
        let done = done.filter(|(_, state)| *state == StepState::Done);
        let done = done.map(|(step, _)| (*step, self.level_of(*step)));
        done.filter(|(_, level)| *level > Level::Fine)
    }

    /// The word for the result of a step: the verdict of a roller's ends, what was found of the height of
    /// cut, else how it stands.
    #[must_use]
    pub fn result_word(&self, step: Step, level: Level) -> &'static str {
        let of_ends = |roller: Roller| self.roller(roller)?.sure_verdict().map(Verdict::word);
        let word = match step {
            Step::FrontEnds => of_ends(Roller::Front),
            Step::RearEnds => of_ends(Roller::Rear),
            Step::Height => self.cut.map(|cut| cut.word()),
            _ => None,
        };
        let is_doubtful = self.is_read_again(step);
        word.filter(|_| !is_doubtful).unwrap_or(if is_doubtful {
            "read again"
        } else {
            level.word()
        })
    }

    /// The first step that is not done; none once all are.
    #[must_use]
    pub fn next_step(&self) -> Option<Step> {
        let next = self
            .order
            .iter()
            .find(|(_, state)| *state != StepState::Done);
        next.map(|(step, _)| *step)
    }

    /// Whether a roller runs out and its ends were read in one place of its turn alone: its runout passes for
    /// slope then.
    #[must_use]
    pub fn wants_half_turn(&self, roller: Roller) -> bool {
        let both = self.roller(roller).zip(self.readings.roller(roller));
        both.is_some_and(|(result, read)| {
            let is_out = |level: Option<Level>| level.is_some_and(|level| level > Level::Fine);
            let ends = read.left.zip(read.right);
            ends.is_some_and(|(left, right)| !left.is_of_half_turn && !right.is_of_half_turn)
                && result.runout.iter().any(|station| is_out(station.level))
        })
    }

    /// Works a sheet out, for the unit it names if there is one.
    ///
    /// # Errors
    /// When a value of the sheet makes no sense.
    pub fn of(sheet: &Worksheet, unit: Option<&Solved>) -> Result<Self, SheetFlaw> {
        let readings = sheet.checked()?;
        let turf = unit.map(|unit| unit.document.turf);
        let of_roller = |roller: Option<&RollerReadings>| {
            roller.map(|roller| RollerResult::of(roller, &readings, turf))
        };
        let (mut front, mut rear) = (
            of_roller(readings.front.as_ref()),
            of_roller(readings.rear.as_ref()),
        );
        let doubts = doubts_of(sheet, &readings, unit);
        if let Some(front) = &mut front {
            front.again = reread(Roller::Front, sheet, &doubts, None);
        }
        if let Some(rear) = &mut rear {
            rear.again = reread(Roller::Rear, sheet, &doubts, front.as_ref());
        }
        let cut = unit.and_then(|unit| {
            ExpectedCut::of(
                &unit.solution.pose,
                &readings,
                front.as_ref()?.parallel.as_ref()?,
                rear.as_ref()?.parallel.as_ref()?,
            )
        });
        let reel = readings.reel;
        let ends = reel.left.zip(reel.right);
        let taper = ends.map(|(left, right)| left.value - right.value);
        let barrel = ends
            .zip(reel.middle)
            .map(|((left, right), middle)| middle.value - (left.value + right.value) * 0.5);
        Ok(Self {
            order: order(sheet, &readings, front.as_ref(), rear.as_ref()),
            doubts,
            bar_suits: bar_suits(&readings, unit),
            readings,
            front,
            rear,
            cut,
            reel_taper: taper,
            reel_barrel: barrel,
        })
    }
}

/// Whether the middle of the bar under both ends suits the unit.
fn bar_suits(readings: &Readings, unit: Option<&Solved>) -> Option<bool> {
    let ([left, right], unit) = readings.bar.zip(unit)?;
    let bar = (left.value + right.value) * 0.5;
    let choices = bar_choices(unit, &[bar]);
    choices.first().map(BarChoice::can_be_used)
}
