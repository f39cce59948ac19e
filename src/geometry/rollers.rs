//! Rollers: where they stand, how far they were moved in their brackets, and the ground they make.

use kurbo::Point;

use super::circles::Circle;
use super::number::Number;
use super::plane::{Motion, Place, Way};
use super::{Bench, Impossible};
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

/// The ground under two rollers, in the frame.
#[derive(Clone, Copy, Debug)]
pub(super) struct GroundInFrame<N> {
    /// Its slope, rising ahead: the frame stands nosed down by as much.
    pub(super) slope_rad: N,
    /// A point of it, under the rear roller.
    foot: Place<N>,
    /// Straight up from it.
    up: Way<N>,
}

impl<N: Number> GroundInFrame<N> {
    /// The lower outer tangent of both roller circles, the rollers moved in their brackets.
    pub(super) fn under_rollers(
        bench: &Bench<N>,
        front_move: Length<N>,
        rear_move: Length<N>,
    ) -> Result<Self, Impossible> {
        let front = bench.front_roller_in_frame() + Way::up(front_move.mm());
        let rear = bench.rear_roller_in_frame() + Way::up(rear_move.mm());
        let between = front - rear;
        let apart = between.hypot();
        let difference = bench.front_roller.radius_mm() - bench.rear_roller.radius_mm();
        if between.x.re() <= 0.0 || apart.re() <= difference.re().abs() {
            return Err(Impossible::NoGroundUnderRollers {
                ahead: Length::from_mm(between.x.re()),
                apart: Length::from_mm(apart.re()),
                difference: Length::from_mm(difference.re().abs()),
            });
        }
        let slope_rad = between.angle_rad() - (difference / apart).asin();
        let (sin, cos) = slope_rad.sin_cos();
        let up = Way::new(-sin, cos);
        Ok(Self {
            slope_rad,
            foot: rear - up * bench.rear_roller.radius_mm(),
            up,
        })
    }

    /// How high a point of the frame stands above this ground, in millimetres; negative below it.
    pub(super) fn height_mm(&self, in_frame: Place<N>) -> N {
        (in_frame - self.foot).dot(self.up)
    }
}
