//! Where two circles meet.

use super::number::Number;
use super::plane::{Place, Way};

/// The two points in which a pair of circles meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Meeting<N> {
    /// Halfway between both points, on the line of centres.
    middle: Place<N>,
    /// From there to the point on the left of the way from the first centre to the second.
    to_left: Way<N>,
}

/// A circle by its centre and radius.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Circle<N> {
    pub(crate) centre: Place<N>,
    pub(crate) radius_mm: N,
}

impl<N: Number> Meeting<N> {
    /// Meets two circles by their radical line (plane analytic geometry, any text).
    ///
    /// None when they do not meet, or share their centre. Circles that miss each other by no
    /// more than rounding touch.
    pub(super) fn of(first: Circle<N>, second: Circle<N>) -> Option<Self> {
        let between = second.centre - first.centre;
        let apart = between.hypot();
        if apart.re() == 0.0 {
            return None;
        }
        let ahead = between / apart;
        let (r, s) = (first.radius_mm, second.radius_mm);
        let along = (apart * apart + (r - s) * (r + s)) / (apart * 2.0);
        let under_root = (r - along) * (r + along);
        if under_root.re() < -1e-12 * r.re() * r.re() {
            return None;
        }
        Some(Self {
            middle: first.centre + ahead * along,
            to_left: ahead.to_left() * under_root.root(),
        })
    }

    /// The point left of the way from the first centre to the second.
    pub(super) fn left(self) -> Place<N> {
        self.middle + self.to_left
    }

    /// The point right of the way from the first centre to the second.
    pub(super) fn right(self) -> Place<N> {
        self.middle - self.to_left
    }

    /// The point nearer a place.
    pub(super) fn nearer(self, place: Place<N>) -> Place<N> {
        if self.to_left.dot(place - self.middle).re() < 0.0 {
            self.right()
        } else {
            self.left()
        }
    }
}
