//! Closing the gap: reel and knife are brought together until centre to edge is reel radius + gap.

use super::Impossible;
use super::circles::{Circle, Meeting};
use super::number::Number;
use super::plane::{Motion, Place, Way};
use crate::units::{Angle, Length};

/// How a unit's reel-to-knife gap is closed. Places are in the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closing<N = f64> {
    /// The reel's centre moves on a straight line fixed in the frame.
    ReelSlides {
        /// The line's angle from the vertical, positive leaning ahead at the top; the bench line
        /// from edge to centre when none is given.
        lean: Option<Angle<N>>,
    },
    /// The reel's centre swings about a pivot.
    ReelPivots {
        /// The pivot.
        pivot_in_frame: Place<N>,
    },
    /// The bar with the knife turns about a pivot; the reel stays.
    KnifePivots {
        /// The pivot.
        pivot_in_frame: Place<N>,
    },
    /// The bar with the knife moves on a straight line fixed in the frame, without turning; the reel
    /// stays. It goes beyond this file format's three ways.
    KnifeSlides {
        /// The line's angle from the vertical, positive leaning ahead at the top; the bench line
        /// from edge to centre when none is given.
        lean: Option<Angle<N>>,
    },
}

/// Reel and bar brought together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Closed<N> {
    pub(super) centre_in_frame: Place<N>,
    /// Takes what sits on the bar from its bench place to where closing leaves it.
    pub(super) bar_moved: Motion<N>,
    /// The turn in it, counter-clockwise with x to the right: it lowers the attitude by as much.
    pub(super) bar_turn_rad: N,
}

/// What closing starts from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Apart<N> {
    pub(super) bench_edge: Place<N>,
    pub(super) bench_centre: Place<N>,
    /// The edge now fitted, before the bar turns.
    pub(super) edge: Place<N>,
    pub(super) reel_radius_mm: N,
    pub(super) gap_mm: N,
}

impl<N: Number> Apart<N> {
    fn needed_mm(&self) -> N {
        self.reel_radius_mm + self.gap_mm
    }

    fn reel_diameter(&self) -> Length {
        Length::from_mm(2.0 * self.reel_radius_mm.re())
    }
}

impl Closing {
    pub(super) fn exact<N: Number>(&self) -> Closing<N> {
        match *self {
            Self::ReelSlides { lean } => Closing::ReelSlides {
                lean: lean.map(Angle::exact),
            },
            Self::ReelPivots { pivot_in_frame } => Closing::ReelPivots {
                pivot_in_frame: pivot_in_frame.exact(),
            },
            Self::KnifePivots { pivot_in_frame } => Closing::KnifePivots {
                pivot_in_frame: pivot_in_frame.exact(),
            },
            Self::KnifeSlides { lean } => Closing::KnifeSlides {
                lean: lean.map(Angle::exact),
            },
        }
    }
}

impl<N: Number> Closing<N> {
    /// Brings reel and knife together.
    #[inline]
    pub(super) fn close(&self, apart: &Apart<N>) -> Result<Closed<N>, Impossible> {
        let reel_moved = |centre_in_frame| Closed {
            centre_in_frame,
            bar_moved: Motion::none(),
            bar_turn_rad: N::exact(0.0),
        };
        match *self {
            Self::ReelSlides { lean } => slide_reel(apart, lean).map(reel_moved),
            Self::ReelPivots { pivot_in_frame } => swing(apart, pivot_in_frame).map(reel_moved),
            Self::KnifePivots { pivot_in_frame } => turn(apart, pivot_in_frame),
            Self::KnifeSlides { lean } => slide_knife(apart, lean),
        }
    }
}

/// The line's direction, upwards: as it leans, or the bench line from edge to centre.
#[inline]
fn direction<N: Number>(apart: &Apart<N>, lean: Option<Angle<N>>) -> Way<N> {
    if let Some(lean) = lean {
        let (sin, cos) = lean.rad().sin_cos();
        Way::new(sin, cos)
    } else {
        let from_edge = apart.bench_centre - apart.bench_edge;
        from_edge / from_edge.hypot()
    }
}

#[inline]
fn slide_reel<N: Number>(apart: &Apart<N>, lean: Option<Angle<N>>) -> Result<Place<N>, Impossible> {
    let direction = direction(apart, lean);
    let offset = apart.bench_centre - apart.edge;
    let travel = travel(offset, direction, apart.needed_mm()).map_err(|nearest| {
        Impossible::ReelSlidesPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(apart.needed_mm().re()),
            nearest,
        }
    })?;
    Ok(apart.bench_centre + direction * travel)
}

fn slide_knife<N: Number>(
    apart: &Apart<N>,
    lean: Option<Angle<N>>,
) -> Result<Closed<N>, Impossible> {
    let direction = direction(apart, lean);
    let offset = apart.edge - apart.bench_centre;
    let travel = travel(offset, direction, apart.needed_mm()).map_err(|nearest| {
        Impossible::KnifeSlidesPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(apart.needed_mm().re()),
            nearest,
        }
    })?;
    Ok(Closed {
        centre_in_frame: apart.bench_centre,
        bar_moved: Motion {
            shift: direction * travel,
            ..Motion::none()
        },
        bar_turn_rad: N::exact(0.0),
    })
}

