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
        "What is not filled in is this program's starting value for the turf: no standard, but a place to begin your own trials. Only what you set here is saved with the unit.",
    );
    let system = fields.system;
    let starting = Limits::starting(document.turf, document.system());
    for (name, field, otherwise) in [
        (
            "Sweep, watch above",
            Field::SweepWatch,
            starting.sweep_watch.entry(system),
        ),
        (
            "Sweep, over above",
            Field::SweepOver,
            starting.sweep_over.entry(system),
        ),
        (
            "Underside, at least",
            Field::LeastUnderside,
            starting.underside.entry(system),
        ),
        (
            "Ahead of centre, most",
            Field::MostAheadOfCentre,
            starting.ahead_of_centre.entry(system),
        ),
        (
            "Behind centre, least",
            Field::LeastBehindCentre,
            starting
                .behind_centre
                .map_or_else(|| "none".to_owned(), |least| least.entry(system)),
        ),
        (
            "Clip ÷ height of cut, least",
            Field::ClipLeast,
            starting.clip_least.entry(system),
        ),
        (
            "Clip ÷ height of cut, watch",
            Field::ClipWatch,
            starting.clip_watch.entry(system),
        ),
        (
            "Clip ÷ height of cut, over",
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
        .checkbox(&mut is_known, "The brackets' range of attitude is known")
        .changed()
    {
        let name = "The brackets' range of attitude";
        fields.set(Change::of(name, Group::AttitudeRange));
        document.set_attitude_range(is_known.then(|| AttitudeRange {
            low: Quantity::from_value(Angle::from_deg(0.0), system),
            high: Quantity::from_value(Angle::from_deg(10.0), system),
        }));
    }
    if is_known {
        fields.row(ui, "Attitude, least", Field::LeastAttitude, document);
        fields.row(ui, "Attitude, most", Field::MostAttitude, document);
    }
    let least = starting.room.entry(system);
    fields.row_or(
        ui,
        "Room for a knife, least",
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
        ui.label("Take them from this unit, which cuts well, with room of");
        for percent in MARGINS {
            let button = ui
                .small_button(format!("{percent:.0} %"))
                .on_hover_text("Each limit as the unit stands now, and so much more")
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
