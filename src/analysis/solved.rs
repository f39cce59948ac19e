//! A document taken all the way: checked, solved and judged.

use thiserror::Error;

use super::{Case, Findings, Solution, Uncertainty};
use crate::geometry::{Impossible, Setting};
use crate::unit::{Document, Flaw, Unit};
use crate::units::System;

/// A document checked, solved and judged, with its bench pose beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The document in plain values.
    pub unit: Unit,
    /// Its solution.
    pub solution: Solution,
    /// How far its numbers can be off.
    pub uncertainty: Uncertainty,
    /// What was found about it.
    pub findings: Findings,
    /// The setting it had on the bench.
    pub bench_setting: Setting,
    /// The bench pose solved; nothing when the ground leaves no room for it.
    pub bench: Option<Solution>,
}

/// Why a document has no solution.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unsolved {
    /// A value makes no sense.
    #[error(transparent)]
    Flaw(#[from] Flaw),
    /// The geometry cannot exist.
    #[error("{why}")]
    Impossible {
        /// Why.
        why: Impossible,
        /// The units the document's readings were taken in.
        system: System,
    },
}

impl Unsolved {
    /// The reason as a sentence in a reader's units, without the field's name.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        match self {
            Self::Flaw(flaw) => flaw.kind.to_string(),
            Self::Impossible { why, .. } => why.sentence().shown_in(system),
        }
    }
}

impl Solved {
    /// Checks, solves and judges a document.
    ///
    /// # Errors
    /// When a value makes no sense, or the geometry cannot exist.
    pub fn of(document: &Document) -> Result<Self, Unsolved> {
        let unit = document.checked()?;
        let system = unit.system;
        let solution = Solution::of(&unit, &unit.setting)
            .map_err(|why| Unsolved::Impossible { why, system })?;
        let uncertainty = Uncertainty::of(&unit, &unit.setting, unit.follows);
        let case = Case {
            unit: &unit,
            setting: &unit.setting,
            solution: &solution,
        };
        let findings = Findings::about(&case).doubted(&case, &uncertainty);
        let bench_setting = Setting::as_on_bench(&unit.profile);
        let bench = Solution::of(&unit, &bench_setting).ok();
        Ok(Self {
            unit,
            solution,
            uncertainty,
            findings,
            bench_setting,
            bench,
        })
    }

    /// The case of the setting in force.
    #[must_use]
    pub fn case(&self) -> Case<'_> {
        Case {
            unit: &self.unit,
            setting: &self.unit.setting,
            solution: &self.solution,
        }
    }

    /// The case of the bench pose, for a ghost; nothing when the setting in force is the same.
    #[must_use]
    pub fn ghost(&self) -> Option<Case<'_>> {
        let solution = self.bench.as_ref()?;
        let is_elsewhere = self.bench_setting != self.unit.setting;
        is_elsewhere.then_some(Case {
            unit: &self.unit,
            setting: &self.bench_setting,
            solution,
        })
    }
}
