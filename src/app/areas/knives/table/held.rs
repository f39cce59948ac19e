//! The columns that stay in view on the left while the rest of the table moves sideways.

use egui::{Align, Layout, Rect, Stroke, Ui, UiBuilder, Vec2};

use super::sort::Column;
use super::widths::{GAP, Widths};

/// What the rest of the table gets of the view at the least, whole columns of it; where there is less,
/// the columns that stay stand under one another.
const LEAST_REST: f32 = 290.0;

/// How the table stands in its view.
#[derive(Clone, Copy, Debug)]
pub struct Held {
    /// How far it was moved sideways.
    offset: f32,
    /// How wide the columns are that stay, with the gap behind them.
    width: f32,
    /// Whether they stand under one another.
    is_stacked: bool,
}

impl Held {
    /// The table in its view.
    pub fn of(widths: Widths, view: Rect) -> Self {
        let width_of = |columns: &[Column]| {
            let columns = columns.iter().map(|column| widths.of(*column) + GAP);
            Widths::OVERLAY + GAP + columns.sum::<f32>()
        };
        let beside = width_of(&Column::ALL[..Column::HELD]);
        let is_stacked = view.width() < beside + LEAST_REST;
        let width = if is_stacked {
            Widths::OVERLAY + GAP + Widths::STACKED + GAP
        } else {
            beside
        };
        Self {
            offset: view.left().max(0.0),
            width,
            is_stacked,
        }
    }

    /// Whether the columns that stay stand under one another, all in one.
    pub const fn is_stacked(&self) -> bool {
        self.is_stacked
    }

    /// The columns that stay, and the rest.
    pub fn columns(&self) -> (&'static [Column], &'static [Column]) {
        static ALL: [Column; Column::ALL.len()] = Column::ALL;
        let held = if self.is_stacked {
            Column::HELD_STACKED
        } else {
            Column::HELD
        };
        ALL.split_at(held)
    }

    /// How far something moves with the view, to stay in it.
    pub const fn offset(&self) -> f32 {
        self.offset
    }

    /// How wide the columns are that stay, with the gap behind them.
    pub const fn width(&self) -> f32 {
        self.width
    }

    /// A line of the table: what stays in view, and the rest, none of which is seen under it.
    pub fn show(&self, ui: &mut Ui, first: impl FnOnce(&mut Ui), rest: impl FnOnce(&mut Ui)) {
        let begin = ui.cursor().min + Vec2::new(self.offset, 0.0);
        let room = Vec2::new(self.width - GAP, ui.available_height());
        let builder = UiBuilder::new()
            .id_salt("held")
            .max_rect(Rect::from_min_size(begin, room))
            .layout(Layout::left_to_right(Align::Min));
        let mut held = ui.new_child(builder);
        held.spacing_mut().item_spacing.x = GAP;
        first(&mut held);
        let height = held.min_rect().height();
        ui.allocate_space(Vec2::new(self.width - GAP, height));
        let edge = begin.x + self.width - 0.5 * GAP;
        ui.scope(|ui| {
            let mut clip = ui.clip_rect();
            clip.min.x = clip.min.x.max(edge);
            ui.set_clip_rect(clip);
            rest(ui);
        });
        if self.offset > 0.0 {
            let ink = ui.visuals().weak_text_color();
            let height = ui.min_rect().y_range();
            ui.painter().vline(edge, height, Stroke::new(1.0, ink));
        }
    }
}
