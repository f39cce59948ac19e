//! Unit files: opened, or refused whole; saved, or left as they were.

use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

use super::read::{LARGEST_BYTES, ReadProblem, read_text};
use super::whole::write_whole;
use crate::unit::{self, Document, TextProblem};

/// Why a unit file could not be opened or saved.
#[derive(Debug, Error)]
pub enum FileProblem {
    /// It could not be read at all.
    #[error("{}: cannot be read: {source}", .file.display())]
    Unreadable {
        /// The file.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// It is far larger than a unit file.
    #[error(
        "{}:1:1: field format: the file is larger than {} bytes; a unit file is a few thousand, and begins with (format: 1, …", .file.display(), LARGEST_BYTES
    )]
    TooLarge {
        /// The file.
        file: PathBuf,
    },
    /// Its text or a value in it is wrong.
    #[error("{}:{problem}", .file.display())]
    Wrong {
        /// The file.
        file: PathBuf,
        /// What is wrong, and where.
        problem: TextProblem,
    },
    /// It could not be written; what stood there before is whole.
    #[error("{}: could not be saved: {source}; the file that was there is unchanged", .file.display())]
    Unsaved {
        /// The file.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

impl FileProblem {
    /// What is wrong with a text, and the file it came from.
    #[must_use]
    pub fn wrong(file: &Path, problem: TextProblem) -> Self {
        Self::Wrong {
            file: file.to_owned(),
            problem,
        }
    }

    fn unread(file: &Path, problem: ReadProblem) -> Self {
        match problem {
            ReadProblem::Unreadable(source) => Self::Unreadable {
                file: file.to_owned(),
                source,
            },
            ReadProblem::TooLarge => Self::TooLarge {
                file: file.to_owned(),
            },
            ReadProblem::NoText { readable } => {
                let what = "this is not UTF-8 text; save the file as UTF-8";
                let problem = TextProblem::at(&readable, readable.len(), None, what.to_owned());
                Self::wrong(file, problem)
            }
        }
    }
}

/// Opens a unit file, and checks that it makes sense.
///
/// # Errors
/// When it cannot be read, is no unit file, or holds a value that makes no sense.
pub fn open_unit(file: &Path) -> Result<Document, FileProblem> {
    open(file, unit::read_text)
}

/// Opens a unit file that was written while its document was being edited: as it was then, though a
/// value may make no sense yet.
///
/// # Errors
/// When it cannot be read, is no unit file, or holds a value that cannot be read.
pub fn reopen_unit(file: &Path) -> Result<Document, FileProblem> {
    open(file, unit::parse_text)
}

fn open(
    file: &Path,
    read: impl Fn(&str) -> Result<Document, TextProblem>,
) -> Result<Document, FileProblem> {
    let text = read_text(file).map_err(|problem| FileProblem::unread(file, problem))?;
    read(&text).map_err(|problem| FileProblem::wrong(file, problem))
}

/// Saves a document as a unit file, whole or not at all.
///
/// # Errors
/// When it could not be written; what stood there before is whole.
pub fn save_unit(document: &Document, file: &Path) -> Result<(), FileProblem> {
    let text = unit::write_text(document);
    write_whole(file, text.as_bytes()).map_err(|source| FileProblem::Unsaved {
        file: file.to_owned(),
        source,
    })
}
