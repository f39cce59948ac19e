//! Places, ways and rigid motions of the plane, over any [`Number`].
//!
//! As kurbo's points and vectors, kept apart in the same way; kurbo's own reckon in `f64` alone.

use std::ops::{Add, Div, Mul, Neg, Sub};

use kurbo::{Affine, Point};

use super::number::Number;

/// A place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place<N = f64> {
    /// Along the first axis, in millimetres.
    pub x: N,
    /// Along the second axis, in millimetres.
    pub y: N,
}

/// A direction with a length: from one place to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way<N = f64> {
    /// Along the first axis, in millimetres.
    pub x: N,
    /// Along the second axis, in millimetres.
    pub y: N,
}

/// A turn about the origin, then a shift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Motion<N> {
    /// Cosine of the turn, counter-clockwise with x to the right.
    pub(crate) cos: N,
    /// Sine of the turn.
    pub(crate) sin: N,
    /// The shift: where the origin goes.
    pub(crate) shift: Way<N>,
}

impl<N> Place<N> {
    /// A place by its two coordinates.
    pub const fn new(x: N, y: N) -> Self {
        Self { x, y }
    }
}

impl Place {
    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(self) -> Place<N> {
        Place::new(N::exact(self.x), N::exact(self.y))
    }
}

impl From<Point> for Place {
    fn from(point: Point) -> Self {
        Self::new(point.x, point.y)
    }
}

impl<N: Number> Place<N> {
    /// The way there from the origin.
    pub(crate) fn way_there(self) -> Way<N> {
        Way::new(self.x, self.y)
    }
}

impl From<Place> for Point {
    fn from(place: Place) -> Self {
        Self::new(place.x, place.y)
    }
}

impl<N> Way<N> {
    pub(crate) const fn new(x: N, y: N) -> Self {
        Self { x, y }
    }
}

impl<N: Number> Way<N> {
    /// A way along the second axis.
    pub(crate) fn up(length: N) -> Self {
        Self::new(N::exact(0.0), length)
    }

    pub(crate) fn dot(self, other: Self) -> N {
        self.x * other.x + self.y * other.y
    }

    /// Positive when `other` points to the left of this.
    pub(crate) fn cross(self, other: Self) -> N {
        self.x * other.y - self.y * other.x
    }

    /// Its length.
    pub(crate) fn hypot(self) -> N {
        self.dot(self).root()
    }

    /// The same way turned a quarter to the left.
    pub(crate) fn to_left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// Its angle from the first axis, counter-clockwise, in radians.
    pub(crate) fn angle_rad(self) -> N {
        self.y.angle_over(self.x)
    }
}

impl<N: Number> Motion<N> {
    /// No turn and no shift.
    pub(crate) fn none() -> Self {
        let zero = N::exact(0.0);
        Self {
            cos: N::exact(1.0),
            sin: zero,
            shift: Way::new(zero, zero),
        }
    }

    /// A turn that takes one place to another.
    pub(crate) fn turning(turn_rad: N, from: Place<N>, to: Place<N>) -> Self {
        let (sin, cos) = turn_rad.sin_cos();
        let turned = Self {
            cos,
            sin,
            ..Self::none()
        };
        Self {
            shift: to - turned * from,
            ..turned
        }
    }
}

impl From<Motion<f64>> for Affine {
    fn from(motion: Motion<f64>) -> Self {
        let Motion { cos, sin, shift } = motion;
        Self::new([cos, sin, -sin, cos, shift.x, shift.y])
    }
}

impl<N: Number> Mul<Place<N>> for Motion<N> {
    type Output = Place<N>;
    fn mul(self, place: Place<N>) -> Place<N> {
        Place::new(
            self.cos * place.x - self.sin * place.y + self.shift.x,
            self.sin * place.x + self.cos * place.y + self.shift.y,
        )
    }
}

/// The right one first.
impl<N: Number> Mul for Motion<N> {
    type Output = Self;
    fn mul(self, first: Self) -> Self {
        let origin_at = self * Place::new(first.shift.x, first.shift.y);
        Self {
            cos: self.cos * first.cos - self.sin * first.sin,
            sin: self.sin * first.cos + self.cos * first.sin,
            shift: origin_at.way_there(),
        }
    }
}

impl<N: Number> Sub for Place<N> {
    type Output = Way<N>;
    fn sub(self, from: Self) -> Way<N> {
        Way::new(self.x - from.x, self.y - from.y)
    }
}

impl<N: Number> Add<Way<N>> for Place<N> {
    type Output = Self;
    fn add(self, way: Way<N>) -> Self {
        Self::new(self.x + way.x, self.y + way.y)
    }
}

impl<N: Number> Sub<Way<N>> for Place<N> {
    type Output = Self;
    fn sub(self, way: Way<N>) -> Self {
        self + -way
    }
}

impl<N: Number> Neg for Way<N> {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

impl<N: Number> Mul<N> for Way<N> {
    type Output = Self;
    fn mul(self, factor: N) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}

impl<N: Number> Div<N> for Way<N> {
    type Output = Self;
    fn div(self, divisor: N) -> Self {
        Self::new(self.x / divisor, self.y / divisor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn motions_are_those_of_kurbo() {
        let (pivot, place) = (Place::new(3.0, -2.0), Place::new(7.0, 5.0));
        let turn = Motion::turning(0.4, pivot, pivot);
        let shift = Motion {
            shift: Way::new(11.0, 13.0),
            ..Motion::none()
        };
        let ours = Point::from(shift * turn * place);
        let theirs = Affine::translate((11.0, 13.0))
            * Affine::rotate_about(0.4, Point::from(pivot))
            * Point::from(place);
        assert!((ours - theirs).hypot() < 1e-14);
        assert!((Affine::from(shift * turn) * Point::from(place) - theirs).hypot() < 1e-14);
    }
}
