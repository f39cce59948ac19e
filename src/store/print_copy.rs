//! Copies of what is printed: one without a name for the desktop's print dialog, one for its viewer.

use std::fs;
use std::fs::File;
use std::io::{self, Seek as _, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use directories::ProjectDirs;

use super::recovery::APP_ID;

/// How the names of copies begin and end.
const BEGINS: &str = "sweepgauge-";
const ENDS: &str = ".pdf";

/// A file without a name that holds these bytes, read from its beginning: it goes when it is closed.
///
/// # Errors
/// When it cannot be written.
pub fn copy_to_print(bytes: &[u8]) -> io::Result<File> {
    let mut file = tempfile::tempfile()?;
    file.write_all(bytes)?;
    file.rewind()?;
    Ok(file)
}

/// Nobody prints from a copy so old.
const OLD: Duration = Duration::from_hours(24);

/// A PDF in a folder of its own among what the desktop keeps for a while, for a viewer to open. It stays
/// there: nobody knows how long the viewer reads it. Copies of the days before go.
///
/// # Errors
/// When it cannot be written; none is left then.
pub fn copy_to_view(bytes: &[u8]) -> io::Result<PathBuf> {
    // Nobody saves there, so no file that a person made is taken for a copy.
    let folder = ProjectDirs::from("", "", APP_ID)
        .ok_or_else(|| io::Error::other("this account has no home folder"))?
        .cache_dir()
        .join("printed");
    fs::create_dir_all(&folder)?;
    remove_copies_before(&folder, SystemTime::now() - OLD);
    copy_into(&folder, bytes)
}

fn copy_into(folder: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
    let mut builder = tempfile::Builder::new();
    let mut file = builder.prefix(BEGINS).suffix(ENDS).tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.flush()?;
    let (_, path) = file.keep().map_err(|kept| kept.error)?;
    Ok(path)
}

/// Removes a copy that no program opened; where that cannot be done it goes another day.
pub fn remove_copy(file: &Path) {
    let _ = fs::remove_file(file);
}

/// Removes the copies in a folder that were written before a time, as far as they are files of ours.
fn remove_copies_before(folder: &Path, time: SystemTime) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let is_copy = name
            .to_str()
            .is_some_and(|name| name.starts_with(BEGINS) && name.ends_with(ENDS));
        // Of the entry itself: no link is followed.
        let is_old = || {
            let about = entry.metadata().ok()?;
            Some(about.is_file() && about.modified().ok()? < time)
        };
        if is_copy && is_old() == Some(true) {
            // Another's file cannot be removed, and stays.
            let _ = fs::remove_file(entry.path());
        }
    }
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;

    use super::*;

    #[test]
    fn copies_hold_what_is_printed() {
        let mut read = Vec::new();
        copy_to_print(b"%PDF-")
            .unwrap()
            .read_to_end(&mut read)
            .unwrap();
        assert_eq!(read, b"%PDF-");
        let folder = tempfile::tempdir().unwrap();
        let file = copy_into(folder.path(), b"%PDF-").unwrap();
        assert_eq!(fs::read(&file).unwrap(), b"%PDF-");
        assert!(file.extension().is_some_and(|ending| ending == "pdf"));
        let is_old = SystemTime::now() + OLD;
        remove_copies_before(folder.path(), is_old);
        assert!(!file.exists());
    }

    #[test]
    fn old_copies_go_and_no_other_file() {
        let folder = tempfile::tempdir().unwrap();
        let names = ["sweepgauge-a.pdf", "sweepgauge-b.ron", "report.pdf"];
        for name in names {
            fs::write(folder.path().join(name), b"%PDF-").unwrap();
        }
        let there = || names.map(|name| folder.path().join(name).exists());
        remove_copies_before(folder.path(), SystemTime::now() - OLD);
        assert_eq!(there(), [true, true, true]);
        remove_copies_before(folder.path(), SystemTime::now() + OLD);
        assert_eq!(there(), [false, true, true]);
    }
}
