//! The Unit area: the unit on screen, with findings and numbers under the drawing.

mod canvas;
mod handle;
mod handles;
mod held_handle;
mod numbers;

use egui::{CentralPanel, Key, Panel, Ui};

use self::canvas::CanvasState;
use self::numbers::{FindingsState, numbers_ui};
use super::{About, Area};
use crate::app::desk::{Desk, PerSession};
use crate::drawing::PictureView;

pub const ABOUT: About = About {
    id: "unit",
    title: "Unit",
    purpose: "The unit on screen",
    key: Key::Num1,
    picture: Some(PictureView::Whole),
};

/// What the area holds besides the numbers: the least drawing, with verdict and tools over it.
const AROUND: f32 = 391.0;
/// The area in which a knife that a finding names is compared.
const KNIVES: &str = "knives";
/// The least height of the numbers.
const LEAST_NUMBERS: f32 = 94.0;

/// The area. How the drawing is looked at belongs to the session.
#[derive(Debug, Default)]
pub struct UnitArea {
    canvas: PerSession<CanvasState>,
    findings: FindingsState,
}

impl Area for UnitArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let begin = || CanvasState::for_document(desk.document());
        let canvas = self.canvas.front(desk, begin);
        canvas.take_handles(ui, desk);
        if !canvas.is_alone {
            // What the bars leave, in one row or two.
            let height = ui.available_height();
            // However high they were drawn in a larger window, the drawing keeps its room.
            let most = (height - AROUND).clamp(LEAST_NUMBERS, 460.0);
            let to_knives = Panel::bottom("numbers")
                .default_size((0.29 * height).clamp(150.0, 330.0))
                .size_range(LEAST_NUMBERS..=most)
                .resizable(true)
                .show(ui, |ui| numbers_ui(ui, desk, &mut self.findings));
            if to_knives.inner {
                desk.want_area(KNIVES);
            }
        }
        CentralPanel::default_margins().show(ui, |ui| canvas.show(ui, desk));
    }

    fn has_form(&self, desk: &Desk) -> bool {
        let canvas = self.canvas.front_if_begun(desk);
        !canvas.is_some_and(|canvas| canvas.is_alone)
    }
}
