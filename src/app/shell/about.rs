//! The About page: cautions first, then what the numbers mean and what the model leaves out.

use egui::{RichText, ScrollArea, Ui};

use super::licences::LicencesCard;
use crate::analysis::{CAUTION, MODEL_IN_SHORT, NumberId};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::{Lettering, strong};

const MODEL: [&str; 4] = [
    "Rigid parts, one plane: a unit that twists or bends is a different unit at each end.",
    "All blade tips stand on one cylinder; a coned reel has a different diameter at each end.",
    "Crests and hollows are circles along the direction of travel.",
    "The limits it starts with are rules of thumb: set your own from your own trials, in the unit's file.",
];

/// What stands on the page over and under its text, and around it.
const AROUND: f32 = 190.0;

/// The page.
pub struct AboutCard;

impl Card for AboutCard {
    fn name(&self) -> &'static str {
        "about"
    }

    fn width(&self) -> f32 {
        620.0
    }

    fn takes_keys(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::Title.of("Sweepgauge"));
        ui.label(format!(
            "Version {}. It sends nothing anywhere and needs no network.",
            env!("CARGO_PKG_VERSION")
        ));
        let room = (ui.ctx().content_rect().height() - AROUND).clamp(80.0, 460.0);
        ScrollArea::vertical().max_height(room).show(ui, |ui| {
            part(ui, "Cautions");
            for caution in CAUTION {
                bullet(ui, caution);
            }
            part(ui, "What the numbers mean");
            let mut numbers = NumberId::KEY.to_vec();
            // What is told of one roller is told of both.
            numbers.dedup_by_key(|number| number.meaning());
            for number in numbers {
                ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().item_spacing.x = 4.0;
                    ui.label(RichText::new(number.title()).family(strong()));
                    ui.label(number.meaning());
                });
            }
            part(ui, "What the model leaves out");
            bullet(ui, MODEL_IN_SHORT);
            for limit in MODEL {
                bullet(ui, limit);
            }
            part(ui, "Fonts");
            ui.label("Open Sans, under the Apache License 2.0.");
        });
        ui.add_space(8.0);
        let mut next = Next::Stay;
        ui.horizontal(|ui| {
            if ui.button("Close").clicked() {
                next = Next::Close;
            }
            if ui
                .button("Licences")
                .on_hover_text("The crates that the program is built from, and their licences")
                .clicked()
            {
                desk.open_card(LicencesCard::new());
                next = Next::Close;
            }
        });
        next
    }
}

fn part(ui: &mut Ui, name: &str) {
    ui.add_space(8.0);
    ui.heading(name);
}

fn bullet(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.label("•");
        ui.add(egui::Label::new(text).wrap());
    });
}
