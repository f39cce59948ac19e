//! Paths of straight pieces.

use kurbo::{BezPath, Point};

/// A line through points, left open.
pub(super) fn polyline(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (index, &point) in points.iter().enumerate() {
        if index == 0 {
            path.move_to(point);
        } else {
            path.line_to(point);
        }
    }
    path
}

/// A line through points and back to the first.
pub(super) fn closed(points: &[Point]) -> BezPath {
    let mut path = polyline(points);
    path.close_path();
    path
}
