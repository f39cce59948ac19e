//! What tells knives and limits apart in the plots: a colour of the Okabe–Ito palette, and always
//! something besides the colour, the style of a line or the direction of a hatch.

use egui::{Color32, Sense, Shape, Stroke, Ui, Vec2};
use egui_plot::LineStyle;

use crate::analysis::Level;
use crate::analysis::knives::Limit;
use crate::app::widgets::look::colour;
use crate::drawing::{Role, Theme};

/// Okabe–Ito.
const SKY_BLUE: Color32 = Color32::from_rgb(0x56, 0xB4, 0xE9);
const BLUE: Color32 = Color32::from_rgb(0x00, 0x72, 0xB2);
const REDDISH_PURPLE: Color32 = Color32::from_rgb(0xCC, 0x79, 0xA7);
const BLUISH_GREEN: Color32 = Color32::from_rgb(0x00, 0x9E, 0x73);
const YELLOW: Color32 = Color32::from_rgb(0xF0, 0xE4, 0x42);
const VERMILLION: Color32 = Color32::from_rgb(0xD5, 0x5E, 0x00);

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
    let colours = match theme {
        Theme::Light => [BLUE, BLUISH_GREEN, REDDISH_PURPLE, ink(theme), SKY_BLUE],
        Theme::Dark => [SKY_BLUE, BLUISH_GREEN, REDDISH_PURPLE, YELLOW, ink(theme)],
    };
    let (style, width) = [
        (LineStyle::Solid, 2.0),
        (LineStyle::Dashed { length: 12.0 }, 2.2),
        (LineStyle::Dotted { spacing: 6.0 }, 1.6),
        (LineStyle::Dashed { length: 5.0 }, 2.2),
    ][index % 4];
    KnifeInk {
        colour: colours[index % colours.len()],
        style,
        width,
    }
}

/// A piece of the line that a knife drawn over the fitted one has.
pub fn line_sample(ui: &mut Ui, place: u8, theme: Theme) {
    let (rect, _) = ui.allocate_exact_size(Vec2::new(40.0, 14.0), Sense::hover());
    let look = theme.look(Role::Overlay(place));
    #[allow(clippy::cast_possible_truncation)]
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

/// How a region of the map is drawn that a limit forbids.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RegionInk {
    pub colour: Color32,
    /// Rising to the right when positive.
    pub hatch_deg: f64,
    pub spacing: f64,
}

/// The look of a limit's region.
pub fn region_ink(limit: Limit, theme: Theme) -> RegionInk {
    let is_light = theme == Theme::Light;
    let blue = if is_light { BLUE } else { SKY_BLUE };
    let (colour, hatch_deg, spacing) = match limit {
        Limit::Sweep => (VERMILLION, 45.0, 11.0),
        Limit::Reel => (blue, -45.0, 11.0),
        Limit::Cut => (ink(theme), 90.0, 10.0),
        Limit::Underside => (REDDISH_PURPLE, 0.0, 9.0),
        Limit::Ahead => (BLUISH_GREEN, 70.0, 11.0),
        Limit::Range | Limit::Reach => (faint_ink(theme), -20.0, 7.0),
    };
    RegionInk {
        colour,
        hatch_deg,
        spacing,
    }
}
