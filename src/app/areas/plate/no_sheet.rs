//! The area while no sheet is open: begin one, or open one.

use egui::{Button, ScrollArea, Ui, Vec2};

use super::beside::sheets_ui;
use crate::app::desk::{Desk, WorkKind};
use crate::app::files::{WorkAsking, ask_work_first, choose_work};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;
use crate::store::SheetBeside;

/// What the work is for, and the two ways to begin it.
pub fn no_sheet_ui(ui: &mut Ui, desk: &mut Desk, beside: &[SheetBeside]) {
    ScrollArea::vertical()
        .id_salt("no sheet")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            ui.vertical_centered(|ui| {
                ui.set_max_width(600.0);
                ui.add_space(40.0);
                ui.label(Lettering::Headline.of("Rollers parallel to the cut line"));
                ui.label("A plate sheet leads from the clean plate to the finished unit, step by step: runout, knife to reel, both rollers parallel on the gauge bar, and the height of cut that proves it.");
                ui.add_space(10.0);
                let size = Vec2::new(260.0, 40.0);
                let is_free = !desk.is_asking();
                let new = Button::new(Lettering::Name.of("New sheet for this unit")).min_size(size);
                if ui.add_enabled(is_free, new).clicked() {
                    ask_work_first(desk, WorkKind::Sheet, WorkAsking::New);
                }
                let open = Button::new(Lettering::Name.of("Open a sheet…")).min_size(size);
                if ui.add_enabled(is_free, open).clicked() {
                    choose_work(desk, WorkKind::Sheet);
                }
                ui.add_enabled_ui(is_free, |ui| sheets_ui(ui, desk, beside));
                ui.add_space(16.0);
                caution_in_short_ui(ui);
            });
            followed.bring_in(ui);
        });
}
