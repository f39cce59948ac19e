//! The reel's diameter from readings that take it short, with its own ±.

use super::other_readings::{Derived, Input, propagate};
use crate::geometry::{
    Misread, reel_diameter_by_diameter_tape, reel_diameter_by_tape, reel_diameter_over_tips,
};
use crate::units::{Length, Quantity};

/// A reading that the reel's diameter follows from.
#[derive(Clone, Copy, Debug)]
pub enum ReelFrom<'a> {
    /// The longest distance over two blade tips.
    Tips(&'a Quantity<Length>),
    /// A plain tape once round the blades.
    Tape {
        /// What it reads, along its middle.
        length: &'a Quantity<Length>,
        /// How thick it is.
        thickness: &'a Quantity<Length>,
    },
    /// A tape round the blades that shows a diameter and allows for its own thickness.
    DiameterTape(&'a Quantity<Length>),
}

impl ReelFrom<'_> {
    /// The diameter of a reel of so many blades.
    ///
    /// # Errors
    /// When the reading cannot be on such a reel.
    pub fn diameter(self, blades: u32) -> Result<Derived, Misread> {
        match self {
            Self::Tips(over) => propagate([Input::of(over)], |[over]| {
                reel_diameter_over_tips(over, blades)
            }),
            Self::Tape { length, thickness } => {
                let readings = [Input::of(length), Input::of(thickness)];
                propagate(readings, |[length, thickness]| {
                    reel_diameter_by_tape(length, thickness, blades)
                })
            }
            Self::DiameterTape(reading) => propagate([Input::of(reading)], |[reading]| {
                reel_diameter_by_diameter_tape(reading, blades)
            }),
        }
    }
}
