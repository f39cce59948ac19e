//! Writing a file whole or not at all.

use std::fs::{self, File, Metadata, OpenOptions, Permissions};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};
use thiserror::Error;

use super::place::{folder_of, no_file, through_links};
use super::plain::plain;
use super::strays;

/// Why a file could not be written; what stood there before is whole.
#[derive(Debug, Error)]
pub enum WriteProblem {
    /// What stands there is no file.
    #[error("there is {0} of that name, and no file can be put in its place")]
    NoFile(&'static str),
    /// The file may not be written to.
    #[error("the file is read-only, or not yours to write in")]
    ReadOnly,
    /// The folder it would stand in is not there.
    #[error("there is no folder {}", .0.display())]
    NoFolder(PathBuf),
    /// The folder may not be written to.
    #[error("the folder {} is read-only, or not yours to write in", .0.display())]
    ClosedFolder(PathBuf),
    /// The disk is full, or what one may use of it.
    #[error("there is no room left for it on the disk")]
    NoRoom,
    /// It is larger than what can be read again.
    #[error("it takes more than {most} bytes")]
    TooLarge {
        /// The most there may be.
        most: usize,
    },
    /// Anything else.
    #[error("{}", plain(.0))]
    Other(io::Error),
}

impl WriteProblem {
    /// What the system says of a file's folder or of the disk under it.
    pub(super) fn at(folder: &Path, error: io::Error) -> Self {
        match error.kind() {
            ErrorKind::NotFound | ErrorKind::NotADirectory => Self::NoFolder(folder.to_owned()),
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Self::ClosedFolder(folder.to_owned())
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
                Self::NoRoom
            }
            _ => Self::Other(without_path(error)),
        }
    }
}

/// An error without the name of the temporary copy, which tells a person nothing: what carries one
/// is told by its kind alone.
fn without_path(error: io::Error) -> io::Error {
    if error.get_ref().is_some() {
        error.kind().into()
    } else {
        error
    }
}

/// Writes a file whole or not at all: a temporary copy beside it, flushed to disk, then put in its
/// place; what stood there before stays until then, and its permissions do after. Through a link
/// the file it leads to is replaced, not the link.
///
/// # Errors
/// When it cannot be written.
pub fn write_whole(file: &Path, bytes: &[u8]) -> Result<(), WriteProblem> {
    let target = through_links(file).map_err(WriteProblem::Other)?;
    let folder = folder_of(&target);
    let at_folder = |error| WriteProblem::at(folder, error);
    let old = match fs::metadata(&target) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(at_folder(error)),
    };
    if let Some(old) = &old {
        check_replaceable(&target, old)?;
    }
    let mut copy = new_copy(folder, old.as_ref()).map_err(at_folder)?;
    // Where the system has no locks, an age tells a stray just as well.
    let _ = copy.as_file().lock();
    if let Ok(ours) = copy.as_file().metadata() {
        strays::clear(folder, &ours);
    }
    if let Some(old) = &old {
        keep_owner(copy.as_file(), old);
        let permissions = old.permissions();
        let kept = copy.as_file().set_permissions(permissions);
        kept.map_err(at_folder)?;
    }
    copy.write_all(bytes).map_err(at_folder)?;
    copy.as_file().sync_all().map_err(at_folder)?;
    copy.persist(&target)
        .map_err(|error| at_folder(error.error))?;
    // The file's new name too, where a folder can be flushed; the file itself is whole either way.
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// Whether a file could be written now; what stands there is not touched.
///
/// # Errors
/// When it could not.
pub fn can_be_written(file: &Path) -> Result<(), WriteProblem> {
    let target = through_links(file).map_err(WriteProblem::Other)?;
    let folder = folder_of(&target);
    match fs::metadata(&target) {
        Ok(old) => check_replaceable(&target, &old)?,
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(WriteProblem::at(folder, error)),
    }
    // The copy goes as soon as it is made.
    new_copy(folder, None).map_err(|error| WriteProblem::at(folder, error))?;
    Ok(())
}

