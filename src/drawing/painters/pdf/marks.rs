//! Paths, pens and fills of a PDF: paper units become points.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, LineJoin, Stroke};
use kurbo::{BezPath, PathEl, Point, Rect, Shape as _, Vec2};

use crate::drawing::paper::{PAPER_PER_MM, Rgb};

/// Points of a PDF in a paper unit: 72 to the inch.
const POINTS: f64 = 72.0 / 25.4 / PAPER_PER_MM;

/// A length on paper in points.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a page is some 1000 points: f32 holds a ten-thousandth of one"
)]
pub(super) fn points(paper: f64) -> f32 {
    (paper * POINTS) as f32
}

/// A place on paper in points from the sheet's corner.
pub(super) fn place(at: Point, origin: Point) -> (f32, f32) {
    let Vec2 { x, y } = at - origin;
    (points(x), points(y))
}

/// A path as the PDF's; none where it has no extent.
pub(super) fn path(path: &BezPath, origin: Point) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                let (x, y) = place(to, origin);
                builder.move_to(x, y);
            }
            PathEl::LineTo(to) => {
                let (x, y) = place(to, origin);
                builder.line_to(x, y);
            }
            PathEl::QuadTo(by, to) => {
                let ((bx, by), (x, y)) = (place(by, origin), place(to, origin));
                builder.quad_to(bx, by, x, y);
            }
            PathEl::CurveTo(by, and, to) => {
                let ((bx, by), (ax, ay)) = (place(by, origin), place(and, origin));
                let (x, y) = place(to, origin);
                builder.cubic_to(bx, by, ax, ay, x, y);
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}

/// A rectangle of paper; none where it has no extent.
pub(super) fn rectangle(rect: Rect, origin: Point) -> Option<Path> {
    path(&rect.to_path(0.1), origin)
}

fn opacity(colour: Rgb) -> NormalizedF32 {
    NormalizedF32::new(f32::from(colour.opacity) / 255.0).unwrap_or(NormalizedF32::ONE)
}

fn ink(colour: Rgb) -> rgb::Color {
    let [red, green, blue] = colour.rgb;
    rgb::Color::new(red, green, blue)
}

/// A pen of a colour and a width on paper.
pub(super) fn pen(colour: Rgb, width: f64) -> Stroke {
    Stroke {
        paint: ink(colour).into(),
        width: points(width),
        line_join: LineJoin::Round,
        opacity: opacity(colour),
        ..Stroke::default()
    }
}

/// A fill of a colour.
pub(super) fn fill(colour: Rgb) -> Fill {
    Fill {
        paint: ink(colour).into(),
        opacity: opacity(colour),
        ..Fill::default()
    }
}
