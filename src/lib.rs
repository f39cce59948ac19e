//! Sweepgauge: the sweep of a reel mower's cutting unit, drawn to scale and computed.
//!
//! The rooms, each importing only from those before it: [`units`], [`geometry`],
//! [`unit`](mod@unit), [`plate`](mod@plate), [`analysis`] beside [`store`], [`lesson`], [`drawing`],
//! [`command`], [`printing`], and at the top [`headless`] beside [`app`].

pub mod analysis;
pub mod app;
pub mod command;
pub mod drawing;
pub mod geometry;
pub mod headless;
pub mod lesson;
pub mod plate;
pub mod printing;
pub mod store;
pub mod unit;
pub mod units;
