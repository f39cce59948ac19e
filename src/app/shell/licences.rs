//! The licences of the crates that the program is built from.

use egui::{Label, RichText, ScrollArea, TextStyle, Ui};

use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::Lettering;

/// The crates with their licences, and the licences' texts.
const LICENCES: &str = include_str!("../../../assets/licences.txt");

/// The page.
pub struct LicencesCard {
    lines: Vec<&'static str>,
}

impl LicencesCard {
    /// The page with every line there is.
    pub fn new() -> Self {
        Self {
            lines: LICENCES.lines().collect(),
        }
    }
}

impl Card for LicencesCard {
    fn name(&self) -> &'static str {
        "licences"
    }

    fn width(&self) -> f32 {
        700.0
    }

    fn takes_keys(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, _desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Licences"));
        let height = ui.text_style_height(&TextStyle::Monospace);
        // Thousands of lines: those in view are laid out, and no other.
        ScrollArea::both()
            .max_height(440.0)
            .auto_shrink(false)
            .show_rows(ui, height, self.lines.len(), |ui, rows| {
                for line in &self.lines[rows] {
                    ui.add(Label::new(RichText::new(*line).monospace()).extend());
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
