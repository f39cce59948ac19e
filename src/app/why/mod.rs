//! The Why area: why a unit marks the turf, from the height budget to what each adjustment would do.

mod causes;
mod charts;
mod knobs;
mod sure;

use std::rc::Rc;

use egui::{RichText, ScrollArea, Ui};

use super::App;
use super::field::symbol;
use super::look::strong;
use super::session::Good;
use crate::analysis::why::{Aim, Complaint, CrestLimit, Why};
use crate::drawing::verdict;
use crate::unit::Document;
use crate::units::System;

/// What the area shows, worked out when an input changed and at no other time.
#[derive(Debug, Default)]
pub(super) struct WhyState {
    /// What `worked_out` belongs to: the session's generation, and what is asked.
    key: Option<(u64, Option<&'static str>, Aim)>,
    worked_out: Option<Rc<Why>>,
    finding: Option<&'static str>,
    aim: Aim,
    complaint: Option<Complaint>,
    charts: charts::ChartsState,
    tried: Option<Tried>,
}

/// A change that was tried, and what it takes to go back.
#[derive(Debug)]
struct Tried {
    before: Document,
    after: Document,
    told: String,
}

impl App {
    /// The whole area.
    pub(super) fn why_ui(&mut self, ui: &mut Ui) {
        let Some(good) = self.session.good().cloned() else {
            let theme = Self::theme(ui.ctx());
            self.nothing_drawn_ui(ui, theme);
            return;
        };
        self.work_out_why(&good);
        let Some(why) = self.why.worked_out.clone() else {
            return;
        };
        self.why_heading_ui(ui, &good);
        let is_current = self.why_not_current().is_none() && self.asking.is_none();
        ScrollArea::vertical()
            .id_salt("why")
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.add_enabled_ui(is_current, |ui| {
                    self.causes_ui(ui, &good);
                    ui.separator();
                    self.budget_ui(ui, &good, &why);
                    self.crests_ui(ui, &why);
                    ui.separator();
                    self.knobs_ui(ui, &good, &why);
                    ui.separator();
                    self.sure_ui(ui, &good, &why);
                });
                ui.add_space(8.0);
            });
    }

    fn work_out_why(&mut self, good: &Good) {
        let key = Some((good.generation, self.why.finding, self.why.aim));
        if self.why.key == key {
            return;
        }
        let why = Why::of(&good.document, &good.solved, self.why.finding, self.why.aim);
        self.why.worked_out = Some(Rc::new(why));
        self.why.key = key;
    }

    /// The verdict, or why what is shown is of an earlier entry.
    fn why_heading_ui(&self, ui: &mut Ui, good: &Good) {
        let theme = Self::theme(ui.ctx());
        let (level, text) = verdict(&good.solved.findings);
        let reason = self.why_not_current();
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(egui::Vec2::splat(26.0), egui::Sense::hover());
            let (level, text) = match &reason {
                Some(why) => (crate::analysis::Level::Over, format!("Not current. {why}")),
                None => (level, text),
            };
            symbol(ui, place, level, theme);
            let text = RichText::new(text).family(strong()).size(19.0);
            ui.add(egui::Label::new(text).truncate());
        });
    }

    fn crests_ui(&self, ui: &mut Ui, why: &Why) {
        let system = self.system();
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new("Crest to scalp").family(strong()));
            let reel = crest_text(why.crests.reel, "reel", system);
            let knife = crest_text(why.crests.underside, "underside", system);
            ui.label(format!("{reel} {knife}"));
        })
        .response
        .on_hover_text("The tightest crest on which both rollers rest and the reel, or the knife, just touches the ground, the rollers' sink included. Measure a crown with a straightedge: see Ground in the form.");
    }
}

fn crest_text(limit: CrestLimit, part: &str, system: System) -> String {
    match limit {
        CrestLimit::TouchesOnLevel => {
            format!("The {part} touches the ground on the level already.")
        }
        CrestLimit::Radius(radius) => format!(
            "The {part} clears every crest wider than {} and touches on tighter ones.",
            system.radius(radius)
        ),
        CrestLimit::ClearsAll => {
            format!("The {part} clears every crest that carries both rollers.")
        }
    }
}
