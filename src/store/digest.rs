//! The digest that tells one text of a file from another.

use std::path::Path;

use sha2::{Digest as _, Sha256};

/// Digits of a digest that are told.
const DIGITS: usize = 8;

/// Whether a folder stands at a path.
#[must_use]
pub fn is_folder(path: &Path) -> bool {
    path.is_dir()
}

/// The first eight digits of the SHA-256 of the text of a file (FIPS 180-4), as `sha256sum` prints them.
pub(super) fn digest_of(text: &str) -> String {
    let digest = Sha256::digest(text.as_bytes());
    let digits = digest.iter().map(|byte| format!("{byte:02x}"));
    digits.collect::<String>()[..DIGITS].to_owned()
}
