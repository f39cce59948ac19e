//! Sweepgauge: the sweep of a reel mower's cutting unit, drawn to scale and computed.
//!
//! The rooms, each importing only from those before it: [`units`], [`geometry`], [`unit`],
//! [`analysis`], [`drawing`], then [`app`] and [`headless`].

pub mod analysis;
pub mod app;
pub mod drawing;
pub mod geometry;
pub mod headless;
pub mod unit;
pub mod units;
