//! The end of the work: its entry in the unit's record.

use egui::Ui;

use super::shown::Shown;
use crate::analysis::Level;
use crate::analysis::out_with_end;
use crate::analysis::plate::{HighEnd, PlateResult};
use crate::app::areas::plate::entry::{Entries, number_ui, told_ui};
use crate::app::areas::plate::worked_out::SheetUnit;
use crate::app::widgets::lettering::Lettering;
use crate::plate::{Entry, Roller, Step};
use crate::store;
use crate::units::{Length, System};

/// What goes into the record, and the button that puts it there.
pub fn record_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let named = sheet.unit_file();
    let in_front = entries.desk.session().file().map(std::path::Path::to_owned);
    let is_done = sheet.sheet().ticked.contains(&Step::Record);
    let Some(result) = &shown.result else { return };
    let unit = shown.unit.solved().map(|unit| &**unit);
    let before = Roller::ALL.map(|roller| result.readings.roller(roller)?.out_before);
    let entry = result.entry(sheet.sheet(), unit, before);
    entry_ui(ui, &entry, result, shown.system);
    ui.add_space(6.0);
    // The record is that of the unit that the numbers are of.
    let file = match &shown.unit {
        SheetUnit::InFront(_) => in_front,
        SheetUnit::InFile(file, _) => Some(file.clone()),
        SheetUnit::Unreadable(..) | SheetUnit::None => None,
    };
    if let (Some(named), Some(file)) = (&named, &file)
        && named != file
        && named.exists()
        && !store::is_same_file(named, file)
    {
        let told = format!(
            "No entry can be added: the sheet names {}, and the unit in front is {}. Save the sheet in the folder of its unit.",
            named.display(),
            file.display()
        );
        told_ui(ui, Level::Watch, &told);
        return;
    }
    let Some(file) = file else {
        ui.label("The record is kept beside the unit's file: save the unit, and this sheet beside it, to add the entry.");
        return;
    };
    let record = store::record_beside(&file);
    let name = record.file_name().unwrap_or_default().to_string_lossy();
    if is_done {
        let told = format!("An entry was added to {name}.");
        told_ui(ui, Level::Fine, &told);
    }
    let text = if is_done {
        "Add another entry to the record"
    } else {
        "Add it to the record"
    };
    let help = "The entry is added after those already there; none of them changes. Undo clears the tick and leaves the entry.";
    let button = egui::Button::new(Lettering::Name.of(text)).min_size(egui::Vec2::new(200.0, 34.0));
    if ui.add(button).on_hover_text(help).clicked() {
        match store::add_entry(&file, &entry) {
            Ok(record) => {
                entries
                    .desk
                    .edit_sheet("added to the record", None, |entries| {
                        entries.tick(Step::Record, true);
                    });
                let record = record.display();
                entries.desk.tell(format!(
                    "Added to the record {record}. Save the sheet as well."
                ));
            }
            Err(problem) => entries.desk.warn(format!("Not added. {problem}")),
        }
    }
}

fn entry_ui(ui: &mut Ui, entry: &Entry, result: &PlateResult, system: System) {
    let or_none = |text: &str| {
        if text.is_empty() {
            "not written down".to_owned()
        } else {
            text.to_owned()
        }
    };
    number_ui(ui, "What was done", &entry.what);
    number_ui(ui, "Date", &or_none(&entry.date));
    number_ui(ui, "By", &or_none(&entry.by));
    number_ui(ui, "Hours", &or_none(&entry.hours));
    let length = |length: &Option<crate::units::Quantity<Length>>| {
        length
            .as_ref()
            .map_or_else(|| "not read".to_owned(), |length| length.shown_in(system))
    };
    // No end is called high where the readings do not show one.
    let after_told = |roller: Roller, out: Length| {
        let parallel = result.roller(roller).and_then(|of| of.parallel.as_ref());
        if parallel.is_some_and(|parallel| parallel.high == HighEnd::Level) {
            let size = system.length(Length::from_mm(out.mm().abs()));
            format!("{size}, no end high as far as the readings show")
        } else {
            out_with_end(system, out)
        }
    };
    number_ui(ui, "Reel diameter", &length(&entry.reel_diameter));
    number_ui(ui, "Height of cut", &length(&entry.height_of_cut));
    let attitude = entry.attitude.as_ref();
    let attitude = attitude.map_or_else(|| "not read".to_owned(), |read| read.shown_in(system));
    number_ui(ui, "Attitude", &attitude);
    if entry.behind_centre.is_some() {
        number_ui(ui, "Behind centre", &length(&entry.behind_centre));
    }
    if !entry.knife.is_empty() {
        number_ui(ui, "Knife fitted", &entry.knife);
    }
    for (roller, before, after) in [
        (Roller::Front, &entry.front_before, &entry.front_after),
        (Roller::Rear, &entry.rear_before, &entry.rear_after),
    ] {
        let after = after.as_ref().map(|out| after_told(roller, out.value()));
        let before = before.as_ref().map(|out| out_with_end(system, out.value()));
        let told = match (before, after) {
            (Some(before), Some(after)) => format!("before: {before}; after: {after}"),
            (Some(before), None) => format!("before: {before}; after: not read"),
            (None, after) => after.unwrap_or_else(|| "not read".to_owned()),
        };
        number_ui(ui, &format!("{} out of parallel", roller.title()), &told);
    }
}
