//! Lines cut to a rectangle of paper.

use kurbo::{BezPath, Line, Rect};

/// The pieces of a flat path that lie in a window.
pub(super) fn shown(flat: &BezPath, window: Rect) -> BezPath {
    let mut shown = BezPath::new();
    let mut last = None;
    for segment in flat.segments() {
        let kurbo::PathSeg::Line(line) = segment else {
            continue;
        };
        let Some(piece) = cut_to(line, window) else {
            continue;
        };
        if last != Some(piece.p0) {
            shown.move_to(piece.p0);
        }
        shown.line_to(piece.p1);
        last = Some(piece.p1);
    }
    shown
}

/// The part of a line inside a rectangle (Liang and Barsky, 1984).
pub(in crate::drawing) fn cut_to(line: Line, window: Rect) -> Option<Line> {
    let way = line.p1 - line.p0;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (along, low, high) in [
        (way.x, window.x0 - line.p0.x, window.x1 - line.p0.x),
        (way.y, window.y0 - line.p0.y, window.y1 - line.p0.y),
    ] {
        if along == 0.0 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
        } else {
            let (a, b) = (low / along, high / along);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
    }
    // Ends that are not cut stay as they are, so that pieces still meet.
    let start = if from > 0.0 {
        line.p0 + way * from
    } else {
        line.p0
    };
    let end = if to < 1.0 {
        line.p0 + way * to
    } else {
        line.p1
    };
    (from < to).then(|| Line::new(start, end))
}
