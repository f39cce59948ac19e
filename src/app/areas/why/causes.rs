//! The complaint, and which of the unit's mechanisms can make such a mark.

use egui::{RichText, Sense, Ui, Vec2};

use super::worked_out::WorkedOut;
use crate::analysis::Level;
use crate::analysis::why::{Cause, Complaint, Strength};
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::units::System;

pub fn causes_ui(
    ui: &mut Ui,
    asked: &mut Option<Complaint>,
    worked_out: &WorkedOut,
    system: System,
) {
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
        let text = "Choose the mark that the turf shows: the unit's own numbers tell what can make it, and what to measure to be sure.";
        ui.label(RichText::new(text).weak());
        return;
    };
    let found = &worked_out.causes;
    if !found.iter().any(|cause| cause.strength.has_part()) {
        let text = if found.iter().any(|c| c.strength == Strength::NotMeasured) {
            "Not explained by this geometry, as far as it is measured."
        } else {
            "Not explained by this geometry."
        };
        ui.label(Lettering::Heading.of(text));
    }
    for cause in found {
        cause_ui(ui, cause, system);
    }
    if complaint.comes_back() {
        let text = format!("From mark to mark on the turf: {}.", worked_out.marks);
        ui.label(text);
    }
    ui.label(RichText::new(complaint.outside()).weak());
}

fn cause_ui(ui: &mut Ui, cause: &Cause, system: System) {
    let theme = theme(ui.ctx());
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
        match cause.strength {
            Strength::NotMeasured => {
                let ink = ui.visuals().weak_text_color();
                let painter = ui.painter();
                painter.circle_stroke(place.center(), 7.5, egui::Stroke::new(1.6, ink));
                let font = Lettering::Sign.font();
                let middle = egui::Align2::CENTER_CENTER;
                painter.text(place.center(), middle, "?", font, ink);
            }
            strength if strength.makes_it() => symbol(ui, place, Level::Over, theme),
            strength if strength.has_part() => symbol(ui, place, Level::Watch, theme),
            Strength::Known(_) => symbol(ui, place, Level::Fine, theme),
        }
        ui.vertical(|ui| {
            let share = cause.share().map_or(String::new(), |share| {
                let percent = share.of_one().min(9.99) * 100.0;
                format!(", {percent:.0} % of what it takes")
            });
            let title = format!("{}: {}{share}", cause.name, cause.strength.word());
            ui.label(RichText::new(title).family(strong()));
            ui.label(cause.text.shown_in(system));
            ui.label(RichText::new(format!("To confirm: {}", cause.confirm)).weak());
        });
    });
    ui.add_space(3.0);
}
