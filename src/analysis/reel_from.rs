//! The reel's diameter from readings that take it short, with its own ±.

use std::f64::consts::PI;

use super::other_readings::{Derived, Input, propagate};
use crate::geometry::{
    Misread, reel_diameter_by_diameter_tape, reel_diameter_by_tape, reel_diameter_over_bars,
    reel_diameter_over_tips,
};
use crate::units::{Length, Quantity};

/// A reading that the reel's diameter follows from.
#[derive(Clone, Copy, Debug)]
pub enum ReelFrom<'a> {
    /// The longest distance over two blade tips.
    Tips(&'a Quantity<Length>),
    /// Over two straight bars laid along the reel on opposite sides.
    Bars {
        /// What is read over both.
        over: &'a Quantity<Length>,
        /// Both bars together, without the reel.
        bars: &'a Quantity<Length>,
    },
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
            Self::Bars { over, bars } => propagate([Input::of(over), Input::of(bars)], |[o, b]| {
                reel_diameter_over_bars(o, b)
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

/// Another way to the reel's diameter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ReelWay {
    /// The longest distance over two blade tips.
    #[default]
    Tips,
    /// Two straight bars along the reel.
    Bars,
    /// A plain tape once round.
    Tape,
    /// A tape that shows a diameter.
    DiameterTape,
}

impl ReelWay {
    /// The four, in the order they are offered.
    pub const ALL: [Self; 4] = [Self::Tips, Self::Bars, Self::Tape, Self::DiameterTape];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Tips => "blade tips",
            Self::Bars => "two straight bars",
            Self::Tape => "a plain tape",
            Self::DiameterTape => "a diameter tape",
        }
    }

    /// What its reading is called.
    #[must_use]
    pub const fn reading(self) -> &'static str {
        match self {
            Self::Tips => "Over two tips",
            Self::Bars => "Over both bars",
            Self::Tape => "Tape, once round",
            Self::DiameterTape => "Diameter tape reads",
        }
    }

    /// What else it needs, by name: the tape's thickness, or the bars without the reel.
    #[must_use]
    pub const fn other(self) -> Option<&'static str> {
        match self {
            Self::Bars => Some("Both bars together"),
            Self::Tape => Some("Tape's thickness"),
            Self::Tips | Self::DiameterTape => None,
        }
    }

    /// How the reading is taken on a reel of so many blades.
    #[must_use]
    pub fn how(self, blades: u32) -> &'static str {
        match self {
            Self::Tips if blades.is_multiple_of(2) => {
                "Engine off, key out, reel blocked, gloves on: the longest distance over two opposite blade tips. With an even number of blades that is the diameter."
            }
            Self::Tips => {
                "Engine off, key out, reel blocked, gloves on: the longest distance over two blade tips, one of the two farthest across. With an odd number of blades no tip stands opposite another, and the caliper reads short; that is added back."
            }
            Self::Bars => {
                "Engine off, key out, reel blocked, gloves on: lay two straight bars along the reel on opposite sides, each over the tips of twisted blades in two places or more, and read over both. Then read both bars together without the reel."
            }
            Self::Tape => {
                "Engine off, key out, reel blocked, gloves on: a plain tape pulled once round the tips. It lies straight from tip to tip and reads short; that is added back, the tape's thickness taken off."
            }
            Self::DiameterTape => {
                "Engine off, key out, reel blocked, gloves on: a diameter tape pulled once round the tips. It allows for its own thickness and takes the tips for a full circle; what that reads short is added back."
            }
        }
    }

    /// What it would read on a reel of that diameter, with that thickness of tape or bars.
    #[must_use]
    pub fn reading_on(self, diameter: Length, blades: u32, other: Length) -> Length {
        let blades_n = f64::from(blades.max(1));
        let perimeter = diameter * (blades_n * (PI / blades_n).sin());
        match self {
            Self::Tips if blades.is_multiple_of(2) => diameter,
            Self::Tips => diameter * (PI / (2.0 * blades_n)).cos(),
            Self::Bars => diameter + other,
            Self::Tape => perimeter + other * PI,
            Self::DiameterTape => perimeter * (1.0 / PI),
        }
    }

    /// The diameter of a reel of so many blades from what was read, and what else it needs.
    ///
    /// # Errors
    /// When the reading cannot be on such a reel.
    pub fn diameter(
        self,
        reading: &Quantity<Length>,
        other: &Quantity<Length>,
        blades: u32,
    ) -> Result<Derived, Misread> {
        let from = match self {
            Self::Tips => ReelFrom::Tips(reading),
            Self::Bars => ReelFrom::Bars {
                over: reading,
                bars: other,
            },
            Self::Tape => ReelFrom::Tape {
                length: reading,
                thickness: other,
            },
            Self::DiameterTape => ReelFrom::DiameterTape(reading),
        };
        from.diameter(blades)
    }
}
