//! The table of knives and its ranking, worked out from a solution.

use crate::analysis::Solved;
use crate::analysis::knives::{KnifeRow, Ranking, rank, rests_on, table};
use crate::geometry::KnifeSection;
use crate::unit::ExampleCount;
use crate::units::System;

/// The table and its ranking.
#[derive(Clone, Debug)]
pub struct WorkedOut {
    pub rows: Vec<KnifeRow>,
    pub ranking: Ranking,
    pub rests_on: [String; 3],
    /// How many of the unit's readings are still examples.
    pub examples: ExampleCount,
}

impl WorkedOut {
    /// The table of every knife of the document that was last solved.
    pub fn of(good: &Solved, system: System) -> Self {
        let rows = table(good);
        Self {
            ranking: rank(&rows, good, system),
            rests_on: rests_on(&good.document, system),
            rows,
            examples: good.document.example_count(),
        }
    }
}

/// A knife by its name.
pub type Named = (String, KnifeSection);

/// Every knife of the document that was last solved: others were not checked with its unit.
pub fn named_knives(good: &Solved) -> Vec<Named> {
    let knives = good.document.knives();
    knives
        .map(|(_, knife)| (knife.name.clone(), knife.section()))
        .collect()
}
