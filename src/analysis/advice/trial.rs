//! A change tried on a unit, judged by every finding.

use crate::analysis::{Case, FindingId, Level, Solution, Standings};
use crate::geometry::Setting;
use crate::unit::Unit;

/// What is asked of a change: that it clears one finding and makes no other one worse.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Asked<'a> {
    /// The unit as it is set.
    pub(in crate::analysis) case: Case<'a>,
    /// How its findings stand.
    pub(in crate::analysis) now: &'a Standings,
    /// The finding that is to be cleared.
    pub(in crate::analysis) finding: FindingId,
}

impl Asked<'_> {
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
}
