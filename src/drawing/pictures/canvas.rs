//! The whole unit and the lens side by side.

use kurbo::{Point, Rect};

use super::lens::Lens;
use crate::drawing::paper::{Anchor, Panel, Pencil, Style, TEXT_SIZE, View, lay_out_around};
use crate::drawing::scene::{Role, Scene, ShownIn};

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
        let scale = self.scale_of_whole(style);
        let reserved: Vec<Rect> = letter
            .into_iter()
            .chain(scale.as_ref().map(|s| s.0))
            .collect();
        let mut whole = lay_out_around(scene, &self.whole, ShownIn::Whole, style, &reserved);
        whole
            .marks
            .extend(scale.into_iter().flat_map(|(_, panel)| panel.marks));
        let mut panels = vec![whole];
        if let Some(lens) = &self.lens {
            panels.push(lens.marks_on_whole(&self.whole, style));
            panels.push(lens.panel(scene, style));
        }
        panels
    }

    /// The scale of the whole in its lower left corner, with the paper it takes; none where there is no
    /// room.
    fn scale_of_whole(&self, style: Style) -> Option<(Rect, Panel)> {
        let window = self.whole.window;
        let mut pencil = Pencil::new(style, window);
        let text = format!("scale {}", self.whole.written_scale());
        let aside = pencil.by_text(8.0);
        let width = pencil.width_of(Role::Note, &text, TEXT_SIZE);
        let height = pencil.by_text(1.3 * TEXT_SIZE);
        let corner = Point::new(window.x0 + aside, window.y1 - aside - height);
        let place = Rect::from_origin_size(corner, (width, height));
        if !window.contains_rect(place.inflate(aside, 0.0)) {
            return None;
        }
        let at = Point::new(place.x0, place.center().y);
        pencil.text(Role::Note, at, Anchor::Left, text);
        Some((place, pencil.done()))
    }
}
