//! The whole unit and the lens side by side.

use kurbo::Rect;

use super::lens::Lens;
use crate::drawing::paper::{Panel, Style, View, lay_out_around};
use crate::drawing::scene::{Scene, ShownIn};

/// The whole unit and the lens beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Canvas {
    /// The view of the whole unit.
    pub whole: View,
    /// The lens.
    pub lens: Option<Lens>,
}

/// Paper between a canvas's border and what stands in it.
const MARGIN: f64 = 12.0;

impl Canvas {
    /// The parts of a rectangle of paper for the whole unit and for the lens.
    #[must_use]
    pub fn split(window: Rect, has_lens: bool) -> (Rect, Option<Rect>) {
        if !has_lens {
            return (window, None);
        }
        let width = (0.40 * window.width()).clamp(280.0_f64.min(0.5 * window.width()), 680.0);
        let border = window.x1 - width;
        let whole = Rect::new(window.x0, window.y0, border - MARGIN, window.y1);
        let lens = Rect::new(
            border,
            window.y0 + MARGIN,
            window.x1 - MARGIN,
            window.y1 - MARGIN,
        );
        (whole, Some(lens))
    }

    /// The marks of both views.
    #[must_use]
    pub fn panels(&self, scene: &Scene, style: impl Into<Style>) -> Vec<Panel> {
        let style = style.into();
        let letter = self
            .lens
            .as_ref()
            .and_then(|lens| lens.letter_place(&self.whole, style));
        let mut panels = vec![lay_out_around(
            scene,
            &self.whole,
            ShownIn::Whole,
            style,
            letter.as_slice(),
        )];
        if let Some(lens) = &self.lens {
            panels.push(lens.marks_on_whole(&self.whole, style));
            panels.push(lens.panel(scene, style));
        }
        panels
    }
}
