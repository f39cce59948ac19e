//! Trying an adjustment with one click, and taking it back with another.

use egui::{RichText, Ui};

use crate::analysis::Solved;
use crate::analysis::why::{Change, Knob};
use crate::app::desk::{self, Desk};
use crate::app::widgets::look::strong;
use crate::unit::{Document, Group};

/// A change to be tried.
pub struct Chosen {
    pub knob: Knob,
    pub change: Change,
    pub told: String,
}

/// The change that was tried last, and what it takes to go back.
#[derive(Debug, Default)]
pub struct Trial(Option<Tried>);

#[derive(Debug)]
struct Tried {
    before: Document,
    after: Document,
    told: String,
}

impl Trial {
    /// What was tried last, and the way back. The line stands there always: nothing may move under
    /// the hand.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        // Once something else was changed, going back would lose it.
        let document = desk.document();
        let tried = self.0.as_ref().filter(|tried| tried.after == *document);
        let is_undone = ui
            .horizontal(|ui| {
                ui.set_min_height(ui.spacing().interact_size.y);
                let Some(tried) = tried else {
                    let text =
                        "Every adjustment below can be tried with one click, and taken back here.";
                    ui.add(egui::Label::new(RichText::new(text).weak()).truncate());
                    return false;
                };
                let undo = ui.button("Undo");
                let text = RichText::new(&tried.told).family(strong());
                ui.add(egui::Label::new(text).truncate());
                undo.on_hover_text("Back to the unit as it was before this trial")
                    .clicked()
            })
            .inner;
        if is_undone && let Some(tried) = self.0.take() {
            let change = desk::Change::of("Trial taken back", desk::Part::All);
            desk.edit(change, |document| *document = tried.before);
        }
    }

    /// Tries a change.
    pub fn begin(&mut self, desk: &mut Desk, good: &Solved, chosen: Chosen) {
        let before = desk.document().clone();
        let system = desk.system();
        let Chosen { knob, change, told } = chosen;
        // The knobs set these parts, and no other.
        let named = desk::Change::of(knob.name(), Group::Setting)
            .and(Group::Mowing)
            .and(Group::Wear);
        desk.edit(named, |document| {
            change.put(knob, document, &good.solution, system);
        });
        let after = desk.document().clone();
        self.0 = Some(Tried {
            before,
            after,
            told,
        });
    }
}
