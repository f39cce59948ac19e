//! The symbols that say a level without colour: a tick, a warning triangle, a cross in a square.

use kurbo::{BezPath, Point, Rect, Shape as _};

use crate::analysis::Level;
use crate::drawing::scene::polyline;

/// A level's symbol in a box on paper: the outline to fill, and the line to draw on it.
#[must_use]
pub fn level_symbol(level: Level, place: Rect) -> (BezPath, BezPath) {
    let at =
        |x: f64, y: f64| Point::new(place.x0 + place.width() * x, place.y0 + place.height() * y);
    let lines = |strokes: &[&[(f64, f64)]]| {
        let lines = strokes.iter();
        let lines = lines.map(|stroke| polyline(stroke.iter().map(|&(x, y)| at(x, y))));
        lines.flatten().collect::<BezPath>()
    };
    match level {
        Level::Fine => {
            let radius = place.width().min(place.height()) / 2.0;
            let disc = kurbo::Circle::new(place.center(), radius).to_path(0.05);
            (disc, lines(&[&[(0.26, 0.53), (0.44, 0.71), (0.75, 0.32)]]))
        }
        Level::Watch => {
            let mut triangle = lines(&[&[(0.5, 0.02), (1.0, 0.95), (0.0, 0.95)]]);
            triangle.close_path();
            (
                triangle,
                lines(&[&[(0.5, 0.36), (0.5, 0.66)], &[(0.5, 0.76), (0.5, 0.83)]]),
            )
        }
        Level::Over => {
            let square = place.inset(-0.04 * place.width()).to_path(0.05);
            (
                square,
                lines(&[&[(0.27, 0.27), (0.73, 0.73)], &[(0.73, 0.27), (0.27, 0.73)]]),
            )
        }
    }
}
