//! How sure the numbers are, and which reading to measure better first.

use egui::{Align, Grid, Layout, RichText, Ui};

use super::worked_out::WorkedOut;
use crate::analysis::Solved;
use crate::analysis::uncertainty::share_in_words;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::words::capitalised;
use crate::unit::Field;
use crate::units::System;

/// The two lists stand side by side where there is so much room.
const LEAST_WIDTH: f32 = 1040.0;

pub fn how_sure_ui(ui: &mut Ui, good: &Solved, worked_out: &WorkedOut, system: System) {
    ui.heading("How sure");
    if good.unit.uncertain.is_empty() {
        let text = "No reading carries a ±. Write how far a reading can be off after it in the form, as in 0.3 in ± 0.02 in, and every number here shows how sure it is.";
        ui.label(RichText::new(text).weak());
        if !good.uncertainty.has_any() {
            return;
        }
    }
    if ui.available_width() >= LEAST_WIDTH {
        ui.columns(2, |columns| {
            numbers_off_ui(&mut columns[0], worked_out);
            // Columns stretch what stands in them, which spreads out words.
            columns[1].with_layout(Layout::top_down(Align::Min), |ui| {
                improve_ui(ui, good, worked_out, system);
            });
        });
    } else {
        numbers_off_ui(ui, worked_out);
        improve_ui(ui, good, worked_out, system);
    }
    let basis = "± holds about 95 % of what the readings leave open (95.45 %, as much as k = 2 holds of a normal spread). By the first-order law of JCGM 100:2008 (GUM): readings independent, each evenly spread within its own ±. The two that bring most keep that shape, the others together count as normal, and k comes from the three added up: from 1.65, where one reading brings it all, to 2, where many share in it. So a ± is never wider than the readings allow. Shares are of its square. A setting is taken as exact. It holds while a number changes in proportion to its readings. A finding is undecided while a limit lies within its ±: a guard band of one expanded uncertainty, the rule of JCGM 106:2012 and of ISO 14253-1 up to 2013 (its edition of 2017 asks for 95 % of conformity, a narrower band).";
    ui.label(Lettering::FinePrint.of(basis).weak());
}

fn improve_ui(ui: &mut Ui, good: &Solved, worked_out: &WorkedOut, system: System) {
    for (output, ranking) in &worked_out.improve {
        let text = format!("Measure better first, for {}", output.name());
        ui.label(RichText::new(text).family(strong()));
        if ranking.is_empty() {
            ui.label("No reading with a ± changes it.");
        }
        for contribution in ranking.iter().take(5) {
            let share = share_in_words(contribution.share, system);
            let name = Field::from(contribution.reading).name_in(&good.document);
            ui.label(format!("{name}: {share} of its ±"));
        }
        ui.add_space(4.0);
    }
}

fn numbers_off_ui(ui: &mut Ui, worked_out: &WorkedOut) {
    Grid::new("numbers with their uncertainty")
        .num_columns(2)
        .spacing([18.0, 4.0])
        .show(ui, |ui| {
            for (name, shown) in &worked_out.off {
                ui.label(RichText::new(capitalised(name)).weak());
                ui.label(RichText::new(shown).family(strong()));
                ui.end_row();
            }
        });
}
