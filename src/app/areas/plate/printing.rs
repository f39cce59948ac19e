//! The sheet on paper: one page, saved as PDF and opened to be printed.

use std::path::Path;

use super::worked_out::WorkedOut;
use crate::app::desk::{Ask, Desk};
use crate::app::files::{ask_place_and_open, file_stem_for};
use crate::drawing::{Page, SheetOf, worksheet};
use crate::printing::{bound, origin_of};
use crate::store;

/// Why the sheet cannot be printed; none while it can.
pub fn why_not_printable(worked_out: &WorkedOut) -> Option<&'static str> {
    if worked_out.result.is_err() {
        Some("A value makes no sense yet: the page says which")
    } else if worked_out.unit.solved().is_none() {
        Some("The head of the page tells the unit: it must be known")
    } else {
        None
    }
}

/// Asks where to save the page, and opens it for printing.
pub fn print(desk: &mut Desk, worked_out: &WorkedOut) {
    let (Ok(result), Some(unit), Some(sheet)) =
        (&worked_out.result, worked_out.unit.solved(), desk.sheet())
    else {
        return;
    };
    let origin = origin_of(sheet.file(), None, sheet.has_unsaved());
    let of = SheetOf {
        solved: unit,
        origin: &origin,
        page: Page::default(),
        system: desk.system(),
    };
    let name = &unit.document.name;
    let bytes = match bound(name, &worksheet(of, sheet.sheet(), result)) {
        Ok(bytes) => bytes,
        Err(why) => {
            desk.warn(format!("Not saved. {why}"));
            return;
        }
    };
    let name = format!("{}-plate.pdf", file_stem_for(name));
    let write = move |file: &Path| {
        let shown = file.display();
        match store::write_whole(file, &bytes) {
            Ok(()) => Ok(format!("Saved the sheet: {shown}")),
            Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
        }
    };
    // Whatever becomes of it, no card waits for it here.
    let _ = ask_place_and_open(desk, &Ask::PlaceForSheet(name), &["pdf"], write);
}
