//! An area while no work of its kind is open: what the work is for, and the two ways to begin it.

use egui::{Button, ScrollArea, Ui, Vec2};

use crate::app::desk::{Desk, WorkKind};
use crate::app::files::{WorkAsking, ask_work_first, choose_work};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;

/// What is said of a kind of work while none is open.
pub struct NoWork {
    /// The kind.
    pub kind: WorkKind,
    /// What it is for, in a few words.
    pub title: &'static str,
    /// The same in sentences.
    pub about: &'static [&'static str],
    /// The buttons to begin one and to open one.
    pub buttons: [&'static str; 2],
}

impl NoWork {
    /// Shows it, and below its buttons what else there is to begin with.
    pub fn show(&self, ui: &mut Ui, desk: &mut Desk, below: impl FnOnce(&mut Ui, &mut Desk)) {
        ScrollArea::vertical()
            .id_salt(("no work", self.title))
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                ui.vertical_centered(|ui| {
                    ui.set_max_width(600.0);
                    ui.add_space(40.0);
                    ui.label(Lettering::Headline.of(self.title));
                    for sentence in self.about {
                        ui.label(*sentence);
                    }
                    ui.add_space(10.0);
                    let is_free = !desk.is_asking();
                    let button = |ui: &mut Ui, name: &str| {
                        let button = Button::new(Lettering::Name.of(name));
                        let button = button.min_size(Vec2::new(260.0, 40.0));
                        ui.add_enabled(is_free, button).clicked()
                    };
                    let [new, open] = self.buttons;
                    if button(ui, new) {
                        ask_work_first(desk, self.kind, WorkAsking::New);
                    }
                    if button(ui, open) {
                        choose_work(desk, self.kind);
                    }
                    ui.add_enabled_ui(is_free, |ui| below(ui, desk));
                    ui.add_space(16.0);
                    caution_in_short_ui(ui);
                });
                followed.bring_in(ui);
            });
    }
}
