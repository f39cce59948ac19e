//! Sizes of what is shown to a room, in parts of the height of the screen: read from the last row.

use egui::{FontFamily, FontId};

use crate::app::widgets::lettering::strong;
use crate::drawing::{Numbers, Style, Theme, Words};

/// Height of a digit in parts of its font's size: Open Sans draws them so high.
const DIGIT: f32 = 0.713;
/// How high a large number's digits are at the least, with a little more for the pixels' rounding.
const DIGITS: f32 = 0.052;
/// Sizes of words.
const TITLE: f32 = 0.046;
const TEXT: f32 = 0.031;
const NAME: f32 = 0.025;
const FINE: f32 = 0.0205;
/// The smallest words of a picture, a little more than what is wanted of them.
const ON_PICTURE: f64 = 0.0205;
/// Their size at the window's scale: in a chart, whose words shrink to fit, and in a drawing.
const IN_CHART: f64 = 10.0;
const IN_DRAWING: f64 = 11.3;
/// Sizes of the numbers under two pictures side by side, and of what they are called, against those of the
/// pictures' words.
pub(super) const PAIR_NUMBERS: f64 = 0.052 / 0.713 / ON_PICTURE * IN_DRAWING;
pub(super) const PAIR_NAMES: f64 = 0.025 / ON_PICTURE * IN_DRAWING;
/// Paper around all of it, and between one part and the next.
pub(super) const MARGIN: f32 = 0.02;
pub(super) const BETWEEN: f32 = 0.012;

/// The sizes for a screen so high, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    pub(super) high: f32,
}

impl Sizes {
    pub(super) fn part(self, of_height: f32) -> f32 {
        of_height * self.high
    }

    pub(super) fn title(self) -> FontId {
        FontId::new(self.part(TITLE), strong())
    }

    pub(super) fn text(self) -> FontId {
        FontId::new(self.part(TEXT), FontFamily::Proportional)
    }

    pub(super) fn number(self) -> FontId {
        FontId::new(self.part(DIGITS / DIGIT), strong())
    }

    pub(super) fn name(self) -> FontId {
        FontId::new(self.part(NAME), FontFamily::Proportional)
    }

    pub(super) fn fine(self) -> FontId {
        FontId::new(self.part(FINE), FontFamily::Proportional)
    }

    /// How a picture is laid out: a chart, or a drawing.
    pub(super) fn style(self, theme: Theme, is_chart: bool) -> Style {
        let smallest = if is_chart { IN_CHART } else { IN_DRAWING };
        let text = ON_PICTURE * f64::from(self.high) / smallest;
        Style {
            theme,
            text,
            pen: text.max(1.0).sqrt() * 1.2,
            words: Words::All,
            numbers: Numbers::Shown,
            enlarged: 1.0,
        }
    }
}

/// How a picture is laid out in front of a room, on a screen so high in points: a chart or a map, or a drawing.
#[must_use]
pub fn show_style(high: f32, theme: Theme, is_chart: bool) -> Style {
    Sizes { high }.style(theme, is_chart)
}
