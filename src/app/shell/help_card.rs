//! What the field in hand means, on a card: for whoever has the keys and no pointer.

use egui::Ui;

use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::help::help_ui;
use crate::app::widgets::lettering::Lettering;
use crate::unit::Field;

/// The card.
pub struct HelpCard(pub Field);

impl Card for HelpCard {
    fn name(&self) -> &'static str {
        "help"
    }

    fn width(&self) -> f32 {
        460.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        help_ui(ui, self.0);
        let shown = self.0.shown_in(desk.document(), desk.system());
        if let Some(shown) = shown.filter(|shown| !shown.is_empty()) {
            ui.add_space(4.0);
            ui.label(Lettering::Name.of(format!("Now {shown}")));
        }
        ui.add_space(8.0);
        if ui.button("Close").clicked() {
            Next::Close
        } else {
            Next::Stay
        }
    }
}