/// Replacing a file asks for leave to write in its folder only; a person expects to be asked for
/// leave to write the file.
fn check_replaceable(target: &Path, old: &Metadata) -> Result<(), WriteProblem> {
    if let Some(what) = no_file(old) {
        return Err(WriteProblem::NoFile(what));
    }
    if old.permissions().readonly() {
        return Err(WriteProblem::ReadOnly);
    }
    match OpenOptions::new().append(true).open(target) {
        Ok(_) => Ok(()),
        Err(error) => match error.kind() {
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                Err(WriteProblem::ReadOnly)
            }
            _ => Err(WriteProblem::Other(error)),
        },
    }
}

/// A temporary copy that nobody may read who may not read the file it will replace.
fn new_copy(folder: &Path, old: Option<&Metadata>) -> io::Result<NamedTempFile> {
    let prefix = strays::own_prefix();
    let mut builder = Builder::new();
    builder.prefix(&prefix);
    if let Some(permissions) = old.map(Metadata::permissions).or_else(as_any_new_file) {
        builder.permissions(permissions);
    }
    builder.tempfile_in(folder)
}

/// The owner and group of the file that is replaced, as far as the system lets this one give them.
#[cfg(unix)]
fn keep_owner(copy: &File, old: &Metadata) {
    use std::os::unix::fs::{MetadataExt as _, fchown};
    let Ok(new) = copy.metadata() else {
        return;
    };
    if new.gid() != old.gid() {
        let _ = fchown(copy, None, Some(old.gid()));
    }
    if new.uid() != old.uid() {
        let _ = fchown(copy, Some(old.uid()), None);
    }
}

#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) {}

/// A temporary file is private by itself; a new file is as readable as any other new file.
#[cfg(unix)]
#[expect(clippy::unnecessary_wraps, reason = "there are none elsewhere")]
fn as_any_new_file() -> Option<Permissions> {
    use std::os::unix::fs::PermissionsExt as _;
    Some(Permissions::from_mode(0o666))
}

#[cfg(not(unix))]
fn as_any_new_file() -> Option<Permissions> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_system_says_becomes_a_sentence() {
        let folder = Path::new("units");
        for (kind, says) in [
            (
                ErrorKind::StorageFull,
                "there is no room left for it on the disk",
            ),
            (
                ErrorKind::QuotaExceeded,
                "there is no room left for it on the disk",
            ),
            (ErrorKind::NotFound, "there is no folder units"),
            (
                ErrorKind::PermissionDenied,
                "the folder units is read-only, or not yours to write in",
            ),
            (
                ErrorKind::ReadOnlyFilesystem,
                "the folder units is read-only, or not yours to write in",
            ),
        ] {
            assert_eq!(WriteProblem::at(folder, kind.into()).to_string(), says);
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_copy_is_never_more_open_than_the_file_it_replaces() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        for mode in [0o600, 0o640, 0o644, 0o660] {
            let file = folder.path().join("unit.ron");
            fs::write(&file, "old").unwrap();
            fs::set_permissions(&file, Permissions::from_mode(mode)).unwrap();
            let old = fs::metadata(&file).unwrap();
            let copy = new_copy(folder.path(), Some(&old)).unwrap();
            let copy_mode = copy.as_file().metadata().unwrap().permissions().mode() & 0o777;
            assert_eq!(copy_mode & !mode, 0, "{copy_mode:o} for {mode:o}");
            write_whole(&file, b"new").unwrap();
            let kept = fs::metadata(&file).unwrap().permissions().mode() & 0o777;
            assert_eq!(kept, mode, "{kept:o}");
        }
    }

    #[test]
    fn no_sentence_names_the_temporary_copy() {
        let folder = Path::new("no such folder");
        let error = new_copy(folder, None).unwrap_err();
        assert!(error.to_string().contains(".sweepgauge-"), "{error}");
        let plain = without_path(error).to_string();
        assert!(!plain.contains("sweepgauge"), "{plain}");
    }
}
