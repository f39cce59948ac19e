//! Records of units: read as far as they are whole, and added to without touching what is there.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use super::place::{folder_of, no_file, through_links};
use super::read::read_bytes;
use super::unit_file::FileProblem;
use super::whole::WriteProblem;
use crate::plate::{Entry, RECORD_FILE, Record, entry_line, heading_line, read_record};

/// The record of a unit, beside its file: `NAME.record.ron` for `NAME.ron`. A name without that ending
/// stays whole, so that "green 3.5" and "green 3.6" keep records of their own.
#[must_use]
pub fn record_beside(unit_file: &Path) -> PathBuf {
    let has_ending = unit_file
        .extension()
        .is_some_and(|own| own.eq_ignore_ascii_case("ron"));
    let name = if has_ending {
        unit_file.file_stem()
    } else {
        unit_file.file_name()
    };
    let mut name = name.unwrap_or_default().to_owned();
    name.push(".record.ron");
    unit_file.with_file_name(name)
}

/// Reads a record; one that is not there yet has no entries.
///
/// # Errors
/// When it cannot be read, is no record, or is of a format that this program does not know. What a
/// crash left half written is told in the record.
pub fn open_record(file: &Path) -> Result<Record, FileProblem> {
    if let Err(error) = fs::metadata(file)
        && error.kind() == ErrorKind::NotFound
    {
        return Ok(Record::default());
    }
    let bytes = read_bytes(file, RECORD_FILE.most_bytes)
        .map_err(|problem| FileProblem::unread(file, problem, &RECORD_FILE))?;
    // A crash can tear a letter in two as well as a line; it spoils no line but its own.
    read_record(&String::from_utf8_lossy(&bytes))
        .map_err(|problem| FileProblem::wrong(file, problem))
}

/// Adds an entry to the record of a unit and gives the record's file, which is made if need be.
///
/// Nothing that stands there is written again: the entry goes behind it, on a line of its own, and what
/// was written of it is taken back where the disk takes no more.
///
/// # Errors
/// When the entry makes no sense, what stands there is no record, or it could not be written.
pub fn add_entry(unit_file: &Path, entry: &Entry) -> Result<PathBuf, FileProblem> {
    let file = record_beside(unit_file);
    entry.check().map_err(|flaw| FileProblem::FlawedSheet {
        file: file.clone(),
        flaw,
    })?;
    // What is no record is not added to.
    open_record(&file)?;
    add_line(&file, &entry_line(entry)).map_err(|source| FileProblem::Unadded {
        file: file.clone(),
        source,
    })?;
    Ok(file)
}

fn add_line(file: &Path, line: &str) -> Result<(), WriteProblem> {
    let target = through_links(file).map_err(WriteProblem::Other)?;
    let folder = folder_of(&target);
    let at_folder = |error: io::Error| WriteProblem::at(folder, error);
    let is_new = match fs::metadata(&target) {
        Ok(old) => match no_file(&old) {
            Some(what) => return Err(WriteProblem::NoFile(what)),
            None => false,
        },
        Err(error) if error.kind() == ErrorKind::NotFound => true,
        Err(error) => return Err(at_folder(error)),
    };
    let opened = OpenOptions::new()
        .read(true)
        .append(true)
        .create(true)
        .open(&target);
    let mut record = opened.map_err(|error| match error.kind() {
        ErrorKind::PermissionDenied if !is_new => WriteProblem::ReadOnly,
        _ => at_folder(error),
    })?;
    // Two that add at once take turns. Where the system has no locks, each still writes in one go.
    let _ = record.lock();
    let before = record.metadata().map_err(at_folder)?.len();
    let text = format!("{}{line}\n", joint(&mut record, before).map_err(at_folder)?);
    let most = RECORD_FILE.most_bytes;
    if before + text.len() as u64 > most as u64 {
        return Err(WriteProblem::TooLarge { most });
    }
    let written = record
        .write_all(text.as_bytes())
        .and_then(|()| record.sync_all());
    if let Err(error) = written {
        // What stays where even this fails is told as a damaged line.
        let _ = record.set_len(before);
        let _ = record.sync_all();
        return Err(at_folder(error));
    }
    if is_new && let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// What stands between a record of so many bytes and a new line: its heading where it is empty, an end
/// of the line before where a crash took that.
fn joint(record: &mut File, bytes: u64) -> io::Result<String> {
    if bytes == 0 {
        return Ok(heading_line() + "\n");
    }
    let mut last = [0];
    record.seek(SeekFrom::End(-1))?;
    record.read_exact(&mut last)?;
    Ok(if last == *b"\n" { "" } else { "\n" }.to_owned())
}
