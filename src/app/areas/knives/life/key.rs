//! What the life plots are worked out from.

use crate::analysis::Solved;
use crate::analysis::knives::{Over, Trial};
use crate::app::areas::knives::worked_out::{KnivesDrawn, Named};
use crate::unit::Unit;
use crate::units::System;

/// What the plots depend on.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    pub unit: Unit,
    pub trial: Trial,
    pub knives: Vec<Named>,
    /// The line of each.
    pub lines: Vec<u8>,
    /// The place of the fitted one among them.
    pub fitted: usize,
    pub over: Over,
    pub system: System,
}

impl Key {
    /// The line of the fitted knife.
    pub fn fitted_line(&self) -> u8 {
        self.lines.get(self.fitted).copied().unwrap_or_default()
    }

    /// The plotted knives of a solution over what is asked.
    pub fn of(good: &Solved, plotted: &KnivesDrawn, over: Over, system: System) -> Self {
        Self {
            unit: good.unit.clone(),
            trial: Trial::of(&good.solution),
            knives: plotted.knives.clone(),
            lines: plotted.lines.clone(),
            fitted: plotted.fitted,
            over,
            system,
        }
    }
}
