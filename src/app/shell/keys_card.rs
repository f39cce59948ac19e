//! The list of keys.

use egui::{Grid, RichText, ScrollArea, Ui};

use super::keys::{Entry, IN_HAND, told};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::{Lettering, strong};

/// The card that lists them.
pub struct KeysCard(pub Vec<Entry>);

impl Card for KeysCard {
    fn name(&self) -> &'static str {
        "keys"
    }

    fn width(&self) -> f32 {
        620.0
    }

    fn show(&mut self, ui: &mut Ui, _desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Keys"));
        let height = (ui.ctx().content_rect().height() - 220.0).max(200.0);
        ScrollArea::vertical().max_height(height).show(ui, |ui| {
            Grid::new("keys").num_columns(3).show(ui, |ui| {
                for entry in &self.0 {
                    let keys = told(ui.ctx(), entry);
                    ui.label(RichText::new(keys).family(strong()));
                    ui.label(entry.name);
                    ui.label(entry.does);
                    ui.end_row();
                }
            });
            ui.add_space(6.0);
            ui.label(Lettering::Name.of("In a field, a list or on a button"));
            Grid::new("keys in hand").num_columns(2).show(ui, |ui| {
                for (keys, does) in IN_HAND {
                    ui.label(RichText::new(keys).family(strong()));
                    ui.label(does);
                    ui.end_row();
                }
            });
        });
        ui.add_space(8.0);
        if ui.button("Close").clicked() {
            Next::Close
        } else {
            Next::Stay
        }
    }
}
