//! Trying an adjustment with one click, and taking it back with another.

use egui::{RichText, Ui};

use crate::analysis::Solved;
use crate::analysis::why::{Change, Knob};
use crate::app::desk::{self, Desk, StepId};
use crate::app::widgets::words::within_line;
use crate::unit::Group;

use crate::app::widgets::lettering::strong;
/// A change to be tried.
pub struct Chosen {
    pub knob: Knob,
    pub change: Change,
    pub told: String,
}

/// The change that was tried last.
#[derive(Debug, Default)]
pub struct Trial(Option<Tried>);

#[derive(Debug)]
struct Tried {
    step: StepId,
    told: String,
}

impl Trial {
    /// What was tried last, and the way back. The line stands there always: nothing may move under
    /// the hand.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        // Once something else was changed, that would be taken back first.
        let newest = desk.newest_step_of_document();
        let tried = self.0.as_ref().filter(|tried| newest == Some(tried.step));
        let undone = ui
            .horizontal(|ui| {
                ui.set_min_height(ui.spacing().interact_size.y);
                let Some(tried) = tried else {
                    let text =
                        "Each adjustment below can be tried with one click, and undone here.";
                    ui.add(egui::Label::new(RichText::new(text).weak()).truncate());
                    return None;
                };
                let undo = ui.button("Undo");
                let text = RichText::new(&tried.told).family(strong());
                ui.add(egui::Label::new(text).truncate());
                let undo = undo.on_hover_text("Back to the unit as it was before this trial");
                undo.clicked().then_some(tried.step)
            })
            .inner;
        if let Some(step) = undone {
            desk.undo_through(step);
        }
    }

    /// Tries a change.
    pub fn begin(&mut self, desk: &mut Desk, good: &Solved, chosen: Chosen) {
        let system = desk.system();
        let Chosen { knob, change, told } = chosen;
        // The knobs set these parts, and no other.
        let name = format!("Trial of {}", within_line(knob.name()));
        let named = desk::Change::of(name, Group::Setting)
            .and(Group::Mowing)
            .and(Group::Wear);
        let before = desk.newest_step_of_document();
        desk.edit(named, |document| {
            change.put(knob, document, &good.solution, system);
        });
        // A trial that changes nothing is no step.
        let step = desk
            .newest_step_of_document()
            .filter(|step| Some(*step) != before);
        self.0 = step.map(|step| Tried { step, told });
    }
}
