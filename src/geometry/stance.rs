//! How a unit is set: by attitude and height, by its rollers, or by one roller and the height.

use super::number::Number;
use crate::units::{Angle, Length};

/// The ways of setting a unit.
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
    /// The front roller is given and the height wanted; attitude and the rear roller's move follow.
    FrontRoller {
        /// Front roller from its bench place along the frame's vertical, positive towards the reel.
        front_move: Length<N>,
        /// Plate to edge.
        height_of_cut: Length<N>,
    },
    /// The rear roller is given and the height wanted; attitude and the front roller's move follow.
    RearRoller {
        /// Rear roller from its bench place along the frame's vertical, positive towards the reel.
        rear_move: Length<N>,
        /// Plate to edge.
        height_of_cut: Length<N>,
    },
}

impl<N> Stance<N> {
    /// The height of cut wanted, to be changed in place; none where it follows from the rollers.
    pub fn height_wanted_mut(&mut self) -> Option<&mut Length<N>> {
        match self {
            Self::Wanted { height_of_cut, .. }
            | Self::FrontRoller { height_of_cut, .. }
            | Self::RearRoller { height_of_cut, .. } => Some(height_of_cut),
            Self::Rollers { .. } => None,
        }
    }
}

impl<N: Copy> Stance<N> {
    /// The moves of the rollers that are given, front and rear.
    pub(super) fn moves_given(&self) -> (Option<Length<N>>, Option<Length<N>>) {
        match *self {
            Self::Wanted { .. } => (None, None),
            Self::Rollers {
                front_move,
                rear_move,
            } => (Some(front_move), Some(rear_move)),
            Self::FrontRoller { front_move, .. } => (Some(front_move), None),
            Self::RearRoller { rear_move, .. } => (None, Some(rear_move)),
        }
    }
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
            Self::FrontRoller {
                front_move,
                height_of_cut,
            } => Stance::FrontRoller {
                front_move: front_move.exact(),
                height_of_cut: height_of_cut.exact(),
            },
            Self::RearRoller {
                rear_move,
                height_of_cut,
            } => Stance::RearRoller {
                rear_move: rear_move.exact(),
                height_of_cut: height_of_cut.exact(),
            },
        }
    }
}
