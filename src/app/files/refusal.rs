//! Why what a card asked for was refused: the notice stands under the card, so the card says it itself.

use egui::{Label, Sense, Ui, Vec2};

use crate::analysis::Level;
use crate::app::desk::Desk;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;

/// What was told of a problem since a card was first shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Refusal {
    /// How many notices there were when the card was last shown.
    told: Option<u64>,
    why: Option<String>,
}

impl Refusal {
    /// Listens for what was told since it last did; whether there is a new problem.
    pub fn hear(&mut self, desk: &Desk) -> bool {
        let told = desk.notices().told();
        let is_new = self.told.is_some_and(|heard| heard != told);
        self.told = Some(told);
        if is_new {
            let newest = desk.notices().kept().next();
            let problem = newest.filter(|notice| notice.is_problem);
            self.why = problem.map(|notice| notice.text.clone());
        }
        is_new && self.why.is_some()
    }

    /// Why it was refused.
    pub fn why(&self) -> Option<&str> {
        self.why.as_deref()
    }

    /// Something else is to be tried.
    pub fn forget(&mut self) {
        self.why = None;
    }

    /// Says why it was refused, if it was.
    pub fn show(&self, ui: &mut Ui) {
        if let Some(why) = self.why() {
            refused_ui(ui, why);
        }
    }
}

/// The sign of a problem, and why.
pub(super) fn refused_ui(ui: &mut Ui, why: &str) {
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
        symbol(ui, place, Level::Over, theme(ui.ctx()));
        ui.add(Label::new(why).wrap());
    });
}
