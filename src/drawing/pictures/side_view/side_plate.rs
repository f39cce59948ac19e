//! The side plate that carries reel, rollers and bar: a calm outline about all of them. No file says
//! what it looks like.

use std::f64::consts::TAU;

use kurbo::{BezPath, Circle, Point, Vec2};

use crate::drawing::scene::closed;

/// Straight pieces of a round corner, were it a whole circle.
const PIECES: u32 = 72;

/// The outline tight about some circles, as a string would lie about them.
pub(super) fn outline_about(circles: &[Circle]) -> BezPath {
    closed(hull(points_about(circles)))
}

/// The outline about some circles as [`outline_about`] has it, its lower side from the circles at the
/// back to those ahead led over two places, the rear one first.
pub(super) fn outline_over(circles: &[Circle], [rear, front]: [Point; 2]) -> BezPath {
    let hull = hull(points_about(circles));
    let foremost = hull.iter().map(|point| point.x);
    let foremost = foremost.fold(f64::NEG_INFINITY, f64::max);
    // The lower side runs from the rearmost point, which the hull begins with, to the foremost.
    let lower = hull.iter().position(|point| point.x >= foremost);
    let (lower, upper) = hull.split_at(lower.unwrap_or(0));
    let ahead_of_front = |point: &&Point| point.x > front.x;
    let lowest = |a: &&Point, b: &&Point| a.y.total_cmp(&b.y);
    let back: Vec<Point> = lower
        .iter()
        .copied()
        .filter(|point| point.x < rear.x)
        .collect();
    let turn = back.iter().enumerate().min_by(|a, b| lowest(&a.1, &b.1));
    let mut points: Vec<Point> = turn.map_or(Vec::new(), |(turn, _)| back[..=turn].to_vec());
    points.extend([rear, front]);
    let ahead: Vec<Point> = lower.iter().filter(ahead_of_front).copied().collect();
    let turn = ahead.iter().enumerate().min_by(|a, b| lowest(&a.1, &b.1));
    points.extend(turn.map_or(&[][..], |(turn, _)| &ahead[turn..]));
    points.extend(upper);
    closed(points)
}

/// The middle of the straight line that lies on two circles, on its upper side; `from` the one further
/// to the right.
pub(super) fn middle_of_tangent(from: Circle, to: Circle) -> Point {
    let apart = to.center - from.center;
    let along = apart.normalize();
    // Square to the line, away from both.
    let sine = ((from.radius - to.radius) / apart.hypot()).clamp(-1.0, 1.0);
    let cosine = (1.0 - sine * sine).sqrt();
    let out = Vec2::new(along.y, -along.x) * cosine + along * sine;
    (from.center + out * from.radius).midpoint(to.center + out * to.radius)
}

/// Points on the rims of circles.
fn points_about(circles: &[Circle]) -> Vec<Point> {
    let mut points = Vec::new();
    for circle in circles {
        for piece in 0..PIECES {
            let way = Vec2::from_angle(TAU * f64::from(piece) / f64::from(PIECES));
            points.push(circle.center + way * circle.radius);
        }
    }
    points
}

/// The convex hull, counter-clockwise (A. M. Andrew, 1979).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut half: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = half[..]
                && (last - before).cross(point - last) <= 0.0
            {
                half.pop();
            }
            half.push(point);
        }
        half.pop();
        half
    };
    let mut hull = half(&mut points.iter().copied());
    hull.extend(half(&mut points.iter().rev().copied()));
    hull
}

#[cfg(test)]
mod tests {
    use kurbo::Shape as _;

    use super::*;

    #[test]
    fn between_its_circles_the_outline_passes_over_what_it_is_led_over() {
        let circles = [
            Circle::new((-100.0, 20.0), 10.0),
            Circle::new((100.0, 20.0), 10.0),
            Circle::new((0.0, 60.0), 20.0),
        ];
        let over = [Point::new(-40.0, 18.0), Point::new(0.0, 14.0)];
        let outline = outline_over(&circles, over);
        for under in [(-40.0, 17.9), (0.0, 13.9), (-20.0, 15.9), (20.0, 13.0)] {
            assert!(!outline.contains(Point::from(under)), "{under:?}");
        }
        for inside in [(-40.0, 18.1), (0.0, 14.1), (-100.0, 11.0), (100.0, 11.0)] {
            assert!(outline.contains(Point::from(inside)), "{inside:?}");
        }
    }

    #[test]
    fn the_middle_of_a_tangent_is_on_the_outline() {
        let (front, hub) = (
            Circle::new((100.0, 20.0), 10.0),
            Circle::new((0.0, 60.0), 20.0),
        );
        let outline = outline_about(&[front, hub]);
        let middle = middle_of_tangent(front, hub);
        assert!(middle.y > 40.0, "{middle:?}");
        let off = outline.segments().map(|piece| {
            let near = kurbo::ParamCurveNearest::nearest(&piece, middle, 1e-9);
            near.distance_sq.sqrt()
        });
        assert!(off.fold(f64::INFINITY, f64::min) < 0.05);
    }

    #[test]
    fn the_outline_holds_every_circle_and_is_no_longer_than_a_string_about_them() {
        let circles = [
            Circle::new((0.0, 0.0), 10.0),
            Circle::new((100.0, 0.0), 10.0),
            Circle::new((50.0, 2.0), 5.0),
        ];
        let outline = outline_about(&circles);
        for circle in &circles {
            for turn in 0..40 {
                let way = Vec2::from_angle(f64::from(turn));
                // Within what its straight pieces cut off.
                let on_rim = circle.center + way * (circle.radius * 0.997);
                assert!(outline.contains(on_rim), "{on_rim:?}");
            }
        }
        // About two equal circles: two straights and one circle.
        let string = 200.0 + TAU * 10.0;
        let length = outline.perimeter(1e-6);
        assert!(length <= string && length > 0.998 * string, "{length}");
    }
}
