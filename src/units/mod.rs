//! Quantities: lengths, angles, speeds, turning and shares, as people write them.
//!
//! What belongs here: turning text into a value with a unit and back, and choosing how a value is
//! shown. No file here knows what a reel is. This room imports none of the others.

mod amount;
mod difference;
mod digits;
mod manner;
mod measure;
mod number;
mod quantity;
mod quantity_problem;
mod quote;
mod reading;
mod roller_move;
mod round;
mod sentence;
mod shown;
mod system;

pub use difference::Compared;
pub use digits::{bare, fixed};
pub use measure::{Angle, Length, Measure, Ratio, Share, Speed, Turning};
pub use number::NumberProblem;
pub use quantity::Quantity;
pub use quantity_problem::QuantityProblem;
pub use quote::{Quoted, clipped, in_plain_letters, is_hidden};
pub use roller_move::Rollers;
pub use round::{round_down, round_up};
pub use sentence::{Sentence, Value};
pub use shown::{reads_as_zero, with_plus};
pub use system::System;
