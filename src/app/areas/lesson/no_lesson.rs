//! The area while no lesson is open: begin one, or open one.

use egui::{Button, ScrollArea, Ui, Vec2};

use crate::app::desk::{Desk, WorkKind};
use crate::app::files::{WorkAsking, ask_work_first, choose_work};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;

/// What a lesson is for, and the two ways to begin.
pub fn no_lesson_ui(ui: &mut Ui, desk: &mut Desk) {
    ScrollArea::vertical()
        .id_salt("no lesson")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            ui.vertical_centered(|ui| {
                ui.set_max_width(600.0);
                ui.add_space(40.0);
                ui.label(Lettering::Headline.of("A unit explained in steps"));
                ui.label("A lesson shows a unit to people step by step: a picture, a few sentences, up to four large numbers. No number is typed; each is worked out from the unit of its step.");
                ui.label("From any area, View, Keep this as a step puts the unit in front behind the other steps.");
                ui.add_space(10.0);
                let size = Vec2::new(260.0, 40.0);
                let is_free = !desk.is_asking();
                let new = Button::new(Lettering::Name.of("New lesson")).min_size(size);
                if ui.add_enabled(is_free, new).clicked() {
                    ask_work_first(desk, WorkKind::Lesson, WorkAsking::New);
                }
                let open = Button::new(Lettering::Name.of("Open a lesson…")).min_size(size);
                if ui.add_enabled(is_free, open).clicked() {
                    choose_work(desk, WorkKind::Lesson);
                }
                ui.add_space(16.0);
                caution_in_short_ui(ui);
            });
            followed.bring_in(ui);
        });
}
