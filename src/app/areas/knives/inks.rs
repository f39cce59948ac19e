//! What tells knives apart in the plots: a colour of the Okabe–Ito palette, and always the style of a
//! line besides.

use egui::{Color32, Sense, Shape, Stroke, Ui, Vec2};
use egui_plot::LineStyle;

use crate::analysis::Level;
use crate::app::widgets::look::colour;
use crate::drawing::palette::{BLUE, BLUISH_GREEN, REDDISH_PURPLE, SKY_BLUE, YELLOW};
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

/// The line of the knife at a place of the list: five colours and four styles, so that twenty
/// knives differ in one or both. Orange and vermillion are left to the limits.
pub fn knife_ink(index: usize, theme: Theme) -> KnifeInk {
    let ink = theme.look(Role::Heading).ink;
    let colours = match theme {
        Theme::Light => [BLUE, BLUISH_GREEN, REDDISH_PURPLE, ink, SKY_BLUE],
        Theme::Dark => [SKY_BLUE, BLUISH_GREEN, REDDISH_PURPLE, YELLOW, ink],
    };
    let (style, width) = [
        (LineStyle::Solid, 2.0),
        (LineStyle::Dashed { length: 12.0 }, 2.2),
        (LineStyle::Dotted { spacing: 6.0 }, 1.6),
        (LineStyle::Dashed { length: 5.0 }, 2.2),
    ][index % 4];
    KnifeInk {
        colour: colour(colours[index % colours.len()]),
        style,
        width,
    }
}

/// A piece of the line that a knife drawn over the fitted one has.
pub fn line_sample(ui: &mut Ui, place: u8, theme: Theme) {
    let (rect, _) = ui.allocate_exact_size(Vec2::new(40.0, 14.0), Sense::hover());
    let look = theme.look(Role::Overlay(place));
    #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
    let lengths: Vec<f32> = look.dashes.iter().map(|&length| length as f32).collect();
    let dashes: Vec<f32> = lengths.iter().copied().step_by(2).collect();
    let gaps: Vec<f32> = lengths.iter().copied().skip(1).step_by(2).collect();
    let ends = [rect.left_center(), rect.right_center()];
    let stroke = Stroke::new(2.4, colour(look.ink));
    ui.painter().extend(Shape::dashed_line_with_offset(
        &ends, stroke, &dashes, &gaps, 0.0,
    ));
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
