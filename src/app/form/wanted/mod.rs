//! The second step of the form, as wanted: what is set, each beside what was measured.

mod settings;
mod stance;

use egui::{Align, Button, ComboBox, Label, Layout, RichText, ScrollArea, Sense, Ui};

use self::settings::differences;
pub use self::settings::{Wanted, range_of};
use self::stance::stance_ui;
use super::field::Fields;
use super::slider::slider_ui;
use crate::analysis::{GRINDING, Solution};
use crate::app::desk::Change;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::help::{explain, tell_beside};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::list::list_ui;
use crate::unit::{Document, Field, Group, Reading, RollerMoves, SettingEntry};
use crate::units::System;

/// Width of an entry beside a name; a length in fractions and thou needs it all.
const ENTRY_WIDTH: f32 = 152.0;
/// Said where something is wanted otherwise than it was measured.
const DIFFERS: &str = "Differs from as measured";
/// What stands in a setting that was left as it was measured.
const AS_MEASURED: &str = "as measured";

/// The step. A reading that a person wants to take first, where one is asked for.
pub fn wanted_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) -> Option<Reading> {
    head_ui(ui, fields, document);
    ui.separator();
    let mut first = None;
    ScrollArea::vertical()
        .id_salt("as wanted")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            // The scroll bar floats over what stands at the edge.
            ui.set_max_width(ui.available_width() - 8.0);
            for wanted in Wanted::ALL {
                first = first.or(wanted_row_ui(ui, fields, document, wanted, solution));
                match wanted.field {
                    Field::Extension => knife_ui(ui, fields, document),
                    Field::WantedAttitude => stance_ui(ui, fields, document, solution),
                    Field::FaceGround => {
                        ui.label(Lettering::FinePrint.of(GRINDING).weak());
                    }
                    _ => {}
                }
            }
            // At the foot, where it moves no setting while one is dragged.
            let differences = differences(document, fields.system);
            if !differences.is_empty() {
                ui.separator();
                ui.label(Lettering::Name.of(format!("{DIFFERS} in")));
                differences_ui(ui, &differences);
            }
            ui.add_space(8.0);
            followed.bring_in(ui);
        });
    first
}

/// Said beside the readings where the picture and the numbers are of something else.
pub fn drawn_as_wanted_ui(ui: &mut Ui, document: &Document, system: System) {
    let differences = differences(document, system);
    if differences.is_empty() {
        return;
    }
    let text = format!("Drawn as wanted: {}", differences.join(", "));
    let label = ui.add(Label::new(Lettering::Note.of(text)).truncate());
    tell_beside(ui, &label, |ui| differences_ui(ui, &differences));
}

/// Whether it is as measured, and the way back.
fn head_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let differences = differences(document, fields.system);
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let is_set = document.setting != SettingEntry::default();
            let button = ui.add_enabled(is_set, Button::new("Back to as measured"));
            tell_beside(ui, &button, |ui| {
                ui.label("Everything set here as it was measured");
            });
            if button.clicked() {
                document.setting = SettingEntry::default();
                fields.set(Change::of("Back to as measured", Group::Setting));
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let text = if differences.is_empty() {
                    "As measured"
                } else {
                    DIFFERS
                };
                let text = Label::new(Lettering::Name.of(text)).truncate();
                let label = ui.add(text.sense(Sense::hover()));
                if !differences.is_empty() {
                    tell_beside(ui, &label, |ui| differences_ui(ui, &differences));
                }
            });
        });
    });
}

/// What differs, a line each.
fn differences_ui(ui: &mut Ui, differences: &[String]) {
    for difference in differences {
        ui.add(Label::new(Lettering::Note.of(difference)).wrap());
    }
}

