//! What was last told, in a strip of its own at the foot of the window, and the last notices again. It
//! always says what makes it safe to touch a unit: in short while a notice stands beside it.

use std::time::Duration;

use egui::{Align, Label, Layout, Panel, ScrollArea, Sense, Ui, Vec2};

use crate::analysis::Level;
use crate::app::desk::{Card, Desk, Next, Notice};
use crate::app::widgets::caution::{caution_in_a_line_ui, shortest_caution_ui};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;

/// What the strip keeps for how far a picture to copy is.
const COPYING_WIDTH: f32 = 340.0;

/// The strip. It stands there always, so that nothing moves under the hand and no number is covered.
pub fn notice_strip_ui(ui: &mut Ui, desk: &mut Desk) {
    Panel::bottom("notices").resizable(false).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let is_any = desk.notices().kept().len() > 0;
                let button = ui.add_enabled(is_any, egui::Button::new("Notices").small());
                if button
                    .on_hover_text("The last notices, to read again")
                    .clicked()
                {
                    desk.open_card(NoticesCard);
                }
                if desk.is_copying() && !desk.has_card() {
                    // From the left, as it is read.
                    let size = Vec2::new(COPYING_WIDTH, ui.available_height());
                    let from_the_left = Layout::left_to_right(Align::Center);
                    ui.allocate_ui_with_layout(size, from_the_left, |ui| desk.copying_ui(ui));
                }
                if let Some((notice, left)) = desk.notice(ui.input(|input| input.time)) {
                    // The frame in which it leaves, and none before it.
                    ui.ctx()
                        .request_repaint_after(Duration::from_secs_f64(left));
                    if ui.small_button("Close").clicked() {
                        desk.put_notice_away();
                    }
                    ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                        // What makes it safe stays in view, whatever is told.
                        shortest_caution_ui(ui);
                        ui.add_space(14.0);
                        mark_ui(ui, &notice);
                        ui.add(Label::new(&notice.text).truncate());
                    });
                } else {
                    let from_the_left = Layout::left_to_right(Align::Center);
                    ui.with_layout(from_the_left, caution_in_a_line_ui);
                }
            });
        });
    });
}

/// The mark of what could not be done.
fn mark_ui(ui: &mut Ui, notice: &Notice) {
    let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
    if notice.is_problem {
        symbol(ui, place, Level::Over, theme(ui.ctx()));
    }
}

/// The last notices.
struct NoticesCard;

impl Card for NoticesCard {
    fn name(&self) -> &'static str {
        "notices"
    }

    fn width(&self) -> f32 {
        620.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Notices"));
        ui.label("The last notices, newest first.");
        ui.add_space(6.0);
        ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
            for notice in desk.notices().kept() {
                ui.horizontal_top(|ui| {
                    mark_ui(ui, notice);
                    ui.add(Label::new(&notice.text).wrap());
                });
            }
        });
        ui.add_space(8.0);
        if ui.button("Close").clicked() {
            Next::Close
        } else {
            Next::Stay
        }
    }
}
