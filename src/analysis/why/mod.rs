//! Why a unit marks the turf: what each thing takes of the height of cut, which crest it can cross,
//! which of its mechanisms can make a mark, and what each adjustment would do.

mod budget;
mod causes;
mod comes_first;
mod crest;
mod knobs;

pub use budget::{Budget, BudgetOf, Step, StepKind};
pub use causes::{
    Cause, Complaint, Cure, JudgedBy, Match, Strength, bounces_per_s, causes, every_cause, matches,
    pitches, spacing_told,
};
pub use comes_first::ComesFirst;
pub use crest::{CrestLimit, CrestLimits};
pub use knobs::{
    Change, Goal, Knob, KnobAnswer, NotSensible, Other, Towards, WhyNot, knobs, worst_finding,
};

use super::{Case, FindingId, Solved};
use crate::geometry::Setting;
use crate::unit::{Document, Fitted};
use crate::units::System;

/// Everything that tells why a unit marks the turf, but the complaint.
#[derive(Clone, Debug, PartialEq)]
pub struct Why {
    /// The height budget of the reel.
    pub reel: Budget,
    /// The height budget of the knife's underside.
    pub underside: Budget,
    /// The tightest crests.
    pub crests: CrestLimits,
    /// The finding that the knobs are asked about.
    pub finding: FindingId,
    /// The worst finding, where none of the knobs changes it.
    pub comes_first: Option<ComesFirst>,
    /// What each knob would do for it.
    pub knobs: Vec<KnobAnswer>,
}

impl Why {
    /// Works it out for a solved document and for somebody who reads in `system`; the worst finding is
    /// asked about when none is chosen.
    #[must_use]
    pub fn of(solved: &Solved, finding: Option<FindingId>, goal: Goal, system: System) -> Self {
        let case = solved.case();
        let finding = finding.unwrap_or_else(|| worst_finding(&solved.findings, &case));
        Self {
            reel: Budget::of_reel(&case),
            underside: Budget::of_underside(&case),
            crests: CrestLimits::of(&case),
            finding,
            comes_first: ComesFirst::of(solved, system),
            knobs: knobs(
                &case,
                &every_knife(&solved.document, &case),
                finding,
                goal,
                system,
            ),
        }
    }
}

/// The setting in force with each knife of the document, all else as it is.
fn every_knife(document: &Document, case: &Case) -> Vec<(Fitted, Setting)> {
    document
        .knives()
        .map(|(fitted, knife)| {
            let setting = Setting {
                knife: document.section_of(fitted, knife),
                ..*case.setting
            };
            (fitted, setting)
        })
        .collect()
}
