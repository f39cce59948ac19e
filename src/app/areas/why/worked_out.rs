//! What the area shows, worked out from a solution and from what is asked.

use crate::analysis::uncertainty::{Contribution, off_in_words};
use crate::analysis::why::{Aim, Cause, Complaint, Why, causes, pitches};
use crate::analysis::{Findings, Judged, Output, Solved, SolvedId};
use crate::units::System;

/// What is asked, and in which units it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    pub solved: SolvedId,
    pub finding: Option<&'static str>,
    pub aim: Aim,
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
    /// What each number that is judged is about, by its finding.
    pub judged: Vec<(&'static str, &'static str, Judged)>,
    /// The numbers with their ± in words.
    pub off: Vec<(&'static str, String)>,
    /// The readings to measure better first, for each output in turn.
    pub improve: Vec<(Output, Vec<Contribution>)>,
}

impl WorkedOut {
    pub fn of(good: &Solved, asked: &Asked) -> Self {
        let case = good.case();
        let why = Why::of(good, asked.finding, asked.aim);
        let marks: Vec<_> = pitches(&case)
            .into_iter()
            .map(|(name, pitch)| format!("{name} {}", asked.system.length(pitch)))
            .collect();
        let mut improve = vec![Findings::output_of(why.finding).unwrap_or(Output::SweepBelowCut)];
        if improve[0] != Output::SweepBelowCut {
            improve.push(Output::SweepBelowCut);
        }
        Self {
            why,
            causes: asked
                .complaint
                .map_or_else(Vec::new, |complaint| causes(&case, complaint)),
            marks: marks.join(", "),
            judged: Findings::all_judged(&case)
                // No adjustment makes a worn reel larger.
                .filter(|(id, ..)| *id != "scrap")
                .collect(),
            off: off_in_words(good, asked.system),
            improve: improve
                .into_iter()
                .map(|output| (output, good.uncertainty.ranking(output)))
                .collect(),
        }
    }
}
