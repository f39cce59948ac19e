//! The whole job: whose sheet it is, how wide the unit cuts, and what is wanted of it.

use egui::Ui;

use super::shown::Shown;
use crate::analysis::plate::{RunoutLimits, starting_parallel};
use crate::app::areas::plate::entry::Entries;
use crate::app::widgets::lettering::Lettering;
use crate::plate::{Roller, RollerField, SheetField};
use crate::unit::OneOf as _;

/// Entries of the whole sheet.
pub fn job_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    let system = shown.system;
    entries.row(ui, "Cutting width", SheetField::CutWidth, "21 in");
    entries.row(ui, "Date", SheetField::Date, "2026-11-25");
    entries.row(ui, "By", SheetField::By, "");
    entries.row(ui, "Hours on the machine", SheetField::Hours, "1210");
    ui.label("Notes");
    let width = ui.available_width().min(460.0);
    entries.lines(ui, SheetField::Notes, width, 2);
    entries.problem_ui(ui, SheetField::Notes);
    ui.add_space(8.0);
    ui.label(Lettering::Heading.of("Limits"));
    let turf = shown.unit.solved().map(|unit| unit.document.turf);
    let starting = turf.map(RunoutLimits::starting);
    let parallel = turf.map_or_else(
        || "limit".to_owned(),
        |turf| system.length(starting_parallel(turf)),
    );
    for roller in Roller::ALL {
        let name = match roller {
            Roller::Front => "Front roller parallel within",
            Roller::Rear => "Rear roller parallel within",
        };
        let field = SheetField::Of(roller, RollerField::ParallelWithin);
        entries.row(ui, name, field, &parallel);
    }
    let hint = |of: fn(RunoutLimits) -> crate::units::Length| {
        starting.map_or_else(|| "limit".to_owned(), |limits| system.length(of(limits)))
    };
    let wanted = hint(|limits| limits.wanted);
    entries.row(ui, "Runout wanted", SheetField::RunoutWanted, &wanted);
    let most = hint(|limits| limits.most);
    entries.row(ui, "Runout at most", SheetField::RunoutMost, &most);
    let told = match turf {
        Some(turf) => format!(
            "Left empty, the turf's starting values hold, {}: rules of thumb. Parallel is over the cutting width.",
            turf.name().to_lowercase()
        ),
        None => "Without a unit there are no starting values: write your own limits, or nothing is judged.".to_owned(),
    };
    ui.label(Lettering::FinePrint.of(told).weak());
}
