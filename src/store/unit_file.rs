//! Unit files: opened, or refused whole; saved, or left as they were.

use std::path::{Path, PathBuf};

use thiserror::Error;

use super::digest::digest_of;
use super::read::{ReadProblem, read_text};
use super::stamp::Stamp;
use super::whole::{WriteProblem, write_whole};
use crate::plate::SheetFlaw;
use crate::unit::{self, Document, FileKind, Flaw, Remarks, TextProblem, UNIT_FILE, Written, most};

/// Why a unit file could not be opened or saved.
#[derive(Debug, Error)]
pub enum FileProblem {
    /// It could not be read at all.
    #[error("{}: cannot be read: {source}", .file.display())]
    Unreadable {
        /// The file.
        file: PathBuf,
        /// Why.
        source: ReadProblem,
    },
    /// It is far larger than a file of its kind.
    #[error(
        "{}:1:1: field {}: the file is larger than {} bytes; a {} is {}, and begins with {}", .file.display(), .kind.first_field, .kind.most_bytes, .kind.name, .kind.usual_bytes, .kind.begins
    )]
    TooLarge {
        /// The file.
        file: PathBuf,
        /// Its kind.
        kind: &'static FileKind,
    },
    /// It was named as one of a folder, and is not there.
    #[error("{}: this unit file is not in the lesson's folder; put it there, or give the step another unit", .file.display())]
    Missing {
        /// The file.
        file: PathBuf,
    },
    /// It was named as one of a folder, and leads out of it.
    #[error("{}: this leads out of the folder; put a copy of the unit file itself into the lesson's own folder, and give its name alone", .file.display())]
    Outside {
        /// The file, as it was named.
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
        /// Why.
        source: WriteProblem,
    },
    /// An entry could not be added to a record; what stood there before is whole.
    #[error("{}: the entry could not be added: {source}; the record that was there is unchanged", .file.display())]
    Unadded {
        /// The record.
        file: PathBuf,
        /// Why.
        source: WriteProblem,
    },
    /// It would be larger than what can be opened again; nothing was written.
    #[error("{}: could not be saved: the unit takes {bytes} bytes, and a unit file has at most {}; shorten its notes, or take knives or hardware points out; the file that was there is unchanged", .file.display(), most::FILE_BYTES)]
    Oversized {
        /// The file.
        file: PathBuf,
        /// What it would take.
        bytes: usize,
    },
    /// A value makes no sense, so that it could not be opened again; nothing was written.
    #[error("{}: could not be saved: {flaw}; the file that was there is unchanged", .file.display())]
    Flawed {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        flaw: Flaw,
    },
    /// A value of a sheet makes no sense, so that it could not be opened again; it was not written.
    #[error("{}: could not be saved: {flaw}; the file that was there is unchanged", .file.display())]
    FlawedSheet {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        flaw: SheetFlaw,
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

    /// The file.
    #[must_use]
    pub fn file(&self) -> &Path {
        match self {
            Self::Unreadable { file, .. }
            | Self::TooLarge { file, .. }
            | Self::Missing { file }
            | Self::Outside { file }
            | Self::Wrong { file, .. }
            | Self::Unsaved { file, .. }
            | Self::Oversized { file, .. }
            | Self::Flawed { file, .. }
            | Self::FlawedSheet { file, .. }
            | Self::Unadded { file, .. } => file,
        }
    }

    /// What is wrong, without the file: for where that is told last, or seen already.
    #[must_use]
    pub fn reason(&self) -> String {
        if let Self::Wrong { problem, .. } = self {
            let TextProblem {
                line,
                column,
                field,
                what,
            } = problem;
            return format!("{what} (field {field}, line {line}, column {column})");
        }
        let file = self.file().display().to_string();
        let whole = self.to_string();
        let reason = whole.strip_prefix(&file).unwrap_or(&whole);
        reason.trim_start_matches([':', ' ']).to_owned()
    }

    pub(super) fn unread(file: &Path, problem: ReadProblem, kind: &'static FileKind) -> Self {
        match problem {
            ReadProblem::Unreadable(_) | ReadProblem::NoFile(_) => Self::Unreadable {
                file: file.to_owned(),
                source: problem,
            },
            ReadProblem::TooLarge { .. } => Self::TooLarge {
                file: file.to_owned(),
                kind,
            },
            ReadProblem::NoText { readable } => {
                let what = "this is not UTF-8 text; save the file as UTF-8";
                let at = readable.len();
                let problem = TextProblem::at(kind, &readable, at, None, what.to_owned());
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

/// Opens a unit file like [`open_unit`], with the digest of the text that was read: the first eight
/// digits of its SHA-256 (FIPS 180-4), as `sha256sum` prints them.
///
/// # Errors
/// When it cannot be read, is no unit file, or holds a value that makes no sense.
pub fn open_with_digest(file: &Path) -> Result<(Document, String), FileProblem> {
    open(file, |text| Ok((unit::read_text(text)?, digest_of(text))))
}

/// Opens a unit file that was written while its document was being edited: as it was then, though a
/// value may make no sense yet.
///
/// # Errors
/// When it cannot be read, is no unit file, or holds a value that cannot be read.
pub fn reopen_unit(file: &Path) -> Result<Document, FileProblem> {
    open(file, unit::parse_text)
}

fn open<R>(file: &Path, read: impl Fn(&str) -> Result<R, TextProblem>) -> Result<R, FileProblem> {
    read(&text_of(file, &UNIT_FILE)?).map_err(|problem| FileProblem::wrong(file, problem))
}

/// The text of a file of a kind, with the first eight digits of its SHA-256 (FIPS 180-4).
///
/// # Errors
/// When it cannot be read, is larger than a file of its kind, or is no UTF-8.
pub fn text_with_digest(
    file: &Path,
    kind: &'static FileKind,
) -> Result<(String, String), FileProblem> {
    let text = text_of(file, kind)?;
    let digest = digest_of(&text);
    Ok((text, digest))
}

/// The text of a file of a kind.
pub(super) fn text_of(file: &Path, kind: &'static FileKind) -> Result<String, FileProblem> {
    read_text(file, kind.most_bytes).map_err(|problem| FileProblem::unread(file, problem, kind))
}

/// What was saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saved {
    /// What became of the remarks in the text the document was read from.
    pub remarks: Remarks,
    /// What was written. The file may hold something else by now, if something else wrote there since.
    pub stamp: Stamp,
    /// The first eight digits of the SHA-256 of what was written (FIPS 180-4).
    pub digest: String,
}

/// Saves a document as a unit file that opens again, whole or not at all.
///
/// # Errors
/// When it holds a value that makes no sense, is larger than a unit file can be, or could not be
/// written; what stood there before is whole.
pub fn save_unit(document: &Document, file: &Path) -> Result<Saved, FileProblem> {
    let file_owned = || file.to_owned();
    document.checked().map_err(|flaw| FileProblem::Flawed {
        file: file_owned(),
        flaw,
    })?;
    let Written { text, remarks } = unit::write(document);
    if text.len() > most::FILE_BYTES {
        return Err(FileProblem::Oversized {
            file: file_owned(),
            bytes: text.len(),
        });
    }
    write_whole(file, text.as_bytes()).map_err(|source| FileProblem::Unsaved {
        file: file_owned(),
        source,
    })?;
    let stamp = Stamp::of_bytes(text.as_bytes());
    let digest = digest_of(&text);
    Ok(Saved {
        remarks,
        stamp,
        digest,
    })
}

/// Saves what was written as the text of a file of a kind, whole or not at all. Whoever wrote it made sure
/// that it opens again.
///
/// # Errors
/// When it is larger than a file of its kind, or could not be written; what stood there before is whole.
pub fn save_written(
    written: Written,
    file: &Path,
    kind: &'static FileKind,
) -> Result<Saved, FileProblem> {
    let unsaved = |source| FileProblem::Unsaved {
        file: file.to_owned(),
        source,
    };
    let Written { text, remarks } = written;
    if text.len() > kind.most_bytes {
        let most = kind.most_bytes;
        return Err(unsaved(WriteProblem::TooLarge { most }));
    }
    write_whole(file, text.as_bytes()).map_err(unsaved)?;
    Ok(Saved {
        remarks,
        stamp: Stamp::of_bytes(text.as_bytes()),
        digest: digest_of(&text),
    })
}
