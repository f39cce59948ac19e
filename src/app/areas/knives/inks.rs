//! What tells knives apart in table, overlay and plots: a colour of the Okabe–Ito palette, and the style
//! of a line besides.

use egui::{Color32, Sense, Shape, Stroke, Ui, Vec2};
use egui_plot::LineStyle;

use crate::analysis::Level;
use crate::app::widgets::look::colour;
use crate::drawing::{Role, Theme};

/// The ink of words.
pub fn ink(theme: Theme) -> Color32 {
    colour(theme.look(Role::Heading).ink)
}

/// The ink of what stands behind.
pub fn faint_ink(theme: Theme) -> Color32 {
    colour(theme.look(Role::Note).ink)
}

/// The paper.
pub fn paper(theme: Theme) -> Color32 {
    colour(theme.look(Role::Paper).fill)
}

/// Paper that lets a little of what is under it through.
pub fn veil(theme: Theme) -> Color32 {
    paper(theme).gamma_multiply(0.8)
}

/// How the line of one knife is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnifeInk {
    pub colour: Color32,
    pub style: LineStyle,
    pub width: f32,
}

/// The line of a knife by its place among those that can be told apart, as in the side view.
pub fn knife_ink(line: u8, theme: Theme) -> KnifeInk {
    let look = theme.look(Role::Overlay(line));
    let (style, width) = match look.dashes.first() {
        None => (LineStyle::Solid, 2.0),
        Some(&length) if length < 4.0 => (LineStyle::Dotted { spacing: 6.0 }, 1.6),
        #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
        Some(&length) => (
            LineStyle::Dashed {
                length: length as f32,
            },
            2.2,
        ),
    };
    KnifeInk {
        colour: colour(look.ink),
        style,
        width,
    }
}

/// A short piece of a knife's line.
pub fn line_sample(ui: &mut Ui, knife: KnifeInk) {
    let (place, _) = ui.allocate_exact_size(Vec2::new(36.0, 14.0), Sense::hover());
    let ends = [place.left_center(), place.right_center()];
    let stroke = Stroke::new(knife.width, knife.colour);
    let shapes = match knife.style {
        LineStyle::Solid => vec![Shape::line_segment(ends, stroke)],
        LineStyle::Dashed { length } => Shape::dashed_line(&ends, stroke, length, length * 0.618),
        LineStyle::Dotted { spacing } => {
            Shape::dotted_line(&ends, knife.colour, spacing, knife.width)
        }
    };
    ui.painter().extend(shapes);
}

/// The colour of a limit's line: the level that begins there.
pub fn limit_line(name: &str, theme: Theme) -> Color32 {
    let level = if name == "watch" {
        Level::Watch
    } else {
        Level::Over
    };
    colour(theme.level(level))
}
