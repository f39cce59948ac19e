//! A band with one bend, as an outline that does not cross itself.

use std::f64::consts::PI;

use kurbo::{Arc, BezPath, Point, Vec2};

/// How far its round ends may be from circles.
const TOLERANCE_MM: f64 = 0.1;

/// The band along two lines, `half` of its width on either side, round at the ends and outside of the
/// bend. A stroke's outline crosses itself inside of the bend, which a painter that cuts a fill into
/// triangles fills wrongly. Empty where the lines are too short for the bend between them.
pub(super) fn bent_band([start, bend, end]: [Point; 3], half: f64) -> BezPath {
    let lines = [bend - start, end - bend];
    let [into, out] = lines.map(Vec2::normalize);
    let turn = into.cross(out).atan2(into.dot(out));
    // Towards the inside of the bend.
    let side = if turn < 0.0 { -1.0 } else { 1.0 };
    let inwards = |along: Vec2| side * half * along.turn_90();
    let (first, last) = (inwards(into), inwards(out));
    let to_inner_corner = (first + last) / (1.0 + into.dot(out));
    let shortest = lines
        .map(Vec2::hypot)
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    let mut outline = BezPath::new();
    let is_bent_well = to_inner_corner.hypot() < shortest;
    if !is_bent_well {
        return outline;
    }
    let round = |centre: Point, from: Vec2, by: f64| {
        Arc::new(centre, (half, half), from.atan2(), by, 0.0).append_iter(TOLERANCE_MM)
    };
    outline.move_to(start - first);
    outline.line_to(bend - first);
    outline.extend(round(bend, -first, turn));
    outline.line_to(end - last);
    outline.extend(round(end, -last, side * PI));
    outline.line_to(bend + to_inner_corner);
    outline.line_to(start + first);
    outline.extend(round(start, first, side * PI));
    outline.close_path();
    outline
}

#[cfg(test)]
mod tests {
    use kurbo::{Line, PathEl, Shape as _, flatten};

    use super::*;

    /// The sides of an outline, its curves as many short ones.
    fn sides(outline: &BezPath) -> Vec<Line> {
        let mut points = Vec::new();
        flatten(outline, 0.01, |element| match element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => points.push(point),
            PathEl::QuadTo(..) | PathEl::CurveTo(..) | PathEl::ClosePath => {}
        });
        points.dedup_by(|a, b| a.distance(*b) < 1e-6);
        points
            .windows(2)
            .map(|pair| Line::new(pair[0], pair[1]))
            .collect()
    }

    fn cross(a: Line, b: Line) -> bool {
        let apart = |line: Line, from: Point| (line.p1 - line.p0).cross(from - line.p0);
        apart(a, b.p0) * apart(a, b.p1) < 0.0 && apart(b, a.p0) * apart(b, a.p1) < 0.0
    }

    #[test]
    fn its_outline_crosses_itself_nowhere_and_holds_all_of_it() {
        for height in [-60.0, -20.0, 0.0, 35.0, 80.0] {
            let spine = [
                Point::new(-110.0, 20.0),
                Point::new(0.0, 20.0 + height),
                Point::new(95.0, 25.0),
            ];
            let band = bent_band(spine, 7.0);
            let sides = sides(&band);
            assert!(sides.len() > 20, "{height}");
            for (index, side) in sides.iter().enumerate() {
                for other in &sides[index + 1..] {
                    assert!(!cross(*side, *other), "{side:?} {other:?} at {height}");
                }
            }
            for pair in spine.windows(2) {
                for step in 0..=10 {
                    let at = pair[0].lerp(pair[1], f64::from(step) / 10.0);
                    let round = (0..8).map(|part| Vec2::from_angle(f64::from(part) * PI / 4.0));
                    for out in round {
                        assert!(band.contains(at + 6.8 * out), "{at:?} {out:?} at {height}");
                    }
                }
            }
        }
    }

    #[test]
    fn lines_too_short_for_their_bend_leave_no_band() {
        let back = [Point::ORIGIN, Point::new(50.0, 0.0), Point::new(0.0, 1.0)];
        assert!(bent_band(back, 7.0).elements().is_empty());
        assert!(bent_band([Point::ORIGIN; 3], 7.0).elements().is_empty());
    }
}
