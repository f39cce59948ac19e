//! Hatching: parallel lines clipped to an outline, by even-odd crossings.

use kurbo::{Affine, BezPath, Line, PathEl, Point, Rect, Vec2};

use super::look::Hatching;

/// More lines than any paper shows: what asks for more is not a number, and the fill stands alone.
const MOST_LINES: f64 = 5000.0;
/// The least part of their usual distance that lines are set at.
const CLOSEST: f64 = 0.6;

/// How hatching lies along the ground, on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lies {
    /// A place that one of its lines goes through.
    pub(super) through: Point,
    /// So far to the side it is alike again.
    pub(super) alike: f64,
}

impl Lies {
    /// Through a place of the world, alike again so many millimetres further along.
    pub(super) fn of(place: Point, alike_mm: f64, paper_from_world: Affine) -> Self {
        let through = paper_from_world * place;
        let along = paper_from_world * Point::new(place.x + alike_mm, place.y);
        let alike = through.distance(along);
        Self { through, alike }
    }

    /// Hatching whose lines are set a little closer or wider, so that a whole number of them goes into the way
    /// to where it is alike again; where that way is shorter than from line to line, so many ways into one.
    pub(super) fn alike_after(self, hatching: Hatching) -> Hatching {
        let across = hatching.angle_deg.to_radians().sin().abs();
        let ways = self.alike * across / hatching.spacing;
        // A level line is alike anywhere.
        if !ways.is_normal() {
            return hatching;
        }
        let part = if ways >= CLOSEST {
            ways.round().max(1.0)
        } else {
            1.0 / (1.0 / ways).round()
        };
        Hatching {
            spacing: hatching.spacing * ways / part,
            ..hatching
        }
    }
}

/// The hatching lines of a flat outline (lines only) on paper, inside `window`; one of each direction would go
/// through the place that is given.
pub(super) fn hatch(
    outline: &BezPath,
    hatching: Hatching,
    through: Point,
    window: Rect,
) -> Vec<Line> {
    let edges = edges(outline);
    let mut lines = one_set(
        &edges,
        hatching.angle_deg,
        hatching.spacing,
        through,
        window,
    );
    if hatching.is_crossed {
        let angle_deg = -hatching.angle_deg;
        let other = one_set(&edges, angle_deg, hatching.spacing, through, window);
        lines.extend(other);
    }
    lines
}

fn edges(outline: &BezPath) -> Vec<Line> {
    let mut edges = Vec::new();
    let (mut start, mut last) = (Point::ORIGIN, Point::ORIGIN);
    for element in outline.elements() {
        match *element {
            PathEl::MoveTo(point) => (start, last) = (point, point),
            PathEl::ClosePath => {
                edges.push(Line::new(last, start));
                last = start;
            }
            other => {
                if let Some(end) = other.end_point() {
                    edges.push(Line::new(last, end));
                    last = end;
                }
            }
        }
    }
    edges
}

fn one_set(
    edges: &[Line],
    angle_deg: f64,
    spacing: f64,
    through: Point,
    window: Rect,
) -> Vec<Line> {
    // Paper's y runs down: a line rising to the right has a negative slope there.
    let (sin, cos) = (-angle_deg.to_radians()).sin_cos();
    let along = Vec2::new(cos, sin);
    let across = Vec2::new(-sin, cos);
    let height = |point: Point| point.to_vec2().dot(across);
    let span = |points: &mut dyn Iterator<Item = Point>| {
        points.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), point| {
            (low.min(height(point)), high.max(height(point)))
        })
    };
    let corners = [
        Point::new(window.x0, window.y0),
        Point::new(window.x1, window.y0),
        Point::new(window.x0, window.y1),
        Point::new(window.x1, window.y1),
    ];
    let (low, high) = span(&mut edges.iter().flat_map(|edge| [edge.p0, edge.p1]));
    let (window_low, window_high) = span(&mut corners.into_iter());
    let begin = height(through).rem_euclid(spacing);
    let first = ((low.max(window_low) - begin) / spacing).ceil();
    let last = ((high.min(window_high) - begin) / spacing).floor();
    // Written so that what is no number does not pass either.
    let is_hatching = last - first <= MOST_LINES;
    if !is_hatching {
        return Vec::new();
    }
    let mut lines = Vec::new();
    let mut crossings = Vec::new();
    let mut step = first;
    while step <= last {
        let at = begin + step * spacing;
        crossings.clear();
        for edge in edges {
            let (a, b) = (height(edge.p0) - at, height(edge.p1) - at);
            if (a < 0.0) != (b < 0.0) {
                let crossing = edge.p0.lerp(edge.p1, a / (a - b));
                crossings.push(crossing.to_vec2().dot(along));
            }
        }
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let place = |x: f64| (along * x + across * at).to_point();
            lines.push(Line::new(place(pair[0]), place(pair[1])));
        }
        step += 1.0;
    }
    lines
}

#[cfg(test)]
mod tests {
    use kurbo::Shape as _;

    use super::*;

    #[test]
    fn hatching_stays_inside_an_outline_with_a_step() {
        let outline = BezPath::from_svg("M0 0 H40 V10 H20 V30 H0 Z").unwrap();
        let ink = crate::drawing::paper::Rgb {
            rgb: [0; 3],
            opacity: 255,
        };
        let hatching = Hatching {
            ink,
            angle_deg: 45.0,
            spacing: 3.0,
            is_crossed: true,
            width: 1.0,
        };
        let window = Rect::new(-100.0, -100.0, 100.0, 100.0);
        let lines = hatch(&outline, hatching, Point::new(1.0, 0.4), window);
        assert!(lines.len() > 20);
        for line in lines {
            for part in [0.01, 0.5, 0.99] {
                let point = line.p0.lerp(line.p1, part);
                assert!(outline.contains(point), "{point:?}");
            }
        }
    }

    #[test]
    fn moving_hatching_is_alike_after_its_way_and_its_lines_are_about_as_far_apart_as_ever() {
        let outline = BezPath::from_svg("M0 0 H400 V40 H0 Z").unwrap();
        let ink = crate::drawing::paper::Rgb {
            rgb: [0; 3],
            opacity: 255,
        };
        let window = outline.bounding_box();
        for (angle_deg, alike) in [(45.0, 33.0), (60.0, 8.0), (45.0, 7.0), (30.0, 200.0)] {
            let plain = Hatching {
                ink,
                angle_deg,
                spacing: 6.0,
                is_crossed: false,
                width: 1.0,
            };
            let lines = |x: f64| {
                let through = Point::new(x, 40.0);
                let lies = Lies { through, alike };
                hatch(&outline, lies.alike_after(plain), through, window)
            };
            let spacing = Lies {
                through: Point::ORIGIN,
                alike,
            }
            .alike_after(plain)
            .spacing;
            assert!((0.6..1.7).contains(&(spacing / plain.spacing)), "{spacing}");
            let (now, later) = (lines(11.0), lines(11.0 - alike));
            assert!(now.len() > 10 && now.len() == later.len());
            for (now, later) in now.iter().zip(&later) {
                assert!(now.p0.distance(later.p0) < 1e-6);
            }
            // Moved by less, it lies elsewhere.
            let between = lines(11.0 - 0.3);
            assert!(now[3].p0.distance(between[3].p0) > 0.1);
            assert!(now.iter().any(|line| {
                let way = line.p1 - line.p0;
                let off = (Point::new(11.0, 40.0) - line.p0).cross(way) / way.hypot();
                off.abs() < 1e-6
            }));
        }
    }
}
