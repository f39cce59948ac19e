//! A document taken all the way: checked, solved and judged.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use thiserror::Error;

use super::advice::Advice;
use super::uncertainty::{Rests, Sure};
use super::{Case, Finding, FindingId, Findings, NumberId, Solution, Uncertainty};
use crate::geometry::{Impossible, Setting};
use crate::unit::{Document, Flaw, Unit};
use crate::units::System;

/// Which solve something was worked out from: no two of one run of the program have the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SolvedId(u64);

impl SolvedId {
    fn next() -> Self {
        static NEXT: AtomicU64 = AtomicU64::new(0);
        Self(NEXT.fetch_add(1, Ordering::Relaxed))
    }
}

/// A document checked, solved and judged, with its bench pose beside it.
#[derive(Clone, Debug)]
pub struct Solved {
    /// What is kept of it is known by this: a clone has the same, a new solve another.
    pub id: SolvedId,
    /// The document.
    pub document: Arc<Document>,
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
    /// The bench pose solved; none when the ground leaves no room for it.
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
        Self::of_shared(Arc::new(document.clone()))
    }

    /// The same for a document that others keep as well.
    ///
    /// # Errors
    /// When a value makes no sense, or the geometry cannot exist.
    pub fn of_shared(document: Arc<Document>) -> Result<Self, Unsolved> {
        let unit = document.checked()?;
        let system = unit.system;
        Self::of_unit(document, unit).map_err(|why| Unsolved::Impossible { why, system })
    }

    /// Solves and judges a document's unit, or that unit otherwise set.
    pub(super) fn of_unit(document: Arc<Document>, unit: Unit) -> Result<Self, Impossible> {
        let solution = Solution::of(&unit, &unit.setting)?;
        let rests = Rests::of(&document, &unit, &unit.setting, unit.follows);
        let uncertainty = Uncertainty::of(&unit, &unit.setting, unit.follows).resting(rests);
        let case = Case {
            unit: &unit,
            setting: &unit.setting,
            solution: &solution,
        };
        let findings = Findings::about(&case).doubted(&case, &uncertainty);
        let bench_setting = Setting::as_on_bench(&unit.profile);
        let bench = Solution::of(&unit, &bench_setting).ok();
        Ok(Self {
            id: SolvedId::next(),
            document,
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

    /// How sure a number is.
    #[must_use]
    pub fn sure(&self, number: NumberId) -> Sure {
        self.uncertainty.sure(number)
    }

    /// Every number that stands under a drawing, each in a reader's units, and how sure it is beside it.
    #[must_use]
    pub fn key(&self, system: System) -> Vec<(NumberId, String, String)> {
        let numbers = self.solution.numbers();
        let key = numbers.key(system).into_iter();
        key.map(|(id, shown)| (id, shown, self.off_beside(id, system)))
            .collect()
    }

    /// What is told beside a number of how sure it is: empty where it is as set, and where there is no such number.
    #[must_use]
    pub fn off_beside(&self, number: NumberId, system: System) -> String {
        let value = self.solution.numbers().value(number);
        value.map_or_else(String::new, |value| {
            self.uncertainty.told_beside(number, value, system)
        })
    }

    /// What can be done about a finding, for somebody who reads in `system`; none where it is fine
    /// or does not apply.
    #[must_use]
    pub fn advice(&self, finding: FindingId, system: System) -> Option<Advice> {
        Advice::in_document(&self.document, &self.case(), finding, system)
    }

    /// A finding with what can be done about it, in a reader's units.
    #[must_use]
    pub fn told(&self, finding: &Finding, system: System) -> String {
        let mut text = finding.shown_in(system);
        if let Some(advice) = self.advice(finding.id, system) {
            text.push(' ');
            text.push_str(&advice.shown_in(system));
        }
        text
    }

    /// The case of the bench pose, for a ghost; none when the setting in force is the same.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::read_text;

    const DEMO_UNIT: &str = include_str!("../../demo-units/fairway-trailed.ron");

    #[test]
    fn a_clone_keeps_its_id_and_a_new_solve_gets_another() {
        let document = read_text(DEMO_UNIT).expect("reads");
        let solved = Solved::of(&document).expect("solves");
        assert_eq!(solved.clone().id, solved.id);
        let again = Solved::of(&document).expect("solves");
        assert_ne!(again.id, solved.id);
        assert_eq!(*again.document, document);
    }
}
