//! The start card: what to do first, shown on the first start.

use egui::RichText;

use super::App;
use super::card::card;
use super::files::Asking;
use super::look::strong;
use crate::drawing::CAUTIONS;

const STEPS: [(&str, &str); 4] = [
    (
        "1  Measure",
        "Stand the unit on the surface plate and type its bench measurements into the form on the left. Rest the pointer on a name to see what it means and how it is measured.",
    ),
    (
        "2  Try",
        "Drag attitude, reel diameter and extension, or the diamonds on the drawing. Choose a knife and a height of cut.",
    ),
    (
        "3  Look",
        "The lens shows how deep the reel sweeps below the cut line. Turn the wheel to zoom, drag to move, double-click to fit. The verdict above the drawing says whether that is too much, and the findings say what would bring it back.",
    ),
    (
        "4  Set",
        "Read how far each roller has to move, set it on the plate, measure again. To show it to others: Drawing only, and Ctrl with + and - for the size of everything.",
    ),
];

impl App {
    /// The card, when it is open.
    pub(super) fn start_card_ui(&mut self, ctx: &egui::Context) {
        if !self.is_start_card_open {
            return;
        }
        let mut is_done = false;
        let mut opens_file = false;
        let modal = card(ctx, "start card", 560.0, |ui| {
            ui.label(
                RichText::new("Will this unit scalp?")
                    .family(strong())
                    .size(22.0),
            );
            ui.label("Sweepgauge draws a cutting unit to scale and computes how deep its reel sweeps below the height of cut.");
            let is_demo = self.session.file.is_none();
            if is_demo {
                ui.label("A demo unit is open to try it on.");
            }
            ui.add_space(8.0);
            for (name, text) in STEPS {
                ui.label(RichText::new(name).family(strong()).size(15.0));
                ui.label(text);
                ui.add_space(4.0);
            }
            ui.separator();
            ui.label(RichText::new("Before you touch a unit").family(strong()));
            for caution in &CAUTIONS[..3] {
                ui.label(*caution);
            }
            ui.add_space(10.0);
            ui.horizontal(|ui| {
                let go_on = if is_demo {
                    "Try the demo unit"
                } else {
                    "Go to the unit"
                };
                is_done = ui.button(go_on).clicked();
                opens_file = ui.button("Open a unit file…").clicked();
            });
        });
        if is_done || opens_file || modal.should_close() {
            self.is_start_card_open = false;
            self.preferences.has_seen_start_card = true;
        }
        if opens_file {
            self.ask_first(Asking::Choose);
        }
    }
}
