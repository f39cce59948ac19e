//! The unit files that a lesson names: of its own folder, and of no other.

use std::fs;
use std::path::Path;

use super::place::folder_of;
use super::unit_file::{FileProblem, open_unit};
use crate::unit::{Document, is_name_alone};

/// Opens a unit file by its name in the folder of another file, which may come from anybody: never one
/// outside of that folder, by whatever way.
///
/// # Errors
/// When it is not there, leads out of the folder, cannot be read, is no unit file, or holds a value that makes no sense.
pub fn open_unit_beside(other: &Path, name: &str) -> Result<Document, FileProblem> {
    let folder = folder_of(other);
    let file = folder.join(name);
    let outside = || FileProblem::Outside { file: file.clone() };
    if !is_name_alone(name) {
        return Err(outside());
    }
    if matches!(file.try_exists(), Ok(false)) {
        return Err(FileProblem::Missing { file });
    }
    // A link may lead anywhere.
    if let (Ok(whole), Ok(folder)) = (fs::canonicalize(&file), fs::canonicalize(folder))
        && whole.parent() != Some(&folder)
    {
        return Err(outside());
    }
    open_unit(&file)
}
