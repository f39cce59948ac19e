//! The digest that tells one text of a file from another.

use std::path::Path;

use sha2::{Digest as _, Sha256};

use super::read::{ReadProblem, read_text};
use crate::unit::most;

/// Digits of a digest that are told.
const DIGITS: usize = 8;

/// Whether a folder stands at a path.
#[must_use]
pub fn is_folder(path: &Path) -> bool {
    path.is_dir()
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
