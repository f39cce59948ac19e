//! The whole unit and the lens side by side.

use kurbo::{Rect, Size, Vec2};

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
/// The least and the most of a paper's width that is the lens's.
const LEAST_LENS: f64 = 0.3;
const MOST_LENS: f64 = 0.42;

impl Canvas {
    /// How high paper so wide has to be to show the whole at the largest scale that its width allows.
    #[must_use]
    pub fn height_on_paper(width: f64, bounds: Rect) -> f64 {
        let high = 100.0 * width;
        let paper = Rect::new(0.0, 0.0, width, high);
        let (widest, _) = Self::split_with(paper, LEAST_LENS * width);
        let view = View::fitting_at_scale_of_row(bounds, widest);
        // A hair more, so that what fits fits.
        bounds.height() * view.scale + 0.01
    }

    /// The parts of a rectangle of paper for the whole unit and for the lens.
    #[must_use]
    pub fn split(window: Rect, has_lens: bool) -> (Rect, Option<Rect>) {
        if !has_lens {
            return (window, None);
        }
        let width = (0.40 * window.width()).clamp(280.0_f64.min(0.5 * window.width()), 680.0);
        let (whole, lens) = Self::split_with(window, width);
        (whole, Some(lens))
    }

    /// The view of the whole unit on paper, which keeps its size: at the largest scale of the row that
    /// drawings have, the lens giving way as far as it can; and the part that is the lens's.
    #[must_use]
    pub fn split_paper(window: Rect, bounds: Rect) -> (View, Rect) {
        let width = window.width();
        let (widest, _) = Self::split_with(window, LEAST_LENS * width);
        let scale = View::fitting_at_scale_of_row(bounds, widest).scale;
        let left = width - MARGIN - bounds.width() * scale;
        let lens = left.clamp(LEAST_LENS * width, MOST_LENS * width);
        let (whole, lens) = Self::split_with(window, lens);
        let view = View {
            scale,
            ..View::fitting(bounds, whole)
        };
        (view, lens)
    }

    /// The whole, and beside it the lens so wide.
    fn split_with(window: Rect, width: f64) -> (Rect, Rect) {
        let border = window.x1 - width;
        let whole = Rect::new(window.x0, window.y0, border - MARGIN, window.y1);
        let lens = Rect::new(
            border,
            window.y0 + MARGIN,
            window.x1 - MARGIN,
            window.y1 - MARGIN,
        );
        (whole, lens)
    }

    /// The marks of both views.
    #[must_use]
    pub fn panels(&self, scene: &Scene, style: impl Into<Style>) -> Vec<Panel> {
        self.panels_clear_of(scene, style, &[])
    }

    /// The marks of both views, with the words kept clear of places that something else will cover.
    #[must_use]
    pub fn panels_clear_of(
        &self,
        scene: &Scene,
        style: impl Into<Style>,
        covered: &[Rect],
    ) -> Vec<Panel> {
        let style = style.into();
        let letter = self
            .lens
            .as_ref()
            .and_then(|lens| lens.letter_place(&self.whole, style));
        let beside: Vec<Rect> = covered.iter().copied().chain(letter).collect();
        let has_ghost = scene.items.iter().any(|item| item.role == Role::Ghost);
        let scale = self.key_of_whole(style, has_ghost, &beside);
        let reserved: Vec<Rect> = beside
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

    /// The scale of the whole, over it the key of the lines that no file says anything of and of the unit
    /// as measured, in the first corner that nothing covers, with the paper all take; none where there is
    /// no room.
    fn key_of_whole(
        &self,
        style: Style,
        has_ghost: bool,
        covered: &[Rect],
    ) -> Option<(Rect, Panel)> {
        const SAMPLE: f64 = 26.0;
        let window = self.whole.window;
        let mut pencil = Pencil::new(style, window);
        let scale = format!("scale {}", self.whole.written_scale());
        let mut keys = vec![(Role::Hint, "thin grey: not measured")];
        if has_ghost {
            keys.push((Role::Ghost, "as measured"));
        }
        let (aside, line) = (pencil.by_text(8.0), pencil.by_text(1.3 * TEXT_SIZE));
        let beside = pencil.by_text(SAMPLE + 6.0);
        let width = keys
            .iter()
            .map(|(_, key)| beside + pencil.width_of(Role::Note, key, TEXT_SIZE))
            .fold(pencil.width_of(Role::Note, &scale, TEXT_SIZE), f64::max);
        let rows = if has_ghost { 3.0 } else { 2.0 };
        let size = Size::new(width, rows * line);
        let (left, right) = (window.x0 + aside, window.x1 - aside - width);
        let (top, foot) = (window.y0 + aside, window.y1 - aside - size.height);
        let corners = [(left, top), (left, foot), (right, foot), (right, top)];
        let place = corners
            .map(|corner| Rect::from_origin_size(corner, size))
            .into_iter()
            .find(|place| {
                window.contains_rect(place.inflate(aside, 0.0))
                    && !covered.iter().any(|other| other.overlaps(*place))
            })?;
        let at = |row: f64| place.origin() + Vec2::new(0.0, (row + 0.5) * line);
        let sample = Vec2::new(pencil.by_text(SAMPLE), 0.0);
        for (row, (role, key)) in (0_u8..).zip(keys) {
            let from = at(f64::from(row));
            pencil.line(role, from, from + sample);
            let beside = from + Vec2::new(beside, 0.0);
            pencil.text(Role::Note, beside, Anchor::Left, key.to_owned());
        }
        pencil.text(Role::Note, at(rows - 1.0), Anchor::Left, scale);
        Some((place, pencil.done()))
    }
}
