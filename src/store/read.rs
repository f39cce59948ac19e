//! Reading a file's text.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;

use thiserror::Error;

/// Texts that a person keeps are a few thousand bytes; past this it is something else.
pub(super) const LARGEST_BYTES: u64 = 1_000_000;

/// Why a file gave no text.
#[derive(Debug, Error)]
pub enum ReadProblem {
    /// It could not be read at all.
    #[error(transparent)]
    Unreadable(#[from] io::Error),
    /// It is far larger than any text a person keeps.
    #[error("the file is larger than {LARGEST_BYTES} bytes")]
    TooLarge,
    /// It is no UTF-8.
    #[error("it is no text in UTF-8")]
    NoText {
        /// What stands before the first byte that is none.
        readable: String,
    },
}

/// Reads the text of a file.
///
/// # Errors
/// When it cannot be read, is too large, or is no UTF-8.
pub fn read_text(file: &Path) -> Result<String, ReadProblem> {
    let mut bytes = Vec::new();
    File::open(file)?
        .take(LARGEST_BYTES + 1)
        .read_to_end(&mut bytes)?;
    if bytes.len() as u64 > LARGEST_BYTES {
        return Err(ReadProblem::TooLarge);
    }
    String::from_utf8(bytes).map_err(|error| {
        let end = error.utf8_error().valid_up_to();
        let readable = String::from_utf8_lossy(&error.as_bytes()[..end]).into_owned();
        ReadProblem::NoText { readable }
    })
}
