//! The mark of a field that holds an example.

use egui::{Button, Color32, Frame, Margin, Stroke, Ui};

use super::field::Fields;
use crate::analysis::Level;
use crate::app::desk::{Change, Slot};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::colour;
use crate::unit::{Document, Field};

impl Fields<'_> {
    /// That a field holds an example, to be kept by a click.
    pub fn mark_ui(&mut self, ui: &mut Ui, name: &str, field: Field, document: &mut Document) {
        if !field.is_example(document) {
            return;
        }
        let ink = colour(self.theme.level(Level::Watch));
        let text = Lettering::Label.of("example?");
        let button = Button::new(text)
            .small()
            .stroke(Stroke::new(1.0, ink))
            .fill(Color32::TRANSPARENT);
        let response = ui
            .add(button)
            .accessible_name(format!("{name}: an example, keep it as mine"));
        self.marks.push(response.id);
        if response.clicked() {
            document.examples.keep(field);
            self.set(Change::of(format!("Kept {}", name.to_lowercase()), field));
        }
        response.on_hover_text(
            "Nobody has measured this on your unit yet. Type your own reading over it; or click if yours is the same, to keep it.",
        );
    }
    /// That a field of a card holds an example.
    pub fn card_mark_ui(&self, ui: &mut Ui, slot: Slot) {
        if self.is_example(slot) {
            let ink = colour(self.theme.level(Level::Watch));
            let help = "Nobody has measured this on your unit yet. Type your own reading over it, even if it is the same.";
            // Amber is too pale for words: it frames them.
            Frame::new()
                .stroke(Stroke::new(1.0, ink))
                .corner_radius(3.0)
                .inner_margin(Margin::symmetric(4, 0))
                .show(ui, |ui| ui.label(Lettering::Label.of("example")))
                .inner
                .on_hover_text(help);
        }
    }
}
