//! A level's symbol: told apart by shape as well as by colour.

use egui::{Rect, Shape, Stroke, Ui};

use super::look::colour;
use super::paint::{paper, pos, rect, stroked};
use crate::analysis::Level;
use crate::drawing::{Role, Theme, level_symbol};

/// A level's symbol.
pub fn symbol(ui: &Ui, place: Rect, level: Level, theme: Theme) {
    let (body, line) = level_symbol(level, paper(place));
    let ink = colour(theme.level(level));
    let painter = ui.painter();
    match level {
        Level::Fine => {
            painter.circle_filled(place.center(), place.width() / 2.0, ink);
        }
        Level::Watch => {
            let corners = body.elements().iter().filter_map(kurbo::PathEl::end_point);
            let corners = corners.map(pos).collect();
            painter.add(Shape::convex_polygon(corners, ink, Stroke::NONE));
        }
        Level::Over => {
            painter.rect_filled(rect(kurbo::Shape::bounding_box(&body)), 1.0, ink);
        }
    }
    let white = colour(theme.look(Role::Paper).fill);
    painter.extend(stroked(
        &line,
        Stroke::new((place.width() / 9.0).max(1.6), white),
    ));
}
