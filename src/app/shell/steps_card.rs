//! The first steps with a unit.

use egui::{ScrollArea, Ui};

use crate::app::desk::{Beneath, Card, Desk, Next, OpenCard};
use crate::app::widgets::caution::caution_ui;
use crate::app::widgets::lettering::Lettering;

const STEPS: [(&str, &str); 4] = [
    (
        "1  Measure",
        "Stand the unit on the surface plate and type its readings under 1 As measured, in the form on the left. Rest the pointer on a name to see what it means and how it is measured.",
    ),
    (
        "2  Try",
        "Under 2 As wanted drag height of cut, attitude, reel diameter and edge forward, or the diamonds on the drawing. Choose a knife.",
    ),
    (
        "3  Look",
        "The lens shows how deep the reel sweeps below the cut line. Turn the wheel to zoom, drag to move, double-click to show all. The verdict above the drawing says whether that is too much, and the findings say what would bring it back.",
    ),
    (
        "4  Set",
        "Read how far each roller has to move, set it on the plate with engine off, key out, reel drive disconnected, unit and reel blocked, gloves on, and measure again. To show it to others: Drawing only, and Ctrl with + and - for the size of everything.",
    ),
];

/// What a window needs above and below the steps.
const AROUND: f32 = 150.0;

/// The card. It comes back to the one it was opened over.
#[derive(Default)]
pub struct StepsCard {
    beneath: Beneath,
}

impl StepsCard {
    /// Over a card that comes back afterwards.
    pub fn over(card: OpenCard) -> Self {
        Self {
            beneath: Beneath::of(card),
        }
    }
}

impl Card for StepsCard {
    fn name(&self) -> &'static str {
        "first steps"
    }

    fn width(&self) -> f32 {
        560.0
    }

    fn takes_keys(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("First steps"));
        ui.add_space(6.0);
        // The button stays in view in a low window.
        let room = (ui.ctx().content_rect().height() - AROUND).max(80.0);
        ScrollArea::vertical().max_height(room).show(ui, |ui| {
            // The scroll bar floats over what stands at the edge.
            ui.set_max_width(ui.available_width() - 8.0);
            for (name, text) in STEPS {
                ui.label(Lettering::Name.of(name));
                ui.label(text);
                ui.add_space(4.0);
            }
            ui.separator();
            caution_ui(ui);
        });
        ui.add_space(10.0);
        if ui.button("Close").clicked() {
            self.put_away(desk)
        } else {
            Next::Stay
        }
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        self.beneath.put_back(desk);
        Next::Close
    }
}
