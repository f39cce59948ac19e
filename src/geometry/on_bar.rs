//! The knife laid on a gauge bar on the surface plate: how far the unit turns until a roller comes down
//! to the plate beside it.

use kurbo::{Affine, Point, Vec2};

use super::Pose;
use crate::units::{Angle, Length};

/// The roller that is measured: it hangs just over the plate while the knife rests on the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RollerDown {
    /// The front one.
    Front,
    /// The rear one.
    Rear,
}

/// A unit with its knife on a gauge bar and one of its rollers down at the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnBar {
    /// How far its frame turned from the pose it works in, positive nosing down as the attitude is.
    pub turned: Angle,
    /// Takes a point of the plate in the pose it works in to where it stands now.
    pub moved: Affine,
}

impl OnBar {
    /// Lays a unit on a bar of a thickness: the point of its knife that rests there, `resting`, is
    /// lifted to the bar's top, and the frame turns about the axis of its reel, as it would on a
    /// stand, until the roller is down. The turn is the same about whatever axis; the reel's is the one
    /// that a person can turn it about. None where the roller cannot come down.
    ///
    /// The roller's centre stands at its radius over the plate: with the resting point at a distance r
    /// from it, seen δ above the level, `bar + r·sin(δ + turn) = radius`.
    #[must_use]
    pub fn of(pose: &Pose, resting: Point, bar: Length, down: RollerDown) -> Option<Self> {
        let (roller, mirror) = match down {
            RollerDown::Front => (&pose.front_roller, 1.0),
            RollerDown::Rear => (&pose.rear_roller, -1.0),
        };
        let to_centre = roller.centre - resting;
        // A rear roller is seen in a mirror, which turns the other way.
        let seen = Vec2::new(mirror * to_centre.x, to_centre.y);
        let sine = (roller.radius_mm - bar.mm()) / seen.hypot();
        if !(-1.0..=1.0).contains(&sine) {
            return None;
        }
        let turn_rad = mirror * (sine.asin() - seen.atan2());
        let on_bar = Point::new(resting.x, bar.mm());
        let moved = Affine::translate(on_bar.to_vec2())
            * Affine::rotate(turn_rad)
            * Affine::translate(-resting.to_vec2());
        Some(Self {
            turned: Angle::from_rad(-turn_rad),
            moved,
        })
    }

    /// How far over the plate the lowest of some points stands then, points given as they stand in the
    /// pose the unit works in; none of no points.
    #[must_use]
    pub fn lowest(&self, points: impl IntoIterator<Item = Point>) -> Option<Length> {
        let heights = points.into_iter().map(|point| (self.moved * point).y);
        heights.reduce(f64::min).map(Length::from_mm)
    }
}
