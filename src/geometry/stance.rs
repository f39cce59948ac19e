//! How a unit is set: by attitude and height, or by its rollers.

use super::number::Number;
use crate::units::{Angle, Length};

/// The two ways of setting a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stance<N = f64> {
    /// Attitude and height are wanted; the roller moves follow.
    Wanted {
        /// Knife datum against the plate.
        attitude: Angle<N>,
        /// Plate to edge.
        height_of_cut: Length<N>,
    },
    /// The rollers are given; attitude and height follow.
    Rollers {
        /// Front roller from its bench place along the frame's vertical, positive towards the reel.
        front_move: Length<N>,
        /// Rear roller from its bench place along the frame's vertical, positive towards the reel.
        rear_move: Length<N>,
    },
}

impl Stance {
    pub(super) fn exact<N: Number>(&self) -> Stance<N> {
        match *self {
            Self::Wanted {
                attitude,
                height_of_cut,
            } => Stance::Wanted {
                attitude: attitude.exact(),
                height_of_cut: height_of_cut.exact(),
            },
            Self::Rollers {
                front_move,
                rear_move,
            } => Stance::Rollers {
                front_move: front_move.exact(),
                rear_move: rear_move.exact(),
            },
        }
    }
}
