//! Why a field is wrong, laid beside the form in the field's own line: no field is hidden by it, and
//! nothing moves under the hand. Where there is no room beside it, it lies under the field.

use egui::{Area, Frame, Label, Margin, Order, Popup, Rect, Sense, Stroke, Ui, Vec2};

use super::field::Fields;
use crate::analysis::Level;
use crate::app::desk::Slot;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::colour;
use crate::app::widgets::symbol::symbol;

/// How far from the form's edge a reason lies, past the grip that widens the form.
const BESIDE: f32 = 10.0;
/// What a reason's frame takes of its width.
const FRAME: f32 = 16.0;
/// How far over the end of a field a reason begins that lies beside it: the field's own height.
const LINE: f32 = 30.0;
/// How wide a reason is, where there is room.
const WIDTH: f32 = 300.0;
/// The least width of a reason beside its form or card: a narrow one covers less than a wide one that
/// lies under its field.
const LEAST_BESIDE: f32 = 90.0;

impl Fields<'_> {
    /// What stands against a field: why it is wrong, or else why what stands in it cannot be true.
    pub(super) fn against(&self, slot: Slot) -> Option<(Level, String)> {
        if let Some(problem) = self.problem(slot) {
            return Some((Level::Over, problem));
        }
        let doubt = self.doubts.iter().rev().find(|(of, _)| *of == slot)?;
        Some((Level::Watch, doubt.1.clone()))
    }

    /// Lays the reason beside a field that was just shown. It is seen while the field is in hand, or
    /// none is: a reason never covers the field that a person is in.
    pub fn problem_ui(&self, ui: &Ui, slot: impl Into<Slot>) {
        let slot = slot.into();
        let Some((level, why)) = self.against(slot) else {
            return;
        };
        let at = ui.cursor().left_top();
        let is_in_view = ui.is_rect_visible(Rect::from_min_size(at - Vec2::Y, Vec2::splat(1.0)));
        let is_free = ui.memory(|memory| {
            let is_in_reach = memory.is_above_modal_layer(ui.layer_id());
            // What is doubted and taken all the same lies over none of the drawing that it is shown in.
            let is_at_rest = memory.focused().is_none() && level == Level::Over;
            is_in_reach && (is_at_rest || self.in_hand == Some(slot))
        });
        if !is_in_view || !is_free || Popup::is_any_open(ui.ctx()) {
            return;
        }
        let screen = ui.ctx().content_rect();
        let edge = self.card_edge.unwrap_or(ui.clip_rect().right());
        let beside = edge + BESIDE;
        let room = screen.right() - beside - FRAME;
        let (at, width) = if room >= LEAST_BESIDE {
            let line = at - Vec2::new(0.0, LINE);
            (egui::pos2(beside, line.y), room.min(WIDTH))
        } else {
            (at, ui.available_width().max(WIDTH))
        };
        let ink = colour(self.theme.level(level));
        // A field can stand in the form and in a row of a table at once, each with its own reason.
        Area::new(ui.scope_id().with(("reason", slot)))
            .order(Order::Tooltip)
            .fixed_pos(at)
            .interactable(false)
            .show(ui.ctx(), |ui| {
                let frame = Frame::popup(ui.style())
                    .stroke(Stroke::new(1.5, ink))
                    .inner_margin(Margin::symmetric(6, 3));
                frame.show(ui, |ui| {
                    ui.set_max_width(width);
                    ui.horizontal_top(|ui| {
                        let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
                        symbol(ui, place, level, self.theme);
                        ui.add(Label::new(Lettering::Note.of(why)).wrap());
                    });
                });
            });
    }
}
