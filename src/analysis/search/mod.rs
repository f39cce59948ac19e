//! Searching along one number: where functions cross zero, and the stretches between.
//!
//! What belongs here: sums that know nothing of knives or findings. Nothing is taken to be monotonic.

mod crossings;
mod least;
mod stretches;

pub(super) use crossings::{ALL_COUNT, Crossing, Values, crossings};
pub(super) use least::least;
pub(super) use stretches::{Stretch, runs, stretches};
