//! The form's ground and wear: what the rollers stand on, and what is out of true.

use egui::Ui;

use super::field::{Fields, note};
use super::straightedge::straightedge_ui;
use crate::app::desk::Change;
use crate::unit::{Document, Field, Reading};

/// Shown in a field that nobody filled.
const NOT_MEASURED: &str = "not measured";

pub fn ground_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    fields.row_or(
        ui,
        "Roller sink",
        Reading::RollerSink,
        document,
        NOT_MEASURED,
    );
    if fields.choice(ui, "Shape", Field::GroundShape, document) {
        fields
            .set(Change::of("Shape of the ground", Field::GroundShape).and(Reading::GroundRadius));
    }
    if document.ground.shape.radius().is_some() {
        fields.row(ui, "Radius", Reading::GroundRadius, document);
    }
    straightedge_ui(ui, fields, document);
}

pub fn wear_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Engine off, key out, unit and reel blocked, reel drive disconnected, gloves on: turn each roller by hand under a dial gauge and write the full reading. Measured and found none: write 0 ± 0.001 in. Not measured: leave it empty.",
    );
    for reading in [
        Reading::FrontRunout,
        Reading::RearRunout,
        Reading::EndDifference,
    ] {
        let name = Field::from(reading).name();
        fields.row_or(ui, name, reading, document, NOT_MEASURED);
    }
}
