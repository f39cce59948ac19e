//! What the area shows, worked out from a solution and from what is asked.

use crate::analysis::uncertainty::{Contribution, off_in_words};
use crate::analysis::why::{Cause, Complaint, Goal, Why, causes, pitches};
use crate::analysis::{FindingId, Findings, Judged, NumberId, Solved, SolvedId};
use crate::units::System;

/// What is asked, and in which units it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    pub solved: SolvedId,
    pub finding: Option<FindingId>,
    pub goal: Goal,
    pub complaint: Option<Complaint>,
    pub system: System,
}

/// Everything the area shows.
#[derive(Debug)]
pub struct WorkedOut {
    pub why: Why,
    /// What can make the mark that was chosen, the strongest first.
    pub causes: Vec<Cause>,
    /// At what distances marks come back, in words.
    pub marks: String,
    /// Each number that an adjustment changes, by its finding.
    pub judged: Vec<(FindingId, Judged)>,
    /// The numbers with their ± in words.
    pub off: Vec<(&'static str, String)>,
    /// The readings to measure better first, for each output in turn.
    pub improve: Vec<(NumberId, Vec<Contribution>)>,
}

impl WorkedOut {
    pub fn of(good: &Solved, asked: &Asked) -> Self {
        let case = good.case();
        let why = Why::of(good, asked.finding, asked.goal, asked.system);
        let marks: Vec<_> = pitches(&case)
            .into_iter()
            .map(|(name, pitch)| format!("{name} {}", asked.system.length(pitch)))
            .collect();
        let mut improve = vec![why.finding.number().unwrap_or(NumberId::SweepBelowCut)];
        if improve[0] != NumberId::SweepBelowCut {
            improve.push(NumberId::SweepBelowCut);
        }
        Self {
            why,
            causes: asked
                .complaint
                .map_or_else(Vec::new, |complaint| causes(&case, complaint)),
            marks: marks.join(", "),
            judged: Findings::adjustable(&case).collect(),
            off: off_in_words(good, asked.system),
            improve: improve
                .into_iter()
                .map(|output| (output, good.uncertainty.ranking(output)))
                .collect(),
        }
    }
}
