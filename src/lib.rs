//! Sweepgauge: the sweep of a reel mower's cutting unit, drawn to scale and computed.
//!
//! The rooms, each importing only from those before it: [`units`], [`geometry`], [`unit`],
//! [`analysis`].

pub mod analysis;
pub mod geometry;
pub mod unit;
pub mod units;
