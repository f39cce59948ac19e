//! The form's limits: the starting values, and what a unit sets in their stead.

use egui::Ui;

use super::field::{Fields, note};
use crate::app::desk::Change;
use crate::unit::{AttitudeRange, Document, Field, Group, LimitEntries, Limits};
use crate::units::{Angle, Measure as _, Quantity};

pub fn limits_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "What is not filled in is this program's starting value for the turf: no standard, but a place to begin your own trials. Only what you set here is saved with the unit.",
    );
    let system = fields.system;
    let starting = Limits::starting(document.turf);
    let mut limits = document.limits.clone().unwrap_or_default();
    let l = &mut limits;
    fields.optional(
        ui,
        "Sweep, watch above",
        Field::SweepWatch,
        &mut l.sweep_watch,
        &starting.sweep_watch.entry(system),
    );
    fields.optional(
        ui,
        "Sweep, over above",
        Field::SweepOver,
        &mut l.sweep_over,
        &starting.sweep_over.entry(system),
    );
    fields.optional(
        ui,
        "Underside, at least",
        Field::LeastUnderside,
        &mut l.underside,
        &starting.underside.entry(system),
    );
    fields.optional(
        ui,
        "Ahead of centre, most",
        Field::MostAheadOfCentre,
        &mut l.ahead_of_centre,
        &starting.ahead_of_centre.entry(system),
    );
    fields.optional(
        ui,
        "Clip to cut, watch",
        Field::ClipWatch,
        &mut l.clip_watch,
        &starting.clip_watch.entry(system),
    );
    fields.optional(
        ui,
        "Clip to cut, over",
        Field::ClipOver,
        &mut l.clip_over,
        &starting.clip_over.entry(system),
    );
    let mut is_known = limits.attitude_range.is_some();
    if ui
        .checkbox(&mut is_known, "The brackets' range of attitude is known")
        .changed()
    {
        let name = "The brackets' range of attitude";
        fields.set(Change::of(name, Group::AttitudeRange));
        limits.attitude_range = is_known.then(|| AttitudeRange {
            low: Quantity::from_value(Angle::from_deg(0.0), system),
            high: Quantity::from_value(Angle::from_deg(10.0), system),
        });
    }
    if let Some(range) = &mut limits.attitude_range {
        fields.quantity(ui, "Attitude, least", Field::LeastAttitude, &mut range.low);
        fields.quantity(ui, "Attitude, most", Field::MostAttitude, &mut range.high);
    }
    if limits != document.limits.clone().unwrap_or_default() {
        let is_set = limits != LimitEntries::default();
        document.limits = is_set.then_some(limits);
    }
}
