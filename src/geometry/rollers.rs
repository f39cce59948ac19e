//! Rollers: where they stand, and how far they were moved in their brackets.

use kurbo::Point;

use super::circles::Circle;
use super::number::Number;
use super::plane::{Motion, Way};
use crate::units::Length;

/// A roller standing on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollerOnPlate {
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres.
    pub radius_mm: f64,
    /// How far it stands from its bench place in its bracket, positive towards the reel.
    pub moved: Length,
}

impl From<RollerStood<f64>> for RollerOnPlate {
    fn from(roller: RollerStood<f64>) -> Self {
        Self {
            centre: roller.disc.centre.into(),
            radius_mm: roller.disc.radius_mm,
            moved: roller.moved,
        }
    }
}

/// As [`RollerOnPlate`], in bare numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RollerStood<N> {
    pub(crate) disc: Circle<N>,
    pub(crate) moved: Length<N>,
}

impl<N: Number> RollerStood<N> {
    /// A roller carried by the frame and moved by `moved` in its bracket; brought to the plate
    /// by such a move along the frame's vertical where none is given.
    pub(super) fn carried(
        in_frame: Circle<N>,
        moved: Option<Length<N>>,
        plate_from_frame: Motion<N>,
    ) -> Self {
        let Circle { centre, radius_mm } = in_frame;
        let moved = moved.unwrap_or_else(|| {
            let carried = plate_from_frame * centre;
            Length::from_mm((radius_mm - carried.y) / plate_from_frame.cos)
        });
        Self {
            disc: Circle {
                centre: plate_from_frame * (centre + Way::up(moved.mm())),
                radius_mm,
            },
            moved,
        }
    }
}
