//! Paths of straight pieces.

use kurbo::{BezPath, Point};

/// A line through points, left open; empty where there is none.
pub(in crate::drawing) fn polyline(points: impl IntoIterator<Item = impl Into<Point>>) -> BezPath {
    let mut path = BezPath::new();
    for point in points {
        if path.elements().is_empty() {
            path.move_to(point);
        } else {
            path.line_to(point);
        }
    }
    path
}

/// A line through points and back to the first; empty where there is none.
pub(in crate::drawing) fn closed(points: impl IntoIterator<Item = impl Into<Point>>) -> BezPath {
    let mut path = polyline(points);
    if !path.elements().is_empty() {
        path.close_path();
    }
    path
}
