//! The complaint, and which of the unit's mechanisms can make such a mark.

use egui::{RichText, Sense, Ui, Vec2};

use super::worked_out::WorkedOut;
use crate::analysis::why::{Cause, Complaint, Cure, Strength, spacing_told};
use crate::analysis::{FindingId, Level, Solved};
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::units::{Length, Measure as _, Quantity, System};

pub fn causes_ui(
    ui: &mut Ui,
    (asked, spacing): (&mut Option<Complaint>, &mut String),
    (good, worked_out): (&Solved, &WorkedOut),
    system: System,
) -> Option<FindingId> {
    ui.heading("What is wrong with the turf?");
    ui.horizontal_wrapped(|ui| {
        for complaint in Complaint::ALL {
            let is_chosen = *asked == Some(complaint);
            let button = egui::Button::selectable(is_chosen, complaint.name());
            if ui.add(button.frame_when_inactive(true)).clicked() {
                *asked = (!is_chosen).then_some(complaint);
            }
        }
    });
    let Some(complaint) = *asked else {
        let text = "Choose the mark that the turf shows: the unit's own numbers say what can make it, and what to measure to be sure.";
        ui.label(RichText::new(text).weak());
        return None;
    };
    ui.label(complaint.look_first());
    if complaint.comes_back() {
        let text = format!("From mark to mark on the turf: {}.", worked_out.marks);
        ui.label(text);
        spacing_ui(ui, spacing, good, system);
    }
    let found = &worked_out.causes;
    if !found.iter().any(|cause| cause.strength.has_part()) {
        let text = if found.iter().any(|c| c.strength == Strength::NotMeasured) {
            "Not explained by this geometry with what has been measured."
        } else {
            "Not explained by this geometry."
        };
        ui.label(Lettering::Heading.of(text));
    }
    ui.label(RichText::new(complaint.order()).weak());
    let mut cure = None;
    for cause in found {
        cure = cause_ui(ui, cause, good, system).or(cure);
    }
    ui.label(RichText::new(complaint.outside()).weak());
    cure
}

/// The distance from mark to mark, and what comes round as far.
fn spacing_ui(ui: &mut Ui, spacing: &mut String, good: &Solved, system: System) {
    ui.horizontal_wrapped(|ui| {
        let label = ui.label("Measured from mark to mark");
        ui.add(egui::TextEdit::singleline(spacing).desired_width(90.0))
            .labelled_by(label.id);
        if spacing.trim().is_empty() {
            return;
        }
        let unit = Length::unit_in(system).0;
        let told = match Quantity::<Length>::typed(spacing, unit) {
            Ok(spacing) => spacing_told(&good.case(), spacing.value(), system),
            Err(problem) => problem.to_string(),
        };
        ui.label(told);
    });
}

/// A cause; the finding whose adjustments cure it, when they are asked for.
fn cause_ui(ui: &mut Ui, cause: &Cause, good: &Solved, system: System) -> Option<FindingId> {
    let theme = theme(ui.ctx());
    let examples = good.document.example_count();
    let mut asked = None;
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
        match cause.level(&good.findings) {
            None => {
                let ink = ui.visuals().weak_text_color();
                let painter = ui.painter();
                painter.circle_stroke(place.center(), 7.5, egui::Stroke::new(1.6, ink));
                let font = Lettering::Sign.font();
                let middle = egui::Align2::CENTER_CENTER;
                painter.text(place.center(), middle, "?", font, ink);
            }
            Some(level) => symbol(ui, place, level.resting_on(examples), theme),
        }
        ui.vertical(|ui| {
            let share = cause.share_told();
            let title = format!("{}: {}{share}", cause.name, cause.strength.word());
            ui.label(RichText::new(title).family(strong()));
            ui.label(cause.text.shown_in(system));
            ui.label(RichText::new(format!("To confirm: {}", cause.confirm)).weak());
            match cause.cure_by(&good.findings) {
                // What plays no part needs no cure.
                _ if !cause.can_be_cured() => {}
                Cure::Other(told) => {
                    ui.label(RichText::new(format!("To cure: {told}")).weak());
                }
                // Within its limits there is room left, and every way to use it up makes it worse.
                Cure::Adjustments(finding) if is_ok(good, finding) => {
                    ui.label(RichText::new(cause.way_on(finding)).weak());
                }
                Cure::Adjustments(finding) => {
                    let button = ui
                        .small_button("What would cure it")
                        .on_hover_text("Work out the adjustments below for it")
                        .accessible_name(format!("What would cure {}", cause.name));
                    asked = button.clicked().then_some(finding);
                }
            }
        });
    });
    ui.add_space(3.0);
    asked
}

/// Whether a finding keeps every limit it has.
fn is_ok(good: &Solved, finding: FindingId) -> bool {
    good.findings.level_of(finding) == Some(Level::Fine)
}
