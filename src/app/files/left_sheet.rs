//! What a plate sheet that a dead window left holds beside its file.

use crate::app::desk::entries_in;
use crate::plate::{Entries, Roller, RollerField, SheetField, Station, Step, Worksheet};
use crate::store::recovery::Work;
use crate::units::System;

/// Longer texts are cut short in the side by side.
const LONGEST_TEXT: usize = 60;

/// A field that differs.
pub(super) struct Row {
    pub(super) name: String,
    pub(super) in_file: String,
    pub(super) recovered: String,
}

/// Everything that differs from the file; everything with something in it where there is none.
pub(super) fn rows_of_sheet(work: &Work, in_file: Option<Worksheet>) -> Vec<Row> {
    let Ok(recovered) = entries_in(work) else {
        return Vec::new();
    };
    let system = recovered.sheet.system();
    let in_file = in_file.map(Entries::new).unwrap_or_default();
    let row = |name: String, before: Option<String>, after: Option<String>| {
        let in_file = shown(before.filter(|text| !text.is_empty()));
        let recovered = shown(after.filter(|text| !text.is_empty()));
        (in_file != recovered).then_some(Row {
            name,
            in_file,
            recovered,
        })
    };
    let turns = Roller::ALL.into_iter().flat_map(|roller| {
        // A reading that was taken out stands in the file alone.
        let mut places = recovered.places_of(roller);
        places.extend(in_file.places_of(roller));
        places.sort();
        places.dedup();
        places.into_iter().flat_map(move |place| {
            Station::ALL.map(|station| SheetField::Of(roller, RollerField::Runout(station, place)))
        })
    });
    let fields = SheetField::all_but_turns().chain(turns);
    let entered = fields.filter_map(|field| {
        let of = |entries: &Entries| Some(entries.shown(field, system));
        row(field.name(), of(&in_file), of(&recovered))
    });
    let besides = besides(&in_file.sheet, system)
        .into_iter()
        .zip(besides(&recovered.sheet, system))
        .filter_map(|((name, before), (_, after))| row(name, before, after));
    let mut rows: Vec<_> = entered.chain(besides).collect();
    if rows.is_empty() && in_file != recovered {
        rows.push(Row {
            name: "The way it is written".to_owned(),
            in_file: "as it is there".to_owned(),
            recovered: "another".to_owned(),
        });
    }
    rows
}

/// What a sheet holds besides its entries, always in the same order.
fn besides(sheet: &Worksheet, system: System) -> Vec<(String, Option<String>)> {
    let steps = |steps: &[Step]| {
        let titles: Vec<_> = steps.iter().map(|step| step.title()).collect();
        titles.join(", ")
    };
    let mut besides = vec![
        ("Unit of the sheet".to_owned(), Some(sheet.unit.clone())),
        ("Steps ticked".to_owned(), Some(steps(&sheet.ticked))),
        ("Steps to do again".to_owned(), Some(steps(&sheet.again))),
    ];
    for roller in Roller::ALL {
        let entry = sheet.roller(roller);
        let of = |what: &str| match roller {
            Roller::Front => format!("Front roller, {what}"),
            Roller::Rear => format!("Rear roller, {what}"),
        };
        let moved = entry.and_then(|entry| entry.adjust);
        let moved = moved.map(|side| side.word().to_owned());
        besides.push((of("end that is moved"), moved));
        let before = entry.and_then(|entry| entry.out_before.as_ref());
        let before = before.map(|out| out.shown_in(system));
        besides.push((of("out of parallel before"), before));
    }
    besides
}

/// A text as it is listed, cut short.
pub(super) fn shown(text: Option<String>) -> String {
    let Some(text) = text else {
        return "left out".to_owned();
    };
    match text.char_indices().nth(LONGEST_TEXT) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text,
    }
}
