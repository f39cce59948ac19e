//! Plate sheets: opened, or refused whole; saved, or left as they were.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::unit_file::{FileProblem, Saved, save_written, text_with_digest};
use crate::plate::{SHEET_FILE, SheetFlaw, Worksheet, read_sheet, write_sheet};

/// Opens a plate sheet, and checks that it makes sense.
///
/// # Errors
/// When it cannot be read, is no plate sheet, or holds a value that makes no sense.
pub fn open_sheet(file: &Path) -> Result<Worksheet, FileProblem> {
    open_sheet_with_digest(file).map(|(sheet, _)| sheet)
}

/// Opens a plate sheet like [`open_sheet`], with the digest of the text that was read: the first eight
/// digits of its SHA-256 (FIPS 180-4), as `sha256sum` prints them.
///
/// # Errors
/// When it cannot be read, is no plate sheet, or holds a value that makes no sense.
pub fn open_sheet_with_digest(file: &Path) -> Result<(Worksheet, String), FileProblem> {
    let (text, digest) = text_with_digest(file, &SHEET_FILE)?;
    let sheet = read_sheet(&text).map_err(|problem| FileProblem::wrong(file, problem))?;
    Ok((sheet, digest))
}

/// Saves a sheet so that it opens again, whole or not at all.
///
/// # Errors
/// When it holds a value that makes no sense, is larger than a sheet can be, or could not be written;
/// what stood there before is whole.
pub fn save_sheet(sheet: &Worksheet, file: &Path) -> Result<Saved, FileProblem> {
    sheet
        .checked()
        .map_err(|flaw: SheetFlaw| FileProblem::FlawedSheet {
            file: file.to_owned(),
            flaw,
        })?;
    save_written(write_sheet(sheet), file, &SHEET_FILE)
}

/// A plate sheet of a unit, beside its file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetBeside {
    /// Where it is.
    pub file: PathBuf,
    /// Its day, as it is written there.
    pub date: String,
    /// Who filled it in.
    pub by: String,
}

/// The most plate sheets of a folder that are looked through.
const MOST_SHEETS: usize = 2_000;

/// The plate sheets beside a unit's file that name it, the newest first. What cannot be read is left out:
/// opening it says why.
#[must_use]
pub fn sheets_of(unit: &Path) -> Vec<SheetBeside> {
    let Some((folder, name)) = unit.parent().zip(unit.file_name()) else {
        return Vec::new();
    };
    let files = fs::read_dir(folder).into_iter().flatten();
    let files = files.filter_map(|entry| Some(entry.ok()?.path()));
    let files = files.filter(|file| {
        let name = file.file_name().unwrap_or_default().as_encoded_bytes();
        name.ends_with(b".plate.ron") && !name.starts_with(b".")
    });
    let of_unit = files.take(MOST_SHEETS).filter_map(|file| {
        let sheet = open_sheet(&file).ok()?;
        (OsStr::new(&sheet.unit) == name).then_some(SheetBeside {
            file,
            date: sheet.date,
            by: sheet.by,
        })
    });
    let mut sheets: Vec<_> = of_unit.collect();
    sheets.sort_by(|one, other| (&other.date, &one.file).cmp(&(&one.date, &other.file)));
    sheets
}

/// When a folder's list of files last changed; none where that cannot be told.
#[must_use]
pub fn folder_changed(folder: &Path) -> Option<SystemTime> {
    fs::metadata(folder).ok()?.modified().ok()
}

/// The file of the unit that a sheet names: always one beside the sheet.
#[must_use]
pub fn unit_beside(sheet_file: &Path, unit_name: &str) -> PathBuf {
    sheet_file.with_file_name(unit_name)
}
