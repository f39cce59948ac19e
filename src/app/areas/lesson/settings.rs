//! What a step tries on its units: their setting and their ground, typed for this step alone.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{ComboBox, RichText, TextStyle, Ui, Vec2};

use super::texts::wrong_ui;
use super::typed::{Side, Typed, step_of};
use crate::app::desk::{Change, Desk};
use crate::app::form::Fields;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::theme;
use crate::lesson::{StepUnits, WrongEntry};
use crate::unit::{Document, Field, Reading};
use crate::units::{Quoted, clipped};

/// What of a setting is typed.
const SET: [Field; 4] = [
    Field::WantedAttitude,
    Field::WantedHeightOfCut,
    Field::WantedReelDiameter,
    Field::Extension,
];
/// Widths of an entry and of a list.
const ENTRY: f32 = 118.0;
const LIST: f32 = 130.0;
/// Letters of a knife's name that are shown.
const LONGEST: usize = 24;

/// What is being typed, by the step and its unit.
#[derive(Debug, Default)]
pub struct SettingsTyped(BTreeMap<(usize, Side), Typed>);

/// The settings of a step's units, and what stands wrong in them though a unit does not open.
pub fn settings_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    number: usize,
    units: Option<&StepUnits>,
    typed: &mut SettingsTyped,
) {
    for side in Side::ALL {
        let document = units.and_then(|units| side.document(units));
        ui.push_id(("set for a step", side as u8), |ui| {
            if let Some(document) = document {
                let typed = typed.0.entry((number, side)).or_default();
                side_ui(ui, desk, (number, side), document, typed);
            }
            wrong_settings_ui(ui, desk, (number, side), document.is_some());
        });
    }
}

fn side_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (number, side): (usize, Side),
    unit: &Arc<Document>,
    typed: &mut Typed,
) {
    let before = typed.begin(unit, side.wrong(desk, number), side);
    let mut document = Document::clone(unit);
    let mut fields = Fields::over(typed.drafts(), document.system(), theme(ui.ctx()));
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(side.title()).family(strong()));
        for field in SET {
            let name = field.name();
            beside(ui, name, |ui| {
                let named = side.named(name);
                fields.entry(ui, &named, field, &mut document, "as measured", ENTRY);
            });
        }
        knife_ui(ui, side, &mut document, &mut fields);
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(side.named("Ground")).family(strong()));
        ui.scope(|ui| {
            ui.set_max_width(LIST);
            let name = side.named("Shape of the ground");
            if fields.choice_entry(ui, &name, Field::GroundShape, &mut document) {
                let change = Change::of("Shape of the ground", Field::GroundShape);
                fields.set(change.and(Reading::GroundRadius));
            }
        });
        let mut readings = vec![("Roller sink", Reading::RollerSink)];
        if document.ground.shape.radius().is_some() {
            readings.insert(0, ("Radius", Reading::GroundRadius));
        }
        for (name, reading) in readings {
            beside(ui, name, |ui| {
                let (named, field) = (side.named(name), reading.into());
                fields.entry(ui, &named, field, &mut document, "not measured", ENTRY);
            });
        }
        back_ui(ui, desk, number, side);
    });
    let change = fields.change.take();
    let stance = [Field::WantedAttitude, Field::WantedHeightOfCut];
    let is_stance = stance
        .into_iter()
        .any(|field| field.text(&document) != field.text(unit));
    if document.setting.rollers.is_some() {
        ui.label(Lettering::Note.of(
            "Set by its rollers: an attitude or a height of cut typed here takes their place.",
        ));
        if is_stance {
            document.setting.rollers = None;
        }
    }
    typed.end(desk, (number, side), &before, (document, change));
}

