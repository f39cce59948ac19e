//! What more than one test begins with.

pub mod demo_unit;
pub mod example;
pub mod nudge;
pub mod random_units;
pub mod shown;