/// A setting with its entry, and a slider under it where it has one. The reading that is to be taken
/// first, when a person asks for it: nothing can be wanted beside an example.
fn wanted_row_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    wanted: Wanted,
    solution: Option<&Solution>,
) -> Option<Reading> {
    let Wanted {
        name,
        field,
        measured,
    } = wanted;
    let rollers = document.setting.rollers.as_ref();
    let follows = match field {
        Field::WantedAttitude => rollers.is_some(),
        Field::WantedHeightOfCut => rollers.is_some_and(RollerMoves::are_both),
        _ => false,
    };
    if follows {
        let shown = solution.map_or(String::new(), |solution| {
            let pose = &solution.pose;
            if field == Field::WantedAttitude {
                fields.system.angle(pose.attitude)
            } else {
                fields.system.length(pose.height_of_cut)
            }
        });
        follows_ui(ui, name, field, &shown);
        return None;
    }
    let example = measured.filter(|reading| Field::from(*reading).is_example(document));
    let told = wanted.measured_text(document, fields.system);
    let mut first = None;
    row_ui(ui, (name, field), &told, |ui| {
        if example.is_some() {
            let link = ui
                .button("measure it first")
                .accessible_name(format!("{name}: measure it first"));
            let help = "What was measured is still an example. Write your own reading under 1 As measured, then what you want here.";
            if link.on_hover_text(help).clicked() {
                first = example;
            }
            return;
        }
        let otherwise = match measured {
            Some(_) => AS_MEASURED,
            None => "none",
        };
        fields.entry(ui, name, field, document, otherwise, ENTRY_WIDTH);
        if field.text(document).is_some() {
            let back = ui
                .small_button("Back")
                .accessible_name(format!("{name}: back to as measured"));
            fields.marks.push(back.id);
            if back.on_hover_text("As measured").clicked()
                && field.set(document, "", fields.system).is_ok()
            {
                fields.set(Change::of(format!("{name} as measured"), field));
            }
        }
    });
    if let Some(range) = range_of(fields.system, document, field) {
        ui.add_enabled_ui(example.is_none(), |ui| {
            let base = wanted.base_measured(document);
            slider_ui(ui, fields, document, (name, field), base, &range);
        });
    }
    fields.problem_ui(ui, field);
    first
}

/// A row: its name on the left with what was measured under it, what it holds on the right.
fn row_ui(ui: &mut Ui, (name, field): (&str, Field), told: &str, right: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let text = Lettering::Name.of(name);
            let label = Label::new(text).selectable(false).sense(Sense::hover());
            let label = ui.add(label);
            explain(ui, label, field);
            ui.label(Lettering::FinePrint.of(told).weak());
        });
        ui.with_layout(Layout::right_to_left(Align::Center), right);
    });
}

/// A value that follows from the rollers and cannot be set.
fn follows_ui(ui: &mut Ui, name: &str, field: Field, shown: &str) {
    row_ui(ui, (name, field), "", |ui| {
        ui.label(RichText::new(format!("{shown}, follows from the rollers")).weak());
    });
}

fn knife_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let before = document.setting.knife.clone();
    let told = format!("measured with {}", document.knife.name);
    row_ui(ui, ("Knife fitted", Field::FittedKnife), &told, |ui| {
        let shown = document.fitted_name().to_owned();
        let list = ComboBox::from_id_salt(Field::FittedKnife)
            .width(200.0)
            .truncate()
            .selected_text(shown);
        list_ui(ui, list, |ui, list| {
            let fitted = &mut document.setting.knife;
            let bench = &document.knife.name;
            let is_bench = fitted.is_none() || fitted.as_ref() == Some(bench);
            if list.offer(ui, is_bench, format!("{bench} (as measured)")) {
                *fitted = None;
            }
            for option in &document.options {
                let is_fitted = fitted.as_ref() == Some(&option.name);
                if list.offer(ui, is_fitted, &option.name) {
                    *fitted = Some(option.name.clone());
                }
            }
        })
        .accessible_name("Knife fitted");
    });
    if document.setting.knife != before {
        fields.set(Change::of("Knife fitted", Field::FittedKnife));
    }
    fields.problem_ui(ui, Field::FittedKnife);
}
