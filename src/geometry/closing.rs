//! Closing the gap: reel and knife are brought together until centre to edge is reel radius + gap.

use kurbo::{Affine, Point, Vec2};

use super::Impossible;
use super::circles::{Circle, Meeting};
use crate::units::{Angle, Length};

/// How a unit's reel-to-knife gap is closed. Places are in the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closing {
    /// The reel's centre moves on a straight line fixed in the frame.
    ReelSlides {
        /// The line's angle from the vertical, positive leaning ahead at the top; the bench line
        /// from edge to centre when nothing is given.
        lean: Option<Angle>,
    },
    /// The reel's centre swings about a pivot.
    ReelPivots {
        /// The pivot.
        pivot_in_frame: Point,
    },
    /// The bar with the knife turns about a pivot; the reel stays.
    KnifePivots {
        /// The pivot.
        pivot_in_frame: Point,
    },
}

/// Reel and bar brought together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Closed {
    pub(super) centre_in_frame: Point,
    /// Turns what sits on the bar from its bench place to where closing leaves it.
    pub(super) bar_turn: Affine,
    /// The same turn, counter-clockwise with x to the right: it lowers the attitude by as much.
    pub(super) bar_turn_rad: f64,
}

/// What closing starts from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Apart {
    pub(super) bench_edge: Point,
    pub(super) bench_centre: Point,
    /// The edge now fitted, before the bar turns.
    pub(super) edge: Point,
    pub(super) reel_radius_mm: f64,
    pub(super) gap_mm: f64,
}

impl Apart {
    fn needed_mm(&self) -> f64 {
        self.reel_radius_mm + self.gap_mm
    }

    fn reel_diameter(&self) -> Length {
        Length::from_mm(2.0 * self.reel_radius_mm)
    }
}

impl Closing {
    /// Brings reel and knife together.
    pub(super) fn close(&self, apart: &Apart) -> Result<Closed, Impossible> {
        let reel_moved = |centre_in_frame| Closed {
            centre_in_frame,
            bar_turn: Affine::IDENTITY,
            bar_turn_rad: 0.0,
        };
        match *self {
            Self::ReelSlides { lean } => slide(apart, lean).map(reel_moved),
            Self::ReelPivots { pivot_in_frame } => swing(apart, pivot_in_frame).map(reel_moved),
            Self::KnifePivots { pivot_in_frame } => turn(apart, pivot_in_frame),
        }
    }
}

fn slide(apart: &Apart, lean: Option<Angle>) -> Result<Point, Impossible> {
    let direction = match lean {
        Some(lean) => Vec2::new(lean.rad().sin(), lean.rad().cos()),
        None => (apart.bench_centre - apart.bench_edge).normalize(),
    };
    let needed = apart.needed_mm();
    let offset = apart.bench_centre - apart.edge;
    // |offset + t·direction| = needed: t² + 2·along·t − short·(needed + |offset|) = 0.
    let along = offset.dot(direction);
    let across = offset.cross(direction).abs();
    let under_root = (needed - across) * (needed + across);
    if under_root < 0.0 {
        return Err(Impossible::ReelSlidesPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(needed),
            nearest: Length::from_mm(across),
        });
    }
    let product = (needed - offset.hypot()) * (needed + offset.hypot());
    // The root of smaller magnitude, in the form that does not cancel.
    let larger = along + under_root.sqrt().copysign(along);
    let travel = if larger == 0.0 { 0.0 } else { product / larger };
    Ok(apart.bench_centre + travel * direction)
}

fn swing(apart: &Apart, pivot: Point) -> Result<Point, Impossible> {
    let arm = (apart.bench_centre - pivot).hypot();
    let needed = apart.needed_mm();
    meet(pivot, arm, apart.edge, needed, apart.bench_centre).ok_or_else(|| {
        let from_pivot = (apart.edge - pivot).hypot();
        Impossible::ReelPivotsPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(needed),
            nearest: Length::from_mm((from_pivot - arm).abs()),
            farthest: Length::from_mm(from_pivot + arm),
        }
    })
}

