//! Units by the folder, and the digest that tells one text of a file from another.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use super::read::{ReadProblem, read_text};
use crate::unit::most;

/// The ending of a unit file.
const ENDING: &str = "ron";
/// What the names of a unit's other files end in before that.
const BESIDE: [&str; 2] = ["record", "plate"];
/// Digits of a digest that are told.
const DIGITS: usize = 8;

/// Whether a folder stands at a path.
#[must_use]
pub fn is_folder(path: &Path) -> bool {
    path.is_dir()
}

/// The unit files of a folder, by their names; folders within it, records and sheets of the surface
/// plate are left alone.
///
/// # Errors
/// When the folder cannot be read.
pub fn units_in(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let is_unit = path.extension().is_some_and(|ending| ending == ENDING);
        let inner = path.file_stem().map(Path::new).and_then(Path::extension);
        let is_beside = inner.is_some_and(|inner| BESIDE.iter().any(|beside| inner == *beside));
        let is_hidden = path
            .file_name()
            .is_some_and(|name| name.to_string_lossy().starts_with('.'));
        if is_unit && !is_beside && !is_hidden && !path.is_dir() {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// The first eight digits of the SHA-256 of a unit file (FIPS 180-4), as `sha256sum` prints them.
///
/// # Errors
/// When it cannot be read.
pub fn digest_of(file: &Path) -> Result<String, ReadProblem> {
    let text = read_text(file, most::FILE_BYTES)?;
    let digest = Sha256::digest(text.as_bytes());
    let digits = digest.iter().map(|byte| format!("{byte:02x}"));
    Ok(digits.collect::<String>()[..DIGITS].to_owned())
}
