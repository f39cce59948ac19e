//! The form's ground and wear: what the rollers stand on, and what is out of true.

use egui::Ui;

use super::field::{Fields, choice, note};
use super::form_straightedge::straightedge_ui;
use crate::unit::{Document, Field, GroundForm, OneOf as _, Reading, ShapeEntry};

pub(super) fn ground_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let ground = &mut document.ground;
    fields.quantity(
        ui,
        "Roller sink",
        Reading::RollerSink,
        &mut ground.roller_sink,
    );
    let now = ground.shape.form();
    let mut chosen = now;
    choice(ui, "Shape", Field::GroundShape, now.name(), |ui| {
        for form in GroundForm::ALL {
            ui.selectable_value(&mut chosen, *form, form.name());
        }
    });
    if chosen != now {
        fields.drafts.remove(Reading::GroundRadius);
        ground.shape.take_form(chosen, fields.system);
    }
    if let ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) = &mut ground.shape {
        fields.quantity(ui, "Radius", Reading::GroundRadius, radius);
    }
    straightedge_ui(ui, fields, ground);
}

pub(super) fn wear_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Unit blocked, engine off, key out: turn each roller by hand under a dial gauge and write the full reading.",
    );
    let wear = &mut document.wear;
    fields.quantity(
        ui,
        "Front roller runout",
        Reading::FrontRunout,
        &mut wear.front_runout,
    );
    fields.quantity(
        ui,
        "Rear roller runout",
        Reading::RearRunout,
        &mut wear.rear_runout,
    );
    fields.quantity(
        ui,
        "End to end difference",
        Reading::EndDifference,
        &mut wear.end_difference,
    );
}
