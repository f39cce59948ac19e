//! What is judged.

use crate::analysis::Solution;
use crate::geometry::Setting;
use crate::unit::Unit;

/// What is judged: a unit, one of its settings, and its solution.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The unit.
    pub unit: &'a Unit,
    /// The setting solved.
    pub setting: &'a Setting,
    /// Its solution.
    pub solution: &'a Solution,
}
