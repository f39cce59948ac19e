//! Where two circles meet.

use kurbo::{Point, Vec2};

/// The two points in which a pair of circles meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Meeting {
    /// Halfway between both points, on the line of centres.
    middle: Point,
    /// From there to the point on the left of the way from the first centre to the second.
    to_left: Vec2,
}

/// A circle by its centre and radius.
#[derive(Clone, Copy, Debug)]
pub(super) struct Circle {
    pub(super) centre: Point,
    pub(super) radius_mm: f64,
}

impl Meeting {
    /// Meets two circles by their radical line (plane analytic geometry, any text).
    ///
    /// Nothing when they do not meet, or share their centre. Circles that miss each other by no
    /// more than rounding touch.
    pub(super) fn of(first: Circle, second: Circle) -> Option<Self> {
        let between = second.centre - first.centre;
        let apart = between.hypot();
        if apart == 0.0 {
            return None;
        }
        let ahead = between / apart;
        let (r, s) = (first.radius_mm, second.radius_mm);
        let along = (apart * apart + (r - s) * (r + s)) / (2.0 * apart);
        let under_root = (r - along) * (r + along);
        if under_root < -1e-12 * r * r {
            return None;
        }
        let to_left = Vec2::new(-ahead.y, ahead.x) * under_root.max(0.0).sqrt();
        Some(Self {
            middle: first.centre + ahead * along,
            to_left,
        })
    }

    /// The point left of the way from the first centre to the second.
    pub(super) fn left(self) -> Point {
        self.middle + self.to_left
    }

    /// The point right of the way from the first centre to the second.
    pub(super) fn right(self) -> Point {
        self.middle - self.to_left
    }

    /// The point nearer a place.
    pub(super) fn nearer(self, place: Point) -> Point {
        if self.to_left.dot(place - self.middle) < 0.0 {
            self.right()
        } else {
            self.left()
        }
    }
}
