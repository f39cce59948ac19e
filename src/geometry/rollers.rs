//! Rollers: where they stand, how far they were moved in their brackets, and the ground they make.

use kurbo::Point;

use super::Impossible;
use super::circles::Circle;
use super::figures::BenchFigures;
use super::number::Number;
use super::plane::{Motion, Place, Way};
use crate::units::{Angle, Length};

/// The two ways of setting a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stance {
    /// Attitude and height are wanted; the roller moves follow.
    Wanted {
        /// Knife datum against the plate.
        attitude: Angle,
        /// Plate to edge.
        height_of_cut: Length,
    },
    /// The rollers are given; attitude and height follow.
    Rollers {
        /// Front roller from its bench place along the frame's vertical, positive towards the reel.
        front_move: Length,
        /// Rear roller from its bench place along the frame's vertical, positive towards the reel.
        rear_move: Length,
    },
}

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
            moved: Length::from_mm(roller.moved_mm),
        }
    }
}

/// As [`RollerOnPlate`], in bare numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RollerStood<N> {
    pub(crate) disc: Circle<N>,
    pub(crate) moved_mm: N,
}

impl<N: Number> RollerStood<N> {
    /// A roller carried by the frame and moved by `moved_mm` in its bracket; brought to the plate
    /// by such a move along the frame's vertical where none is given.
    pub(super) fn carried(
        in_frame: Circle<N>,
        moved_mm: Option<N>,
        plate_from_frame: Motion<N>,
    ) -> Self {
        let Circle { centre, radius_mm } = in_frame;
        let moved_mm = moved_mm.unwrap_or_else(|| {
            let carried = plate_from_frame * centre;
            (radius_mm - carried.y) / plate_from_frame.cos
        });
        Self {
            disc: Circle {
                centre: plate_from_frame * (centre + Way::up(moved_mm)),
                radius_mm,
            },
            moved_mm,
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
        bench: &BenchFigures<N>,
        front_move_mm: N,
        rear_move_mm: N,
    ) -> Result<Self, Impossible> {
        let front = bench.front_roller_in_frame() + Way::up(front_move_mm);
        let rear = bench.rear_roller_in_frame() + Way::up(rear_move_mm);
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
