//! The table of knives.

use egui::Ui;

use super::App;

/// What the table remembers.
#[derive(Debug, Default)]
pub(super) struct TableState {}

impl App {
    pub(super) fn knife_table_ui(&mut self, ui: &mut Ui) {
        ui.heading("Knives");
        if let Some(worked_out) = &self.knives.worked_out {
            for sentence in &worked_out.ranking.sentences {
                ui.label(sentence);
            }
            for sentence in &worked_out.rests_on {
                ui.label(sentence);
            }
            ui.label(format!("{} rows", worked_out.rows.len()));
        }
    }
}
