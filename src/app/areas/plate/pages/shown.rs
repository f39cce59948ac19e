//! What every page shows its numbers by.

use std::rc::Rc;

use crate::analysis::plate::PlateResult;
use crate::app::areas::plate::worked_out::SheetUnit;
use crate::plate::Roller;
use crate::units::System;

/// One of two, by roller.
pub const fn place(roller: Roller) -> usize {
    match roller {
        Roller::Front => 0,
        Roller::Rear => 1,
    }
}

/// What a page shows its numbers by.
#[derive(Clone)]
pub struct Shown {
    /// The numbers; none while a value makes no sense.
    pub result: Option<Rc<PlateResult>>,
    /// The unit, and where it is.
    pub unit: SheetUnit,
    /// The units of words.
    pub system: System,
}
