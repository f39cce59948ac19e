//! The finding that comes before every adjustment, because none changes it.

use crate::analysis::{FindingId, Findings, Level, Solved};
use crate::units::System;

/// The worst finding with what to do about it, where no adjustment changes it.
#[derive(Clone, Debug, PartialEq)]
pub struct ComesFirst {
    /// Which it is.
    pub finding: FindingId,
    /// The level that its symbol shows.
    pub level: Level,
    /// What is told before the adjustments: the finding and what to do about it.
    pub told: String,
}

impl ComesFirst {
    /// What comes first on a solved unit, for somebody who reads in `system`; none where an adjustment
    /// answers the worst finding, or where all are fine.
    #[must_use]
    pub fn of(solved: &Solved, system: System) -> Option<Self> {
        let worst = solved.findings.most_urgent()?;
        // A lip that is ground away is over whatever room it leaves.
        let judged = Findings::judged(&solved.case(), worst.id);
        let decides = judged.is_some_and(|judged| judged.level() >= worst.level);
        if worst.id.is_adjustable() && decides {
            return None;
        }
        let told = format!(
            "{} comes first: no adjustment below changes it. {}",
            worst.title(),
            solved.told(worst, system)
        );
        Some(Self {
            finding: worst.id,
            level: worst.shown_level(),
            told,
        })
    }
}
