//! The start card: what to do first, shown on the first start.

use egui::{RichText, Ui};

use crate::app::desk::{Card, Desk, Next};
use crate::app::files::{Asking, ask_first};
use crate::app::widgets::lettering::{Lettering, strong};
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

/// The card.
pub struct StartCard;

impl Card for StartCard {
    fn name(&self) -> &'static str {
        "start card"
    }

    fn width(&self) -> f32 {
        560.0
    }

    fn takes_keys(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::Title.of("Will this unit scalp?"));
        ui.label("Sweepgauge draws a cutting unit to scale and computes how deep its reel sweeps below the height of cut.");
        let is_demo = desk.session().file().is_none();
        if is_demo {
            ui.label("A demo unit is open to try it on.");
        }
        ui.add_space(8.0);
        for (name, text) in STEPS {
            ui.label(Lettering::Name.of(name));
            ui.label(text);
            ui.add_space(4.0);
        }
        ui.separator();
        ui.label(RichText::new("Before you touch a unit").family(strong()));
        for caution in &CAUTIONS[..3] {
            ui.label(*caution);
        }
        ui.add_space(10.0);
        let (is_done, opens_file) = ui
            .horizontal(|ui| {
                let go_on = if is_demo {
                    "Try the demo unit"
                } else {
                    "Go to the unit"
                };
                (
                    ui.button(go_on).clicked(),
                    ui.button("Open a unit file…").clicked(),
                )
            })
            .inner;
        if !is_done && !opens_file {
            return Next::Stay;
        }
        let next = self.put_away(desk);
        if opens_file {
            ask_first(desk, Asking::Choose);
        }
        next
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        desk.preferences_mut().has_seen_start_card = true;
        Next::Close
    }
}
