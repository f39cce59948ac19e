//! Rollers: where they stand, how far they were moved in their brackets, and the ground they make.

use kurbo::{Affine, Point, Vec2};

use super::{Bench, Impossible};
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

impl RollerOnPlate {
    /// A roller carried by the frame and moved by `moved_mm` in its bracket.
    pub(super) fn carried(
        centre_in_frame: Point,
        radius_mm: f64,
        moved_mm: f64,
        plate_from_frame: Affine,
    ) -> Self {
        Self {
            centre: plate_from_frame * (centre_in_frame + Vec2::new(0.0, moved_mm)),
            radius_mm,
            moved: Length::from_mm(moved_mm),
        }
    }
}

/// The move along the frame's vertical that brings a roller down, or up, to the plate.
///
/// `turn_rad` is how far the frame is nosed down.
pub(super) fn move_to_plate_mm(
    centre_in_frame: Point,
    radius_mm: f64,
    plate_from_frame: Affine,
    turn_rad: f64,
) -> f64 {
    let carried = plate_from_frame * centre_in_frame;
    (radius_mm - carried.y) / turn_rad.cos()
}

/// The ground under two rollers, in the frame.
#[derive(Clone, Copy, Debug)]
pub(super) struct GroundInFrame {
    /// Its slope, rising ahead: the frame stands nosed down by as much.
    pub(super) slope_rad: f64,
    /// A point of it, under the rear roller.
    pub(super) foot: Point,
}

impl GroundInFrame {
    /// The lower outer tangent of both roller circles, the rollers moved in their brackets.
    pub(super) fn under_rollers(
        bench: &Bench,
        front_move: Length,
        rear_move: Length,
    ) -> Result<Self, Impossible> {
        let front = bench.front_roller_in_frame() + Vec2::new(0.0, front_move.mm());
        let rear = bench.rear_roller_in_frame() + Vec2::new(0.0, rear_move.mm());
        let between = front - rear;
        let apart = between.hypot();
        let difference = bench.front_roller.radius_mm() - bench.rear_roller.radius_mm();
        if between.x <= 0.0 || apart <= difference.abs() {
            return Err(Impossible::NoGroundUnderRollers {
                ahead: Length::from_mm(between.x),
                apart: Length::from_mm(apart),
                difference: Length::from_mm(difference.abs()),
            });
        }
        let slope_rad = between.atan2() - (difference / apart).asin();
        let down = Vec2::new(slope_rad.sin(), -slope_rad.cos());
        Ok(Self {
            slope_rad,
            foot: rear + down * bench.rear_roller.radius_mm(),
        })
    }

    /// How high a point of the frame stands above this ground, in millimetres; negative below it.
    pub(super) fn height_mm(&self, in_frame: Point) -> f64 {
        let up = Vec2::new(-self.slope_rad.sin(), self.slope_rad.cos());
        (in_frame - self.foot).dot(up)
    }
}