/// How far something that stands `offset` from what stays travels along a line until it is `needed`
/// away; the shorter way of the two. Else the nearest that it comes.
#[inline]
fn travel<N: Number>(offset: Way<N>, direction: Way<N>, needed: N) -> Result<N, Length> {
    // |offset + t·direction| = needed: t² + 2·along·t − short·(needed + |offset|) = 0.
    let along = offset.dot(direction);
    let across = offset.cross(direction).abs();
    let under_root = (needed - across) * (needed + across);
    if under_root.re() < 0.0 {
        return Err(Length::from_mm(across.re()));
    }
    let product = (needed - offset.hypot()) * (needed + offset.hypot());
    // The root of smaller magnitude, in the form that does not cancel.
    let root = under_root.root();
    let larger = if along.re().is_sign_negative() {
        along - root
    } else {
        along + root
    };
    Ok(if larger.re() == 0.0 {
        N::exact(0.0)
    } else {
        product / larger
    })
}

#[inline]
fn swing<N: Number>(apart: &Apart<N>, pivot: Place<N>) -> Result<Place<N>, Impossible> {
    let arm = (apart.bench_centre - pivot).hypot();
    let needed = apart.needed_mm();
    meet(pivot, arm, apart.edge, needed, apart.bench_centre).ok_or_else(|| {
        let from_pivot = (apart.edge - pivot).hypot();
        Impossible::ReelPivotsPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(needed.re()),
            nearest: Length::from_mm((from_pivot - arm).re().abs()),
            farthest: Length::from_mm((from_pivot + arm).re()),
        }
    })
}

fn turn<N: Number>(apart: &Apart<N>, pivot: Place<N>) -> Result<Closed<N>, Impossible> {
    let arm = (apart.edge - pivot).hypot();
    let needed = apart.needed_mm();
    // The edge's circle is met nearest the edge itself: on one circle, nearer is a smaller turn.
    let edge = meet(pivot, arm, apart.bench_centre, needed, apart.edge).ok_or_else(|| {
        let from_pivot = (apart.bench_centre - pivot).hypot();
        Impossible::KnifePivotsPast {
            reel_diameter: apart.reel_diameter(),
            needed: Length::from_mm(needed.re()),
            nearest: Length::from_mm((from_pivot - arm).re().abs()),
            farthest: Length::from_mm((from_pivot + arm).re()),
        }
    })?;
    let (from, to) = (apart.edge - pivot, edge - pivot);
    // An edge on its own pivot is not turned by turning.
    let bar_turn_rad = if arm.re() == 0.0 {
        N::exact(0.0)
    } else {
        from.cross(to).angle_over(from.dot(to))
    };
    Ok(Closed {
        centre_in_frame: apart.bench_centre,
        bar_moved: Motion::turning(bar_turn_rad, pivot, pivot),
        bar_turn_rad,
    })
}

