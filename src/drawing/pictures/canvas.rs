//! The whole unit and the lens side by side.

use kurbo::Rect;

use super::key_of_drawing::key_of_drawing;
use super::lens::Lens;
use crate::drawing::paper::{Mark, Panel, Style, View, lay_out_around};
use crate::drawing::scene::{Item, Scene, Shape, ShownIn};

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
/// Paper under the unit in a window.
const FOOT: f64 = 32.0;
/// How wide a lens in a window is, where the window has room.
const NARROWEST_LENS: f64 = 244.0;
const WIDEST_LENS: f64 = 680.0;
/// The part of a window's width that it takes, from high to low.
const SLIM_LENS: f64 = 0.32;
const WIDE_LENS: f64 = 0.40;
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
        let width = window.width();
        // A paper that is high for its width is the whole's, which its width limits there.
        let shape = width / window.height().max(1.0);
        let part = (SLIM_LENS + 0.15 * (shape - 1.6)).clamp(SLIM_LENS, WIDE_LENS);
        let width = (part * width).clamp(NARROWEST_LENS.min(0.5 * width), WIDEST_LENS);
        let (whole, lens) = Self::split_with(window, width);
        (whole, Some(lens))
    }

    /// The view of the whole unit in a window, as large as it fits over the words of what is dimensioned
    /// under it.
    #[must_use]
    pub fn whole_in_window(bounds: Rect, window: Rect, style: Style) -> View {
        View::fitting_above(bounds, window, FOOT * style.room_for_words())
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

    /// The marks of both views, with the words kept clear of places that the handles will cover. A length
    /// that the lens tells stands there alone: none is dimensioned twice (ISO 129-1).
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
        let has_handles = !covered.is_empty();
        let key = key_of_drawing(scene, &self.whole, style, &beside, has_handles);
        let reserved: Vec<Rect> = beside
            .into_iter()
            .chain(key.as_ref().map(|key| key.place))
            .collect();
        let lens = self.lens.as_ref();
        let enlarged = lens.map(|lens| (lens, lens.panel(scene, style)));
        let is_told = |item: &Item| {
            let enlarged = enlarged.as_ref();
            enlarged.is_some_and(|(_, panel)| is_told_in(panel, &item.shape))
        };
        let around = (&reserved[..], is_told);
        let mut whole = lay_out_around(scene, &self.whole, ShownIn::Whole, style, around);
        whole
            .marks
            .extend(key.into_iter().flat_map(|key| key.panel.marks));
        let mut panels = vec![whole];
        if let Some((lens, panel)) = enlarged {
            panels.push(lens.marks_on_whole(&self.whole, style));
            panels.push(panel);
        }
        panels
    }
}

/// Whether a panel tells the number of a dimension, or of the sweep, in one of its own forms.
fn is_told_in(panel: &Panel, shape: &Shape) -> bool {
    let (text, shorter) = match shape {
        Shape::Dimension(dimension) => (&dimension.text, &dimension.shorter),
        Shape::Label(label) if label.larger > 1.0 => (&label.text, &label.shorter),
        _ => return false,
    };
    let told = |form: &String| {
        let mut texts = panel.marks.iter().filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text),
            _ => None,
        });
        texts.any(|text| text.contains(form.as_str()))
    };
    std::iter::once(text).chain(shorter).any(told)
}
