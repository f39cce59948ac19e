//! The side plate that carries reel, rollers and bar: a calm outline about all of them. No file says
//! what it looks like.

use std::f64::consts::TAU;

use kurbo::{BezPath, Circle, Point, Vec2};

use super::polygon::closed;

/// Straight pieces of a round corner, were it a whole circle.
const PIECES: u32 = 72;

/// The outline tight about some circles, as a string would lie about them.
pub(super) fn outline_about(circles: &[Circle]) -> BezPath {
    let mut points: Vec<Point> = Vec::new();
    for circle in circles {
        for piece in 0..PIECES {
            let way = Vec2::from_angle(TAU * f64::from(piece) / f64::from(PIECES));
            points.push(circle.center + way * circle.radius);
        }
    }
    closed(&hull(points))
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