/// The way back from what is set for the step: to the step before where it names no unit of its own, else to
/// the unit as it is.
fn back_ui(ui: &mut Ui, desk: &mut Desk, number: usize, side: Side) {
    let Some(step) = step_of(desk, number) else {
        return;
    };
    let unit = side.unit(step);
    let goes_on = !side.is_second() && unit.is_none_or(|unit| !unit.names_one());
    let (words, what) = if goes_on {
        (
            "As in the step before",
            "Leaves out what is set for this step, which then goes on with the step before",
        )
    } else {
        ("As the unit has it", "Leaves out what is set for this step")
    };
    let is_set =
        unit.is_some_and(|unit| goes_on || unit.setting.is_some() || unit.ground.is_some());
    let is_set = is_set || !side.wrong(desk, number).is_empty();
    let back = ui.add_enabled_ui(is_set, |ui| ui.button(words));
    let back = back.inner.on_hover_text(what);
    if !back.accessible_name(side.named(words)).clicked() {
        return;
    }
    desk.edit_lesson("setting of the step left out", None, |lesson| {
        let Some(step) = lesson.steps.get_mut(number) else {
            return;
        };
        let unit = side.unit_mut(step);
        if goes_on {
            *unit = None;
        } else if let Some(unit) = unit {
            unit.setting = None;
            unit.ground = None;
        }
        step.drop_wrong(side.is_second());
    });
}

/// What stands wrong, each with a way to leave it out. Where its unit does not open no field shows it.
fn wrong_settings_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (number, side): (usize, Side),
    is_in_a_field: bool,
) {
    for wrong in side.wrong(desk, number) {
        let WrongEntry {
            name, text, why, ..
        } = &wrong;
        ui.horizontal_wrapped(|ui| {
            if is_in_a_field {
                wrong_ui(ui, &format!("{name}: {why}"));
            } else {
                wrong_ui(ui, &format!("{name} holds {}: {why}", Quoted(text)));
            }
            let out = ui.button("Leave it out").on_hover_text(
                "Drops what was typed; what is set for this step stays as it was before",
            );
            let out = out.accessible_name(format!("Leave it out: {name}"));
            if out.clicked() {
                let undone = format!("wrong text left out, {name}");
                desk.edit_lesson(&undone, None, |lesson| {
                    if let Some(step) = lesson.steps.get_mut(number) {
                        step.drop_wrong_in(side.is_second(), wrong.field);
                    }
                });
            }
        });
    }
}

/// A name and its entry, which stay on one line.
fn beside(ui: &mut Ui, name: &str, entry: impl FnOnce(&mut Ui)) {
    let font = TextStyle::Body.resolve(ui.style());
    let words = ui
        .painter()
        .layout_no_wrap(name.to_owned(), font, ui.visuals().text_color());
    let between = ui.spacing().item_spacing.x;
    let wide = words.size().x + ENTRY.max(LIST) + 3.0 * between;
    let size = Vec2::new(wide, ui.spacing().interact_size.y);
    ui.allocate_ui(size, |ui| {
        ui.horizontal(|ui| {
            ui.label(name);
            entry(ui);
        });
    });
}

/// The knife fitted, where the unit has more than one.
fn knife_ui(ui: &mut Ui, side: Side, document: &mut Document, fields: &mut Fields) {
    if document.options.is_empty() {
        return;
    }
    let own = std::iter::once(&document.knife.name);
    let others = document.options.iter().map(|knife| &knife.name);
    let names: Vec<String> = own.chain(others).cloned().collect();
    let places: Vec<usize> = (0..names.len()).collect();
    let fitted = document.fitted_name();
    let before = names.iter().position(|name| name == fitted).unwrap_or(0);
    let mut at = before;
    let shown = |at: usize| clipped(&names[at], LONGEST).to_string();
    let list = ComboBox::from_id_salt("knife of the step")
        .selected_text(shown(at))
        .width(LIST);
    beside(ui, "Knife", |ui| {
        let list = list_ui(ui, list, |ui, list| {
            list.values(ui, &places, &mut at, shown);
        });
        list.accessible_name(side.named("Knife"));
    });
    if at != before {
        document.setting.knife = (at > 0).then(|| names[at].clone());
        fields.set(Change::new("knife"));
    }
}
