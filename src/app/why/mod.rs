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
use crate::analysis::uncertainty::{Contribution, off_in_words};
use crate::analysis::why::{Aim, Cause, Complaint, CrestLimit, Why, causes, pitches};
use crate::analysis::{Findings, Judged, Output, Solved, SolvedId};
use crate::drawing::verdict;
use crate::unit::Document;
use crate::units::System;

/// What the area shows, worked out when an input changed and at no other time.
#[derive(Debug, Default)]
pub(super) struct WhyState {
    key: Option<Key>,
    worked_out: Option<Rc<WorkedOut>>,
    finding: Option<&'static str>,
    aim: Aim,
    complaint: Option<Complaint>,
    charts: charts::ChartsState,
    tried: Option<Tried>,
}

/// What is worked out depends on what was solved, on what is asked and on the units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Key {
    solved: SolvedId,
    finding: Option<&'static str>,
    aim: Aim,
    complaint: Option<Complaint>,
    system: System,
}

/// Everything the area shows.
#[derive(Debug)]
struct WorkedOut {
    why: Why,
    /// What can make the mark that was chosen, the strongest first.
    causes: Vec<Cause>,
    /// At what distances marks come back, in words.
    marks: String,
    /// What each number that is judged is about, by its finding.
    judged: Vec<(&'static str, &'static str, Judged)>,
    /// The numbers with their ± in words.
    off: Vec<(&'static str, String)>,
    /// The readings to measure better first, for each output in turn.
    improve: Vec<(Output, Vec<Contribution>)>,
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
        let Some(worked_out) = self.why.worked_out.clone() else {
            return;
        };
        self.why_heading_ui(ui, &good);
        // Also while a trial has left nothing to show: this is the way back.
        self.tried_ui(ui);
        let is_current = self.why_not_current().is_none() && self.asking.is_none();
        ScrollArea::vertical()
            .id_salt("why")
            .auto_shrink(false)
            .show(ui, |ui| {
                // The scroll bar floats over what stands at the edge.
                ui.set_max_width(ui.available_width() - 12.0);
                ui.add_enabled_ui(is_current, |ui| {
                    self.causes_ui(ui, &worked_out);
                    ui.separator();
                    self.budget_ui(ui, &good, &worked_out.why);
                    self.crests_ui(ui, &worked_out.why);
                    ui.separator();
                    self.knobs_ui(ui, &good, &worked_out);
                    ui.separator();
                    self.sure_ui(ui, &good, &worked_out);
                });
                ui.add_space(8.0);
            });
    }

    fn work_out_why(&mut self, good: &Solved) {
        let key = Key {
            solved: good.id,
            finding: self.why.finding,
            aim: self.why.aim,
            complaint: self.why.complaint,
            system: self.system(),
        };
        if self.why.key != Some(key) {
            self.why.worked_out = Some(Rc::new(WorkedOut::of(good, key)));
            self.why.key = Some(key);
        }
    }

    /// The verdict, or why what is shown is of an earlier entry.
    fn why_heading_ui(&self, ui: &mut Ui, good: &Solved) {
        let theme = Self::theme(ui.ctx());
        let (level, text) = verdict(&good.findings);
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

impl WorkedOut {
    fn of(solved: &Solved, key: Key) -> Self {
        let case = solved.case();
        let why = Why::of(solved, key.finding, key.aim);
        let marks: Vec<_> = pitches(&case)
            .into_iter()
            .map(|(name, pitch)| format!("{name} {}", key.system.length(pitch)))
            .collect();
        let mut improve = vec![Findings::output_of(why.finding).unwrap_or(Output::SweepBelowCut)];
        if improve[0] != Output::SweepBelowCut {
            improve.push(Output::SweepBelowCut);
        }
        Self {
            why,
            causes: key
                .complaint
                .map_or_else(Vec::new, |complaint| causes(&case, complaint)),
            marks: marks.join(", "),
            judged: Findings::all_judged(&case)
                // No adjustment makes a worn reel larger.
                .filter(|(id, ..)| *id != "scrap")
                .collect(),
            off: off_in_words(solved, key.system),
            improve: improve
                .into_iter()
                .map(|output| (output, solved.uncertainty.ranking(output)))
                .collect(),
        }
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
