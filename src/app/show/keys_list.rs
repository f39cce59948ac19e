//! The list of the keys of Show: on a card before the room, and in the presenter's window.

use egui::{Grid, Label, RichText, ScrollArea, Ui};

use super::keys::TABLE;
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::{Lettering, strong};

/// What the card is called among cards.
pub(super) const KEYS_CARD: &str = "keys of Show";
/// Paper around what scrolls on the card.
const AROUND: f32 = 150.0;
/// Width of the keys beside what they do.
const KEYS: f32 = 170.0;

/// The list of keys. Any key of Show closes it, and is done.
pub(super) struct KeysCard;

impl Card for KeysCard {
    fn name(&self) -> &'static str {
        KEYS_CARD
    }

    fn width(&self) -> f32 {
        720.0
    }

    fn show(&mut self, ui: &mut Ui, _desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Keys in Show"));
        let most = (ui.ctx().content_rect().height() - AROUND).max(180.0);
        keys_ui(ui, most);
        ui.add_space(6.0);
        if ui.button("Close").clicked() {
            Next::Close
        } else {
            Next::Stay
        }
    }
}

/// Every key and what it does, no higher than so.
pub(super) fn keys_ui(ui: &mut Ui, most: f32) {
    ScrollArea::vertical()
        .id_salt("keys")
        .max_height(most)
        .show(ui, |ui| {
            // A line a key, as close as text.
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.spacing_mut().interact_size.y = 0.0;
            let room = ui.available_width() - KEYS - 20.0;
            Grid::new("keys of show").num_columns(2).show(ui, |ui| {
                for entry in TABLE {
                    ui.add(Label::new(RichText::new(entry.keys).family(strong())).extend());
                    ui.vertical(|ui| {
                        ui.set_max_width(room);
                        ui.add(Label::new(entry.does).wrap());
                    });
                    ui.end_row();
                }
            });
        });
}