/// Where the circle about `pivot` meets the circle about `other`, on the side nearer `start`, a
/// point of the first circle. None when the circles do not meet.
fn meet<N: Number>(
    pivot: Place<N>,
    arm: N,
    other: Place<N>,
    radius: N,
    start: Place<N>,
) -> Option<Place<N>> {
    let short = (start - other).hypot() - radius;
    if short.re().abs() <= 1e-12 * radius.re() {
        // A plain number has no derivative to carry.
        let is_plain = N::NDERIV == 0;
        return Some(if is_plain {
            start
        } else {
            start + stay_closed(pivot, arm, other, radius, start)
        });
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

/// Closed already: a pivot without an arm, or a mere graze, must not undo it by rounding, so
/// the way is zero. Its derivative is not: it says how far along its circle the start must
/// follow when a reading shifts the circles, one step of Newton's method (exact to first order).
///
/// Circles that only graze meet nowhere when a reading shifts, or far off; there is no derivative.
fn stay_closed<N: Number>(
    pivot: Place<N>,
    arm: N,
    other: Place<N>,
    radius: N,
    start: Place<N>,
) -> Way<N> {
    let short = ((start - other).hypot() - radius).without_value();
    let along = (start - pivot).to_left();
    let across = along.dot(start - other);
    if across.re().abs() <= 1e-6 * (arm * radius).re() {
        return along * N::exact(0.0);
    }
    along * (-(short * radius) / across)
}

#[cfg(test)]
mod tests {
    use num_dual::Dual64;

    use super::*;

    const APART: Apart<f64> = Apart {
        bench_edge: Place::new(0.0, 10.0),
        bench_centre: Place::new(8.0, 97.0),
        edge: Place::new(3.0, 9.0),
        reel_radius_mm: 84.0,
        gap_mm: 0.05,
    };

    fn close(closing: Closing, apart: &Apart<f64>) -> Result<Closed<f64>, Impossible> {
        closing.close(apart)
    }

    fn distance(closed: Closed<f64>) -> f64 {
        (closed.centre_in_frame - closed.bar_moved * APART.edge).hypot()
    }

    #[test]
    fn each_way_of_closing_ends_at_reel_radius_and_gap() {
        let pivot_in_frame = Place::new(-60.0, 80.0);
        for closing in [
            Closing::ReelSlides { lean: None },
            Closing::ReelSlides {
                lean: Some(Angle::from_deg(-10.0)),
            },
            Closing::ReelPivots { pivot_in_frame },
            Closing::KnifePivots { pivot_in_frame },
            Closing::KnifeSlides { lean: None },
            Closing::KnifeSlides {
                lean: Some(Angle::from_deg(20.0)),
            },
        ] {
            let closed = close(closing, &APART).unwrap();
            assert!((distance(closed) - 84.05).abs() < 1e-12, "{closing:?}");
        }
    }

    #[test]
    fn the_shorter_travel_is_taken() {
        let upright = Closing::ReelSlides {
            lean: Some(Angle::ZERO),
        };
        let closed = close(upright, &APART).unwrap();
        assert!(closed.centre_in_frame.y > APART.edge.y);
        let below = Apart {
            bench_centre: Place::new(0.0, -80.0),
            edge: Place::new(0.0, 0.0),
            ..APART
        };
        let closed = close(upright, &below).unwrap();
        assert!((closed.centre_in_frame.y + 84.05).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_meet_says_how_near_it_comes() {
        let aside = Apart {
            edge: Place::new(-200.0, 10.0),
            ..APART
        };
        let upright = Closing::ReelSlides {
            lean: Some(Angle::ZERO),
        };
        let error = close(upright, &aside).unwrap_err();
        let Impossible::ReelSlidesPast {
            nearest, needed, ..
        } = error
        else {
            panic!("{error}")
        };
        assert!((nearest.mm() - 208.0).abs() < 1e-9 && (needed.mm() - 84.05).abs() < 1e-9);

        let upright = Closing::KnifeSlides {
            lean: Some(Angle::ZERO),
        };
        let error = close(upright, &aside).unwrap_err();
        let Impossible::KnifeSlidesPast { nearest, .. } = error else {
            panic!("{error}")
        };
        assert!((nearest.mm() - 208.0).abs() < 1e-9);

        let pivot_in_frame = Place::new(8.0, 98.0);
        let error = close(Closing::ReelPivots { pivot_in_frame }, &aside).unwrap_err();
        assert!(
            matches!(error, Impossible::ReelPivotsPast { .. }),
            "{error}"
        );
        let pivot_in_frame = Place::new(-201.0, 10.0);
        let error = close(Closing::KnifePivots { pivot_in_frame }, &aside).unwrap_err();
        assert!(
            matches!(error, Impossible::KnifePivotsPast { .. }),
            "{error}"
        );
    }

    #[test]
    fn what_is_closed_already_stays_put_but_follows_a_reading_that_shifts() {
        let (pivot, edge, arm) = ([-60.0, 80.0], [3.0, 9.0], 70.0_f64);
        // The start stands on the arm's circle at 20 degrees; the reel closes on it exactly.
        let (sin, cos) = 20_f64.to_radians().sin_cos();
        let start = [pivot[0] + arm * cos, pivot[1] + arm * sin];
        let radius = (start[0] - edge[0]).hypot(start[1] - edge[1]);
        let place = |[x, y]: [f64; 2]| Place::new(Dual64::from_re(x), Dual64::from_re(y));
        let met = |radius| {
            let arm = (place(start) - place(pivot)).hypot();
            meet(place(pivot), arm, place(edge), radius, place(start)).unwrap()
        };
        let closed = met(Dual64::new(radius, 1.0));
        let bits = |[x, y]: [f64; 2]| [x.to_bits(), y.to_bits()];
        assert_eq!(bits([closed.x.re, closed.y.re]), bits(start));
        // Far enough from closed that the circles are met anew, near enough to be a derivative.
        let step = 1e-5;
        let off_by = |step| met(Dual64::from_re(radius + step));
        let by_difference = (off_by(step) - off_by(-step)) / Dual64::from_re(2.0 * step);
        assert!(
            (closed.x.eps - by_difference.x.re).abs() < 1e-6,
            "{closed:?}"
        );
        assert!(
            (closed.y.eps - by_difference.y.re).abs() < 1e-6,
            "{closed:?}"
        );
        assert!(closed.x.eps.abs() > 0.1);
    }

    #[test]
    fn a_pivot_without_an_arm_leaves_what_is_closed_alone() {
        let centre = Place::new(Dual64::from_re(8.0), Dual64::from_re(97.0));
        let edge = Place::new(Dual64::from_re(0.0), Dual64::from_re(10.0));
        let radius = (centre - edge).hypot() + Dual64::new(0.0, 1.0);
        let met = meet(edge, Dual64::from_re(0.0), centre, radius, edge).unwrap();
        assert_eq!((met.x.eps.to_bits(), met.y.eps.to_bits()), (0, 0));
    }
}
