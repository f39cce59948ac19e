//! The form's ground and wear: what the rollers stand on, and what is out of true.

use egui::Ui;

use super::field::{Fields, note};
use super::straightedge::straightedge_ui;
use crate::app::desk::Change;
use crate::unit::{Document, Field, Reading, ShapeEntry};

pub fn ground_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let ground = &mut document.ground;
    fields.quantity(
        ui,
        "Roller sink",
        Reading::RollerSink,
        &mut ground.roller_sink,
    );
    let mut form = ground.shape.form();
    if fields.choice(ui, "Shape", Field::GroundShape, &mut form) {
        fields
            .set(Change::of("Shape of the ground", Field::GroundShape).and(Reading::GroundRadius));
        ground.shape.take_form(form, fields.system);
    }
    if let ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) = &mut ground.shape {
        fields.quantity(ui, "Radius", Reading::GroundRadius, radius);
    }
    straightedge_ui(ui, fields, ground);
}

pub fn wear_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
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
