//! The window map.

use egui::Ui;

use super::App;

/// What the map remembers.
#[derive(Debug, Default)]
pub(super) struct MapState {}

impl App {
    pub(super) fn window_map_ui(&mut self, ui: &mut Ui) {
        ui.heading("Window map");
        let _ = (&self.knives.map, &self.knives.table);
        if let Some(worked_out) = &self.knives.worked_out {
            ui.label(format!("{:?}", worked_out.trial));
        }
    }
}
