//! Plate sheets as a person begins, opens and saves them.

use std::path::{Path, PathBuf};

use super::saving::{file_stem_for, reason_first};
use crate::app::desk::{Desk, SheetWork};
use crate::app::widgets::words::capitalised;
use crate::plate::Day;
use crate::unit::Remarks;

/// The area in which a sheet is filled in.
pub const PLATE_AREA: &str = "plate";

/// What the name of a sheet ends in.
pub(super) const SHEET_ENDING: &str = ".plate.ron";

/// What waits until a sheet is saved or given up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetAsking {
    /// A new sheet for the unit in front.
    New,
    /// A sheet.
    Open(PathBuf),
    /// The sheet is taken away.
    Close,
    /// The window closes.
    CloseWindow,
}

/// Whether a file is a plate sheet, by its name.
#[must_use]
pub fn is_sheet_file(file: &Path) -> bool {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    name.to_lowercase().ends_with(SHEET_ENDING)
}

/// Does it, whatever is lost.
pub(super) fn go_on(desk: &mut Desk, what: SheetAsking) -> bool {
    match what {
        SheetAsking::New => {
            let today = Day::today().to_string();
            let sheet = SheetWork::begun_for(desk.session(), today, desk.system());
            desk.lay_sheet(sheet);
            desk.want_area(PLATE_AREA);
            true
        }
        SheetAsking::Open(file) => open_sheet(desk, &file),
        SheetAsking::Close => {
            desk.drop_sheet();
            true
        }
        SheetAsking::CloseWindow => {
            desk.close();
            true
        }
    }
}

/// Opens a sheet in place of the one that is open; one that is refused leaves it as it was. Whether it was
/// opened.
pub(super) fn open_sheet(desk: &mut Desk, file: &Path) -> bool {
    match SheetWork::open(file) {
        Ok(sheet) => {
            desk.lay_sheet(sheet);
            desk.preferences_mut().remember_sheet(file);
            desk.want_area(PLATE_AREA);
            desk.tell(format!("Opened {}", file.display()));
            true
        }
        Err(problem) => {
            if !file.exists() {
                desk.preferences_mut().forget(file);
            }
            desk.warn(format!("Not opened: {}", reason_first(&problem)));
            false
        }
    }
}

/// A name for the sheet: the one it has, or one by its unit.
pub(super) fn offered_name(desk: &Desk) -> String {
    let kept = desk.sheet().and_then(SheetWork::file);
    if let Some(name) = kept.and_then(Path::file_name) {
        return name.to_string_lossy().into_owned();
    }
    let beside = desk.sheet().and_then(SheetWork::unit_file);
    let stem = match beside.as_deref().and_then(Path::file_stem) {
        Some(stem) => stem.to_string_lossy().into_owned(),
        None => file_stem_for(&desk.document().name),
    };
    format!("{stem}{SHEET_ENDING}")
}

/// Saves to a file that a person chose; one whose name had to be made longer must not be there yet.
pub(super) fn put_in_chosen(desk: &mut Desk, file: &Path) -> bool {
    let whole = with_sheet_ending(file);
    if whole != file && whole.exists() {
        let whole = whole.display();
        desk.warn(format!(
            "Not saved: a file is there already, and it is not the sheet that is open: {whole}"
        ));
        return false;
    }
    put(desk, &whole)
}

pub(super) fn with_sheet_ending(file: &Path) -> PathBuf {
    if is_sheet_file(file) {
        return file.to_owned();
    }
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let stem = name.strip_suffix(".ron").unwrap_or(&name);
    file.with_file_name(format!("{stem}{SHEET_ENDING}"))
}

/// Saves to a file, whatever stands there. Whether it was saved.
pub(super) fn put(desk: &mut Desk, file: &Path) -> bool {
    let why_not = desk.sheet().and_then(SheetWork::why_not_savable);
    if let Some(why_not) = why_not {
        desk.warn(format!("Not saved. {why_not}"));
        return false;
    }
    match desk.save_sheet_to(file) {
        Ok(remarks) => {
            desk.preferences_mut().remember_sheet(file);
            let gathered = match remarks {
                Remarks::InPlace => "",
                Remarks::Gathered => ". The remarks inside the file now stand before the sheet",
            };
            desk.tell(format!("Saved {}{gathered}", file.display()));
            warn_of_left_out(desk);
            warn_of_lone_sheet(desk);
            true
        }
        Err(problem) => {
            desk.warn(capitalised(&reason_first(&problem)));
            false
        }
    }
}

/// A reading that waits for its other half is in no file.
fn warn_of_left_out(desk: &mut Desk) {
    let left_out = desk.sheet().map(SheetWork::left_out_of_a_save);
    let left_out = left_out.unwrap_or_default();
    if !left_out.is_empty() {
        let left_out = left_out.join("; ");
        desk.warn(format!(
            "Saved without what is not complete yet. It stays here, still to be saved: {left_out}."
        ));
    }
}

/// A sheet is told what it needs of its unit by the file beside it.
fn warn_of_lone_sheet(desk: &mut Desk) {
    let unit = desk.sheet().and_then(SheetWork::unit_file);
    if let Some(unit) = unit.filter(|unit| !unit.exists()) {
        let name = unit.file_name().unwrap_or_default().to_string_lossy();
        desk.warn(format!(
            "Saved, but {name} is not beside the sheet: save the sheet in the folder of its unit, or the turf's limits and the expected cut are not known."
        ));
    }
}
