//! What makes it safe to touch a machine, beside whatever the window shows.

use egui::{Label, RichText, Sense, Ui, WidgetText};

use super::lettering::{Lettering, strong};
use crate::analysis::{CAUTION, CAUTION_IN_A_LINE, CAUTION_IN_SHORT};

/// The caution in full.
pub fn caution_ui(ui: &mut Ui) {
    ui.label(RichText::new("Before you touch a unit").family(strong()));
    for sentence in CAUTION {
        ui.label(sentence);
    }
}

/// The caution in short, in fine print.
pub fn caution_in_short_ui(ui: &mut Ui) {
    for sentence in CAUTION_IN_SHORT {
        ui.label(Lettering::FinePrint.of(sentence).weak());
    }
}

/// The caution in one line, as much of it as there is room for; in full while the pointer rests on it.
pub fn caution_in_a_line_ui(ui: &mut Ui) {
    let text = |line: &str| WidgetText::from(Lettering::FinePrint.of(line).weak());
    let fits = |line: &&str| {
        let style = egui::TextStyle::Body;
        let laid =
            text(line).into_galley(ui, Some(egui::TextWrapMode::Extend), f32::INFINITY, style);
        laid.size().x <= ui.available_width()
    };
    match CAUTION_IN_A_LINE.into_iter().find(fits) {
        Some(line) => line_ui(ui, line),
        None => shortest_caution_ui(ui),
    }
}

/// The shortest caution, where something else stands in the same line.
pub fn shortest_caution_ui(ui: &mut Ui) {
    let [.., shortest] = CAUTION_IN_A_LINE;
    line_ui(ui, shortest);
}

fn line_ui(ui: &mut Ui, line: &str) {
    let label = Label::new(Lettering::FinePrint.of(line).weak());
    let label = ui.add(label.truncate().sense(Sense::hover()));
    label.on_hover_ui(|ui| {
        for sentence in CAUTION {
            ui.label(sentence);
        }
    });
}
