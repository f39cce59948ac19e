//! Straight ground: under two rollers, or under one roller with the edge at a height over it.

use super::Impossible;
use super::circles::Circle;
use super::number::Number;
use super::plane::{Place, Way};
use crate::units::Length;

/// Straight ground, in whatever axes its rollers were given in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct GroundLine<N> {
    /// Its slope, rising ahead: what stands on it is nosed down by as much.
    pub(super) slope_rad: N,
    /// A point of it.
    pub(super) foot: Place<N>,
    /// Square away from it.
    pub(super) up: Way<N>,
}

impl<N: Number> GroundLine<N> {
    /// The plate itself.
    pub(super) fn plate() -> Self {
        let zero = N::exact(0.0);
        Self {
            slope_rad: zero,
            foot: Place::new(zero, zero),
            up: Way::up(N::exact(1.0)),
        }
    }

    /// The lower outer tangent of both roller circles.
    pub(super) fn under_rollers(front: Circle<N>, rear: Circle<N>) -> Result<Self, Impossible> {
        let between = front.centre - rear.centre;
        let apart = between.hypot();
        let difference = front.radius_mm - rear.radius_mm;
        if between.x.re() <= 0.0 || apart.re() <= difference.re().abs() {
            return Err(Impossible::NoGroundUnderRollers {
                ahead: Length::from_mm(between.x.re()),
                apart: Length::from_mm(apart.re()),
                difference: Length::from_mm(difference.re().abs()),
            });
        }
        let slope_rad = between.angle_rad() - (difference / apart).asin();
        Ok(Self::under(rear, slope_rad))
    }

    /// The ground under the front roller that leaves an edge behind it so high.
    pub(super) fn under_front(
        front: Circle<N>,
        edge: Place<N>,
        height: Length<N>,
    ) -> Result<Self, Impossible> {
        let between = front.centre - edge;
        let sine = sine_within(
            front.radius_mm - height.mm(),
            between.hypot(),
            front,
            height,
        )?;
        Ok(Self::under(front, between.angle_rad() - sine.asin()))
    }

    /// The ground under the rear roller that leaves an edge ahead of it so high.
    pub(super) fn under_rear(
        rear: Circle<N>,
        edge: Place<N>,
        height: Length<N>,
    ) -> Result<Self, Impossible> {
        let between = edge - rear.centre;
        let sine = sine_within(height.mm() - rear.radius_mm, between.hypot(), rear, height)?;
        Ok(Self::under(rear, between.angle_rad() - sine.asin()))
    }

    fn under(roller: Circle<N>, slope_rad: N) -> Self {
        let (sin, cos) = slope_rad.sin_cos();
        let up = Way::new(-sin, cos);
        Self {
            slope_rad,
            foot: roller.centre - up * roller.radius_mm,
            up,
        }
    }

    /// How high a place stands above this ground, in millimetres; negative below it.
    pub(super) fn height_mm(&self, place: Place<N>) -> N {
        (place - self.foot).dot(self.up)
    }
}

/// How steeply the way from one to the other rises over the ground; none past straight up.
fn sine_within<N: Number>(
    higher: N,
    apart: N,
    roller: Circle<N>,
    height: Length<N>,
) -> Result<N, Impossible> {
    if higher.re().abs() < apart.re() {
        return Ok(higher / apart);
    }
    Err(Impossible::HeightBeyondRoller {
        height_of_cut: Length::from_mm(height.mm().re()),
        roller_radius: Length::from_mm(roller.radius_mm.re()),
        apart: Length::from_mm(apart.re()),
    })
}
