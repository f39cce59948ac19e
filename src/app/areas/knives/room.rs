//! How much room a picture of knives has: all it wants, or what a pane has left.

use egui::Ui;

/// The room for a picture of knives with what stands over and under it.
#[derive(Clone, Copy, Debug)]
pub enum PictureRoom {
    /// As high as it is drawn at best, on a page that is scrolled.
    Page,
    /// What a pane has down to a height of the screen: all of it is seen without scrolling.
    PaneDownTo(f32),
}

impl PictureRoom {
    /// Whether it is a pane, whose tab is its heading.
    pub fn is_pane(self) -> bool {
        matches!(self, Self::PaneDownTo(_))
    }

    /// How high a picture is drawn from here on: `best` at the most, with so much left under it.
    pub fn height(self, ui: &Ui, best: f32, under: f32) -> f32 {
        /// Lower than this nothing is read off a picture.
        const LEAST: f32 = 130.0;
        match self {
            Self::Page => best,
            Self::PaneDownTo(foot) => (foot - under - ui.cursor().top()).clamp(LEAST, best),
        }
    }
}
