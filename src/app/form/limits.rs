//! The form's limits: the starting values, and what a unit sets in their stead.

use egui::Ui;

use super::field::{Fields, note};
use crate::analysis::{Solved, limits_from};
use crate::app::desk::Change;
use crate::unit::{AttitudeRange, Document, Field, Group, Limits};
use crate::units::{Angle, Measure as _, Quantity, Share};

pub fn limits_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "What you leave out is a starting value for the turf: a rule of thumb, to begin your own trials with. Only what you set here is saved with the unit.",
    );
    let system = fields.system;
    let own = document.system();
    let starting = Limits::starting(document.turf, own);
    let length = |length| system.limit(length);
    for (name, field, otherwise) in [
        (
            "Sweep, watch above",
            Field::SweepWatch,
            starting.sweep_watch.entry(system),
        ),
        (
            "Sweep, over limit above",
            Field::SweepOver,
            starting.sweep_over.entry(system),
        ),
        (
            "Underside, minimum",
            Field::LeastUnderside,
            length(starting.underside),
        ),
        (
            "Ahead of centre, maximum",
            Field::MostAheadOfCentre,
            length(starting.ahead_of_centre),
        ),
        (
            "Behind centre, minimum",
            Field::LeastBehindCentre,
            starting
                .behind_centre
                .map_or_else(|| "none".to_owned(), length),
        ),
        (
            "Clip ÷ height of cut, minimum",
            Field::ClipLeast,
            starting.clip_least.entry(system),
        ),
        (
            "Clip ÷ height of cut, watch",
            Field::ClipWatch,
            starting.clip_watch.entry(system),
        ),
        (
            "Clip ÷ height of cut, over limit",
            Field::ClipOver,
            starting.clip_over.entry(system),
        ),
    ] {
        fields.row_or(ui, name, field, document, &otherwise);
    }
    take_from_unit_ui(ui, fields, document);
    let range = document
        .limits
        .as_ref()
        .and_then(|l| l.attitude_range.as_ref());
    let mut is_known = range.is_some();
    if ui
        .checkbox(&mut is_known, "Attitude range of the brackets is known")
        .changed()
    {
        let name = "Attitude range of the brackets";
        fields.set(Change::of(name, Group::AttitudeRange));
        document.set_attitude_range(is_known.then(|| AttitudeRange {
            low: Quantity::from_value(Angle::from_deg(0.0), system),
            high: Quantity::from_value(Angle::from_deg(10.0), system),
        }));
    }
    if is_known {
        fields.row(ui, "Attitude, minimum", Field::LeastAttitude, document);
        fields.row(ui, "Attitude, maximum", Field::MostAttitude, document);
    }
    let least = starting.room.entry(system);
    fields.row_or(
        ui,
        "Room for a knife, minimum",
        Field::LeastRoom,
        document,
        &least,
    );
}

/// Margins that are offered, in percent.
const MARGINS: [f64; 3] = [10.0, 25.0, 50.0];

/// The limits of a unit that cuts well, with a margin.
fn take_from_unit_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let mut margin = None;
    ui.horizontal_wrapped(|ui| {
        ui.label("Take them from this unit, which cuts well, plus");
        for percent in MARGINS {
            let button = ui
                .small_button(format!("{percent:.0} %"))
                .on_hover_text("Each limit as the unit stands now, plus this much")
                .accessible_name(format!("Limits from this unit, {percent:.0} % of room"));
            if button.clicked() {
                margin = Some(Share::from_base(percent / 100.0));
            }
        }
    });
    // A unit that cannot be solved has no numbers to take.
    if let Some(margin) = margin
        && let Ok(solved) = Solved::of(document)
    {
        document.limits = Some(limits_from(&solved, margin, fields.system));
        fields.set(Change::of("Limits from this unit", Group::Limits));
    }
}
