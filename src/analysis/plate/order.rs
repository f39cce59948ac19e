//! How far the work at the plate is: the state of each step.

use super::parallel::{HighEnd, Verdict};
use super::roller::{Reread, RollerResult};
use crate::analysis::Level;
use crate::plate::{Readings, RollerReadings, Station, Step, Worksheet};

/// How a step stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepState {
    /// It is done.
    Done,
    /// It is still to do.
    ToDo,
    /// It was done, and wants doing again.
    Again,
}

impl StepState {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::ToDo => "to do",
            Self::Again => "again",
        }
    }

    /// The words for it, and for how its result is where that is not fine: a reading that cannot be is no
    /// result, and is to be read again.
    #[must_use]
    pub fn words_with(self, level: Level, is_read_again: bool) -> String {
        if self == Self::Done && is_read_again {
            format!("{}, read again", self.words())
        } else if self == Self::Done && level > Level::Fine {
            format!("{}, {}", self.words(), level.word())
        } else {
            self.words().to_owned()
        }
    }
}

/// The steps in working order, by what was entered.
pub(super) fn order(
    sheet: &Worksheet,
    readings: &Readings,
    front: Option<&RollerResult>,
    rear: Option<&RollerResult>,
) -> Vec<(Step, StepState)> {
    let work = Work {
        sheet,
        readings,
        front,
        rear,
    };
    let state = |step| (step, work.state(step));
    Step::ALL.into_iter().map(state).collect()
}

/// What was entered, and how parallel the rollers are by it.
struct Work<'a> {
    sheet: &'a Worksheet,
    readings: &'a Readings,
    front: Option<&'a RollerResult>,
    rear: Option<&'a RollerResult>,
}

impl Work<'_> {
    fn state(&self, step: Step) -> StepState {
        if !self.is_entered(step) {
            return StepState::ToDo;
        }
        // What moves a roller spoils what was read after it.
        let is_to_be_moved = |roller: Option<&RollerResult>| {
            let parallel = roller.and_then(|roller| roller.parallel.as_ref());
            parallel.is_some_and(|parallel| parallel.verdict == Some(Verdict::Fail))
        };
        let is_spoilt = is_to_be_moved(self.front) && step > Step::FrontAdjuster
            || is_to_be_moved(self.rear) && step > Step::RearAdjuster;
        let is_again = self.sheet.again.contains(&step);
        if step == Step::PlateAndBar && is_again {
            // The bar's own size stands there, which nobody measured yet.
            StepState::ToDo
        } else if is_spoilt || is_again {
            StepState::Again
        } else {
            StepState::Done
        }
    }

    fn is_entered(&self, step: Step) -> bool {
        let readings = self.readings;
        match step {
            Step::PlateAndBar => readings.bar.is_some(),
            Step::Reel => readings.reel.is_whole(),
            Step::KnifeToReel => readings.knife_to_reel.is_whole(),
            Step::FrontRunout => is_runout_whole(readings.front.as_ref()),
            Step::RearRunout => is_runout_whole(readings.rear.as_ref()),
            Step::FrontEnds => is_read(self.front),
            Step::RearEnds => is_read(self.rear),
            Step::FrontAdjuster => self.front.is_some_and(is_parallel),
            Step::RearAdjuster => self.rear.is_some_and(is_parallel),
            Step::Height => readings.height.is_whole(),
            Step::Attitude => readings.attitude.is_some(),
            Step::Bearings | Step::RockTest | Step::Record => self.sheet.ticked.contains(&step),
        }
    }
}

fn is_read(roller: Option<&RollerResult>) -> bool {
    roller.is_some_and(|roller| roller.parallel.is_some())
}

/// As parallel as it is wanted, by readings that belong together; where nobody says how parallel that is, as
/// far as can be told.
fn is_parallel(roller: &RollerResult) -> bool {
    let Some(parallel) = &roller.parallel else {
        return false;
    };
    match roller.verdict() {
        Some(verdict) => verdict == Verdict::Pass,
        None => roller.again != Some(Reread::Mixed) && parallel.high == HighEnd::Level,
    }
}

fn is_runout_whole(roller: Option<&RollerReadings>) -> bool {
    let is_read = |station: Station| {
        roller.is_some_and(|roller| roller.runout.iter().any(|read| read.station == station))
    };
    [Station::Left, Station::Middle, Station::Right]
        .into_iter()
        .all(is_read)
}
