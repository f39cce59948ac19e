//! A shop's folder: the unit files in it.

use std::ffi::OsStr;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::read::ReadProblem;
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

fn is_unit_file(file: &Path) -> bool {
    let name = file.file_name().unwrap_or_default().as_encoded_bytes();
    let is_of_kind = |ending: &str| name.ends_with(ending.as_bytes());
    file.extension() == Some(OsStr::new("ron"))
        && !name.starts_with(b".")
        && !is_of_kind(".plate.ron")
        && !is_of_kind(".record.ron")
        && !is_of_kind(".lesson.ron")
}
