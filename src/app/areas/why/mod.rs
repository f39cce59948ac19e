//! The Why area: why a unit marks the turf, from the height budget to what each adjustment would do.

mod causes;
mod charts;
mod knobs;
mod trial;
mod uncertainty;
mod worked_out;

use std::rc::Rc;

use egui::{Align, CentralPanel, Key, RichText, ScrollArea, Ui};

use self::causes::causes_ui;
use self::charts::ChartsState;
use self::knobs::knobs_ui;
use self::trial::Trial;
use self::uncertainty::how_sure_ui;
use self::worked_out::{Asked, WorkedOut};
use super::not_current::nothing_drawn_ui;
use super::{About, Area};
use crate::analysis::why::{Complaint, Goal, Why};
use crate::analysis::{FindingId, Level, Solved};
use crate::app::desk::{Desk, PerSession};
use crate::app::widgets::examples::still_examples_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::verdict::verdict_ui;
use crate::drawing::PictureView;
use crate::drawing::verdict;
use crate::units::System;

pub const ABOUT: About = About {
    id: "why",
    title: "Why",
    purpose: "Why it marks the turf, and what each adjustment would do",
    key: Key::Num3,
    picture: Some(PictureView::Budget),
};

/// The area. What is asked belongs to the session.
#[derive(Debug, Default)]
pub struct WhyArea {
    state: PerSession<State>,
}

/// What is asked, and what was worked out for it.
#[derive(Debug, Default)]
struct State {
    finding: Option<FindingId>,
    goal: Goal,
    complaint: Option<Complaint>,
    /// The distance from mark to mark, as typed.
    spacing: String,
    worked_out: Kept<Asked, Rc<WorkedOut>>,
    charts: ChartsState,
    trial: Trial,
}

impl Area for WhyArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let state = self.state.front(desk, State::default);
        CentralPanel::default_margins().show(ui, |ui| state.show(ui, desk));
    }
}

impl State {
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let Some(good) = desk.good().cloned() else {
            nothing_drawn_ui(ui, desk);
            return;
        };
        let system = desk.system();
        let worked_out = self.work_out(&good, system);
        heading_ui(ui, desk, &good);
        // Also while a trial has left nothing to show: this is the way back.
        self.trial.show(ui, desk);
        let is_current = desk.why_not_current().is_none() && !desk.is_asking();
        let (mut chosen, mut leads_to_cure) = (None, false);
        ScrollArea::vertical()
            .id_salt("why")
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                // The scroll bar floats over what stands at the edge.
                ui.set_max_width(ui.available_width() - 12.0);
                ui.add_enabled_ui(is_current, |ui| {
                    let seen = (&mut self.complaint, &mut self.spacing);
                    if let Some(cure) = causes_ui(ui, seen, (&good, &worked_out), system) {
                        self.finding = Some(cure);
                        leads_to_cure = true;
                    }
                    ui.separator();
                    self.charts.show(ui, &good, &worked_out.why, system);
                    crests_ui(ui, &worked_out.why, system);
                    ui.separator();
                    if leads_to_cure {
                        ui.scroll_to_cursor(Some(Align::TOP));
                    }
                    let asked = (&mut self.finding, &mut self.goal);
                    chosen = knobs_ui(ui, &good, &worked_out, asked, system);
                    ui.separator();
                    how_sure_ui(ui, &good, &worked_out, system);
                });
                ui.add_space(8.0);
                followed.bring_in(ui);
            });
        if let Some(chosen) = chosen {
            // What was asked stays asked, also when it is not the worst any more.
            self.finding = Some(worked_out.why.finding);
            self.trial.begin(desk, &good, chosen);
        }
    }

    fn work_out(&mut self, good: &Solved, system: System) -> Rc<WorkedOut> {
        let asked = Asked {
            solved: good.id,
            finding: self.finding,
            goal: self.goal,
            complaint: self.complaint,
            system,
        };
        let made = |asked: &Asked| Rc::new(WorkedOut::of(good, asked));
        self.worked_out.get(asked, made).clone()
    }
}

/// The verdict, or why what is shown is of an earlier entry.
fn heading_ui(ui: &mut Ui, desk: &Desk, good: &Solved) {
    let theme = theme(ui.ctx());
    let (level, text) = verdict(&good.findings, good.document.example_count());
    let reason = desk.why_not_current();
    let (level, text) = match &reason {
        Some(why) => (Level::Over, format!("Not current. {why}")),
        None => (level, text),
    };
    verdict_ui(ui, (level, &text), Lettering::Headline, theme);
    still_examples_ui(ui, desk.document().example_count());
}

fn crests_ui(ui: &mut Ui, why: &Why, system: System) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Tightest crest").family(strong()));
        let reel = why.crests.reel.told_of("reel", system);
        let knife = why.crests.underside.told_of("underside", system);
        ui.label(format!("{reel} {knife}"));
    })
    .response
    .on_hover_text("The tightest crest on which both rollers rest and the reel, or the knife, just touches the ground, roller sink included. Measure a high spot with a straightedge: see Ground in the form.");
}