fn turn(apart: &Apart, pivot: Point) -> Result<Closed, Impossible> {
    let arm = (apart.edge - pivot).hypot();
    let needed = apart.needed_mm();
    // The edge's circle is met nearest the edge itself: on one circle, nearer is a smaller turn.
    let edge = meet(pivot, arm, apart.bench_centre, needed, apart.edge).ok_or_else(|| {
        let from_pivot = (apart.bench_centre - pivot).hypot();
        Impossible::KnifePivotsPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(needed),
            nearest: Length::from_mm((from_pivot - arm).abs()),
            farthest: Length::from_mm(from_pivot + arm),
        }
    })?;
    let (from, to) = (apart.edge - pivot, edge - pivot);
    let bar_turn_rad = from.cross(to).atan2(from.dot(to));
    Ok(Closed {
        centre_in_frame: apart.bench_centre,
        bar_turn: Affine::rotate_about(bar_turn_rad, pivot),
        bar_turn_rad,
    })
}

/// Where the circle about `pivot` meets the circle about `other`, on the side nearer `start`, a
/// point of the first circle. Nothing when the circles do not meet.
fn meet(pivot: Point, arm: f64, other: Point, radius: f64, start: Point) -> Option<Point> {
    // Closed already: a pivot that moves nothing, or a mere graze, must not undo it by rounding.
    if ((start - other).hypot() - radius).abs() <= 1e-12 * radius {
        return Some(start);
    }
    let first = Circle {
        centre: pivot,
        radius_mm: arm,
    };
    let second = Circle {
        centre: other,
        radius_mm: radius,
    };
    Meeting::of(first, second).map(|meeting| meeting.nearer(start))
}

#[cfg(test)]
mod tests {
    use super::*;

    const APART: Apart = Apart {
        bench_edge: Point::new(0.0, 10.0),
        bench_centre: Point::new(8.0, 97.0),
        edge: Point::new(3.0, 9.0),
        reel_radius_mm: 84.0,
        gap_mm: 0.05,
    };

    fn distance(closed: Closed) -> f64 {
        (closed.centre_in_frame - closed.bar_turn * APART.edge).hypot()
    }

    #[test]
    fn each_way_of_closing_ends_at_reel_radius_and_gap() {
        let pivot_in_frame = Point::new(-60.0, 80.0);
        for closing in [
            Closing::ReelSlides { lean: None },
            Closing::ReelSlides {
                lean: Some(Angle::from_deg(-10.0)),
            },
            Closing::ReelPivots { pivot_in_frame },
            Closing::KnifePivots { pivot_in_frame },
        ] {
            let closed = closing.close(&APART).unwrap();
            assert!((distance(closed) - 84.05).abs() < 1e-12, "{closing:?}");
        }
    }

    #[test]
    fn the_shorter_travel_is_taken() {
        let closed = Closing::ReelSlides {
            lean: Some(Angle::ZERO),
        }
        .close(&APART)
        .unwrap();
        assert!(closed.centre_in_frame.y > APART.edge.y);
        let below = Apart {
            bench_centre: Point::new(0.0, -80.0),
            edge: Point::ORIGIN,
            ..APART
        };
        let closed = Closing::ReelSlides {
            lean: Some(Angle::ZERO),
        }
        .close(&below)
        .unwrap();
        assert!((closed.centre_in_frame.y + 84.05).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_meet_says_how_near_it_comes() {
        let aside = Apart {
            edge: Point::new(-200.0, 10.0),
            ..APART
        };
        let error = Closing::ReelSlides {
            lean: Some(Angle::ZERO),
        }
        .close(&aside)
        .unwrap_err();
        let Impossible::ReelSlidesPast {
            nearest, needed, ..
        } = error
        else {
            panic!("{error}")
        };
        assert!((nearest.mm() - 208.0).abs() < 1e-9 && (needed.mm() - 84.05).abs() < 1e-9);

        let pivot_in_frame = Point::new(8.0, 98.0);
        let error = Closing::ReelPivots { pivot_in_frame }
            .close(&aside)
            .unwrap_err();
        assert!(
            matches!(error, Impossible::ReelPivotsPast { .. }),
            "{error}"
        );
        let pivot_in_frame = Point::new(-201.0, 10.0);
        let error = Closing::KnifePivots { pivot_in_frame }
            .close(&aside)
            .unwrap_err();
        assert!(
            matches!(error, Impossible::KnifePivotsPast { .. }),
            "{error}"
        );
    }
}
