//! A change tried on a unit, judged by every finding.

use crate::analysis::{Case, FindingId, Findings, Level, Solution, Standings, Uncertainty};
use crate::geometry::Setting;
use crate::unit::{Follows, Reading, Unit};

/// How many findings there are.
pub(super) const FINDINGS: usize = FindingId::ALL.len();

/// How many readings from a value on are tried.
pub(super) const READINGS: usize = 8;

/// How sure it is that what was advised does what is told of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Certainty {
    /// The finding is within its limits by more than its ±, and no other one is left undecided that
    /// was within its own before.
    Sure,
    /// The numbers read so; a limit lies within what they can be off.
    Reads,
}

/// The findings that a change leaves undecided.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::analysis) struct Undecided([bool; FINDINGS]);

impl Undecided {
    fn holds(&self, id: FindingId) -> bool {
        self.0[id as usize]
    }

    /// Whether there is none.
    pub(in crate::analysis) fn is_none(&self) -> bool {
        FindingId::ALL.iter().all(|id| !self.holds(*id))
    }

    /// The findings, in the order they are told.
    pub(in crate::analysis) fn iter(self) -> impl Iterator<Item = FindingId> {
        FindingId::ALL.into_iter().filter(move |id| self.holds(*id))
    }

    /// Those of `among` alone.
    pub(super) fn among(self, among: impl Fn(FindingId) -> bool) -> Self {
        let mut kept = self;
        for id in FindingId::ALL {
            kept.0[id as usize] &= among(id);
        }
        kept
    }
}

/// What is asked of a change: that it clears one finding and makes no other one worse.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Asked<'a> {
    /// The unit as it is set.
    pub(in crate::analysis) case: Case<'a>,
    /// How its findings stand.
    pub(in crate::analysis) now: &'a Standings,
    /// The finding that is to be cleared.
    pub(in crate::analysis) finding: FindingId,
    /// Which of the setting's values are the bench's own readings.
    pub(in crate::analysis) follows: Follows,
}

/// Within how much of the number of every finding no limit is shown to be kept, in its base unit.
pub(super) fn doubts(uncertainty: &Uncertainty) -> [f64; FINDINGS] {
    let mut doubts = [0.0; FINDINGS];
    for id in FindingId::ALL {
        let off = id
            .number()
            .map(|number| uncertainty.in_doubt_within(number));
        doubts[id as usize] = off.unwrap_or(0.0);
    }
    doubts
}

impl Asked<'_> {
    /// The findings that are undecided about a unit in a setting.
    fn undecided_by(unit: &Unit, setting: &Setting, follows: Follows) -> Undecided {
        let mut undecided = Undecided::default();
        let Ok(solution) = Solution::of(unit, setting) else {
            return undecided;
        };
        let case = Case {
            unit,
            setting,
            solution: &solution,
        };
        let uncertainty = Uncertainty::of(unit, setting, follows);
        let found = Findings::about(&case).doubted(&case, &uncertainty);
        for finding in found.iter() {
            undecided.0[finding.id as usize] = finding.doubt.is_some();
        }
        undecided
    }

    /// The findings that are undecided as the unit is set.
    pub(super) fn undecided_now(&self) -> Undecided {
        Self::undecided_by(self.case.unit, self.case.setting, self.follows)
    }

    /// The findings that a change leaves undecided, some values of the setting no longer the bench's
    /// own in one way or another.
    pub(super) fn undecided_after(
        unit: &Unit,
        setting: &Setting,
        ways: impl IntoIterator<Item = Follows>,
    ) -> Undecided {
        let mut all = Undecided::default();
        for follows in ways {
            let undecided = Self::undecided_by(unit, setting, follows);
            for (all, one) in all.0.iter_mut().zip(undecided.0) {
                *all |= one;
            }
        }
        all
    }

    /// How sure a change is to do what is asked, and what of the finding and of what it opened is
    /// undecided then.
    pub(super) fn sure_of(
        &self,
        unit: &Unit,
        setting: &Setting,
        follows: Follows,
    ) -> (Certainty, Undecided) {
        let now = self.undecided_now();
        let after = Self::undecided_after(unit, setting, [follows]);
        let open = after.among(|id| id == self.finding || !now.holds(id));
        (self.certainty(now, after), open)
    }

    /// Whether a change that leaves so much undecided is sure to do what is asked.
    pub(super) fn certainty(&self, now: Undecided, after: Undecided) -> Certainty {
        let made_open = |id: FindingId| {
            after.holds(id) && (id == self.finding || self.now.is_fine(id) && !now.holds(id))
        };
        if FindingId::ALL.into_iter().any(made_open) {
            Certainty::Reads
        } else {
            Certainty::Sure
        }
    }

    /// What another unit and setting give; none where they cannot exist.
    pub(in crate::analysis) fn tried(
        unit: &Unit,
        setting: &Setting,
    ) -> Option<(Solution, Standings)> {
        let solution = Solution::of(unit, setting).ok()?;
        let standings = Standings::of(&Case {
            unit,
            setting,
            solution: &solution,
        });
        Some((solution, standings))
    }

    /// Whether a change clears the finding and takes no other one to a worse level. What is past its
    /// limit already may get further by what rounding does: moves are read to so many digits.
    pub(in crate::analysis) fn keeps_levels(&self, unit: &Unit, setting: &Setting) -> bool {
        Self::tried(unit, setting).is_some_and(|(_, then)| {
            let level = |standings: &Standings, id| {
                standings
                    .get(id)
                    .map_or(Level::Fine, |standing| standing.level)
            };
            let mut others = FindingId::ALL.into_iter();
            then.is_fine(self.finding) && others.all(|id| level(&then, id) <= level(self.now, id))
        })
    }

    /// What a change gives, if it does what is asked.
    pub(in crate::analysis) fn holding(&self, unit: &Unit, setting: &Setting) -> Option<Solution> {
        let (solution, then) = Self::tried(unit, setting)?;
        let holds = then.is_fine(self.finding) && self.now.worsened(&then).next().is_none();
        holds.then_some(solution)
    }

    /// Tries a change that has no scale, or says what stands in its way.
    pub(super) fn clears(&self, unit: &Unit, setting: &Setting, what: &str) -> Result<(), String> {
        let Some((_, then)) = Self::tried(unit, setting) else {
            return Err(format!("{what}: reel and knife do not meet there."));
        };
        if !then.is_fine(self.finding) {
            return Err(format!("{what} would not clear it alone."));
        }
        let worse: Vec<_> = self.now.worsened(&then).collect();
        if worse.is_empty() {
            return Ok(());
        }
        Err(format!(
            "{what} would clear it, but makes another finding worse: {}.",
            titles(&worse)
        ))
    }
}

/// A unit of which some readings are typed anew, without a ±.
pub(super) fn with_exact(unit: &Unit, readings: &[Reading]) -> Unit {
    let mut unit = unit.clone();
    unit.uncertain
        .retain(|uncertain| !readings.contains(&uncertain.reading));
    unit
}

/// Findings as they are listed in a sentence.
pub(super) fn titles(findings: &[FindingId]) -> String {
    let titles: Vec<_> = findings
        .iter()
        .map(|id| id.title().to_lowercase())
        .collect();
    titles.join(", ")
}
