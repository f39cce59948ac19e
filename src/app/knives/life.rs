//! The life plots.

use egui::Ui;

use super::App;

/// What the plots remember.
#[derive(Debug, Default)]
pub(super) struct LifeState {}

impl App {
    pub(super) fn life_ui(&mut self, ui: &mut Ui) {
        ui.heading("Through the reel's life");
        let _ = &self.knives.life;
    }
}
