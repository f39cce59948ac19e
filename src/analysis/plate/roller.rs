//! What a sheet says about one roller.

use super::correction::{Correction, at_adjuster};
use super::doubt::Doubt;
use super::parallel::{HighEnd, Parallel, Verdict};
use super::runout::{RunoutLimits, StationRunout, bow_of};
use crate::geometry::OutOfCentre;
use crate::plate::{Readings, Roller, RollerReadings, Step, Worksheet};
use crate::unit::Turf;
use crate::units::Length;

/// Why the ends of a roller are to be read again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reread {
    /// A roller was moved after some of what stands there was read.
    Mixed,
    /// What was read after half a turn cannot stand beside what was read before it.
    Clash,
    /// The front roller is not parallel, and moving it spoils what was read at the rear.
    FrontFirst,
}

impl Reread {
    /// It in a sentence.
    #[must_use]
    pub const fn told(self) -> &'static str {
        match self {
            Self::Mixed => {
                "No verdict: a roller was moved after some of these readings. Read both ends again."
            }
            Self::Clash => {
                "No verdict: the readings half a turn apart clash. Read them again before you move the roller."
            }
            Self::FrontFirst => {
                "The front roller is not parallel: once it has been moved, read these ends again."
            }
        }
    }
}

/// What a sheet says about one roller; whatever was not read is none.
#[derive(Clone, Debug, PartialEq)]
pub struct RollerResult {
    /// How parallel it is.
    pub parallel: Option<Parallel>,
    /// Why its ends are to be read again; none where what was read of them holds.
    pub again: Option<Reread>,
    /// How far the end that is adjusted must come down; less than zero: up.
    pub at_adjuster: Option<Length>,
    /// What does that.
    pub correction: Option<Correction>,
    /// Its runout, in the order it was read.
    pub runout: Vec<StationRunout>,
    /// How far it is bent, and which way.
    pub bow: Option<OutOfCentre>,
}

impl RollerResult {
    pub(super) fn of(roller: &RollerReadings, sheet: &Readings, turf: Option<Turf>) -> Self {
        let parallel = Parallel::of(roller, sheet, turf);
        let at_adjuster = parallel.as_ref().and_then(|parallel| {
            let (apart, adjust) = (roller.adjusters_apart?, roller.adjust?);
            Some(at_adjuster(parallel.slope, apart, adjust))
        });
        let correction = at_adjuster
            .zip(roller.adjuster.as_ref())
            .map(|(down, adjuster)| Correction::of(adjuster, -down));
        let limits = RunoutLimits::of(sheet, turf);
        Self {
            parallel,
            again: None,
            at_adjuster,
            correction,
            runout: roller
                .runout
                .iter()
                .map(|station| StationRunout::of(station, limits))
                .collect(),
            bow: bow_of(&roller.runout),
        }
    }

    /// Whether it is left as it is: as parallel as it is wanted, out by no more than its readings can be
    /// off, or still to be read again.
    #[must_use]
    pub fn is_left(&self) -> bool {
        self.why_left().is_some()
    }

    /// Why it is left as it is, in words; none where it is to be moved or was not read.
    #[must_use]
    pub fn why_left(&self) -> Option<&'static str> {
        let parallel = self.parallel.as_ref()?;
        if matches!(self.again, Some(Reread::Mixed | Reread::Clash)) {
            Some("read both ends again first")
        } else if parallel.verdict == Some(Verdict::Pass) {
            Some("leave it: it is as parallel as wanted")
        } else if parallel.high == HighEnd::Level {
            Some("leave it: it is out by no more than U")
        } else {
            None
        }
    }

    /// Whether it is as parallel as it is wanted, by readings that belong together; undecided where they
    /// are of before and after a roller was moved. A reading that does not say how far it can be off counts
    /// as exact here: this is the verdict for programs.
    #[must_use]
    pub fn verdict(&self) -> Option<Verdict> {
        let verdict = self.parallel.as_ref()?.verdict?;
        Some(match self.again {
            Some(Reread::Mixed) => Verdict::CannotTell,
            Some(Reread::Clash | Reread::FrontFirst) | None => verdict,
        })
    }

    /// The verdict a person is told: undecided as well where readings clash, and where a pass rests on
    /// readings that do not say how far they can be off.
    #[must_use]
    pub fn sure_verdict(&self) -> Option<Verdict> {
        let parallel = self.parallel.as_ref()?;
        let verdict = self.verdict()?;
        let is_open =
            self.again == Some(Reread::Clash) || verdict == Verdict::Pass && !parallel.is_off_known;
        Some(if is_open {
            Verdict::CannotTell
        } else {
            verdict
        })
    }
}

/// Why a roller's ends are to be read again, by what the sheet remembers, by whether its readings clash, and
/// by how the front roller is.
pub(super) fn reread(
    roller: Roller,
    sheet: &Worksheet,
    doubts: &[Doubt],
    front: Option<&RollerResult>,
) -> Option<Reread> {
    let ends = match roller {
        Roller::Front => Step::FrontEnds,
        Roller::Rear => Step::RearEnds,
    };
    if sheet.again.contains(&ends) {
        return Some(Reread::Mixed);
    }
    if doubts.iter().any(|doubt| doubt.step() == Some(ends)) {
        return Some(Reread::Clash);
    }
    let is_front_out = front.is_some_and(|front| front.verdict() == Some(Verdict::Fail));
    (roller == Roller::Rear && is_front_out).then_some(Reread::FrontFirst)
}
