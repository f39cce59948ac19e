//! Reading a file's text.

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::Path;

use thiserror::Error;

use super::place::no_file;
use super::plain::plain;

/// Why a file gave no text.
#[derive(Debug, Error)]
pub enum ReadProblem {
    /// It could not be read at all.
    #[error("{}", plain(.0))]
    Unreadable(#[from] io::Error),
    /// What stands there is no file.
    #[error("this is {0}, not a file")]
    NoFile(&'static str),
    /// It is far larger than any text a person keeps.
    #[error("the file is larger than {most} bytes")]
    TooLarge {
        /// The most there may be.
        most: usize,
    },
    /// It is no UTF-8.
    #[error("it is not text in UTF-8")]
    NoText {
        /// What stands before the first byte that is none.
        readable: String,
    },
}

/// Reads the text of a file of at most so many bytes.
///
/// # Errors
/// When it cannot be read, is no file, is too large, or is no UTF-8.
pub fn read_text(file: &Path, most: usize) -> Result<String, ReadProblem> {
    String::from_utf8(read_bytes(file, most)?).map_err(|error| {
        let end = error.utf8_error().valid_up_to();
        let readable = String::from_utf8_lossy(&error.as_bytes()[..end]).into_owned();
        ReadProblem::NoText { readable }
    })
}

/// Reads what a file holds, of at most so many bytes.
pub(super) fn read_bytes(file: &Path, most: usize) -> Result<Vec<u8>, ReadProblem> {
    if let Some(what) = no_file(&fs::metadata(file)?) {
        return Err(ReadProblem::NoFile(what));
    }
    let mut bytes = Vec::new();
    File::open(file)?
        .take(most as u64 + 1)
        .read_to_end(&mut bytes)?;
    if bytes.len() > most {
        return Err(ReadProblem::TooLarge { most });
    }
    Ok(bytes)
}
