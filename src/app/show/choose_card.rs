//! The card on which the numbers and the slider of Show are chosen.

use egui::{ScrollArea, Ui};

use crate::analysis::NumberId;
use crate::app::desk::{Card, Desk, Next, ShowChoices};
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;
use crate::lesson::Turned;

/// Paper around what scrolls on a card.
const AROUND: f32 = 230.0;

/// The card to choose on.
pub(super) struct ChooseCard;

impl Card for ChooseCard {
    fn name(&self) -> &'static str {
        "what a room sees"
    }

    fn width(&self) -> f32 {
        580.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("What a room sees"));
        let known = desk.good().map(|good| {
            let numbers = good.solution.numbers();
            let is_known = |id: &NumberId| numbers.value(*id).is_some();
            NumberId::KEY.into_iter().filter(is_known).collect()
        });
        let known: Vec<NumberId> = known.unwrap_or_default();
        let choices = &mut desk.preferences_mut().show;
        let most = (ui.ctx().content_rect().height() - AROUND).max(180.0);
        ScrollArea::vertical().max_height(most).show(ui, |ui| {
            let followed = Followed::begin(ui);
            ui.columns(2, |columns| {
                let [left, right] = columns else { return };
                left.label(Lettering::Name.of("Numbers in large digits, one to four"));
                numbers_ui(left, choices, &known);
                right.label(Lettering::Name.of("Slider"));
                for turned in Turned::ALL {
                    right.radio_value(&mut choices.slider, Some(turned), turned.name());
                }
                right.radio_value(&mut choices.slider, None, "None");
                let note =
                    "Turning it changes what is shown and no unit: it goes back when Show ends.";
                right.label(Lettering::Note.of(note).weak());
            });
            followed.bring_in(ui);
        });
        ui.add_space(8.0);
        closed(ui)
    }
}

fn numbers_ui(ui: &mut Ui, choices: &mut ShowChoices, known: &[NumberId]) {
    let chosen = choices.numbers();
    for id in known {
        let mut is_in = chosen.contains(id);
        let may = if is_in {
            chosen.len() > 1
        } else {
            chosen.len() < ShowChoices::MOST
        };
        ui.add_enabled_ui(may, |ui| {
            if ui.checkbox(&mut is_in, id.title()).changed() {
                choices.set(*id, is_in);
            }
        });
    }
}

fn closed(ui: &mut Ui) -> Next {
    if ui.button("Close").clicked() {
        Next::Close
    } else {
        Next::Stay
    }
}
