//! A shop's folder: the unit files in it.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::read::ReadProblem;
use super::record_files::record_beside;
use super::unit_file::FileProblem;

/// The most unit files of one folder.
const MOST_UNITS: usize = 5_000;

/// The unit files of a folder, in the order of their names: every `NAME.ron` but plate sheets, records,
/// lessons and what is hidden.
///
/// # Errors
/// When it cannot be read as a folder, or holds more unit files than can be shown.
pub fn units_in(folder: &Path) -> Result<Vec<PathBuf>, FileProblem> {
    let unreadable = |error: io::Error| FileProblem::Unreadable {
        file: folder.to_owned(),
        source: ReadProblem::Unreadable(error),
    };
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let file = entry.map_err(unreadable)?.path();
        if is_unit_file(&file) && !file.is_dir() {
            files.push(file);
        }
        if files.len() > MOST_UNITS {
            let what =
                format!("more than {MOST_UNITS} unit files are there; split them into folders");
            return Err(unreadable(io::Error::other(what)));
        }
    }
    files.sort();
    Ok(files)
}

/// The records of a folder whose unit is not beside them, in the order of their names.
#[must_use]
pub fn lone_records_in(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten();
    let files: Vec<_> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .collect();
    let kept: BTreeSet<_> = files
        .iter()
        .filter(|file| is_unit_file(file))
        .map(|file| record_beside(file))
        .collect();
    let is_record = |file: &&PathBuf| {
        let name = file.file_name().unwrap_or_default().as_encoded_bytes();
        name.ends_with(b".record.ron") && !name.starts_with(b".")
    };
    let mut lone: Vec<_> = files
        .iter()
        .filter(is_record)
        .filter(|file| !kept.contains(*file))
        .cloned()
        .collect();
    lone.sort();
    lone
}

fn is_unit_file(file: &Path) -> bool {
    let name = file.file_name().unwrap_or_default().as_encoded_bytes();
    let name = name.to_ascii_lowercase();
    let is_of_kind = |ending: &str| name.ends_with(ending.as_bytes());
    is_of_kind(".ron")
        && !name.starts_with(b".")
        && !is_of_kind(".plate.ron")
        && !is_of_kind(".record.ron")
        && !is_of_kind(".lesson.ron")
}
