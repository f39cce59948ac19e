//! What stands at a path, looked at before anything there is opened.

use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// What is no file, in a sentence's words; none for a file.
pub(super) fn no_file(what: &Metadata) -> Option<&'static str> {
    if what.is_file() {
        None
    } else if what.is_dir() {
        Some("a folder")
    } else {
        // A pipe would be waited at for good, a device has no text and takes no whole file.
        Some("a pipe or a device")
    }
}

/// The folder that a file stands in, also where its name comes without one.
#[must_use]
pub fn folder_of(file: &Path) -> &Path {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Whether two paths lead to one file that is there, however they are spelt.
#[must_use]
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    match (fs::canonicalize(one), fs::canonicalize(other)) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

/// The whole path that a person means: with "~/" for the home folder, and from the folder that the
/// program was started in where it names none.
///
/// # Errors
/// When the home folder or the folder it was started in is not known.
pub fn whole_path(typed: &str) -> io::Result<PathBuf> {
    let file = match typed.strip_prefix("~/") {
        None => PathBuf::from(typed),
        Some(rest) => match std::env::home_dir() {
            Some(home) if !home.as_os_str().is_empty() => home.join(rest),
            _ => {
                let what = "This system names no home folder. Write the whole path instead of ~/.";
                return Err(io::Error::new(io::ErrorKind::NotFound, what));
            }
        },
    };
    std::path::absolute(file)
}

/// Links that are followed one after another; more is a circle.
const MOST_LINKS: usize = 40;

/// The file that a path leads to through all its links, whether it is there yet or not.
///
/// # Errors
/// When the links lead in a circle.
pub(super) fn through_links(file: &Path) -> io::Result<PathBuf> {
    let mut target = file.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&target) {
            Ok(to) => target = folder_of(&target).join(to),
            // No link, or not there yet.
            Err(_) => return Ok(target),
        }
    }
    let what = "the links there lead back to themselves";
    Err(io::Error::new(io::ErrorKind::InvalidInput, what))
}
