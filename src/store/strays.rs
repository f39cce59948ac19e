//! Temporary copies that a writer left behind when it was killed, and how they are known.

use std::fs::{self, File, Metadata};
use std::path::Path;
use std::time::{Duration, SystemTime};

const PREFIX: &str = ".sweepgauge-";

/// So old a copy is dead whoever wrote it: a save takes no minutes.
const DEAD_AFTER: Duration = Duration::from_mins(10);

/// How the temporary copies of this process begin: with the program's name and the process's number.
pub(super) fn own_prefix() -> String {
    format!("{PREFIX}{}-", std::process::id())
}

/// Removes the copies in a folder whose writers are dead; `ours` is a copy just made there. What
/// cannot be removed stays, and harms no save.
///
/// A writer holds a lock on its copy, which the system takes back when it dies.
pub(super) fn clear(folder: &Path, ours: &Metadata) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let Some(rest) = name.to_str().and_then(|name| name.strip_prefix(PREFIX)) else {
            continue;
        };
        // Not through a link: what that leads to is nobody's copy.
        let is_of_one_owner = entry
            .metadata()
            .is_ok_and(|what| what.is_file() && is_same_owner(&what, ours));
        if is_of_one_owner && is_dead(&entry.path(), rest) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Whether nobody writes a copy any more; `rest` is its name past the program's.
fn is_dead(copy: &Path, rest: &str) -> bool {
    let Ok(file) = File::open(copy) else {
        return false;
    };
    if file.try_lock().is_err() {
        return false;
    }
    let written = file.metadata().and_then(|what| what.modified());
    let age = written
        .ok()
        .and_then(|at| SystemTime::now().duration_since(at).ok());
    // Between being made and being locked a copy of a living writer is not locked.
    let writer = rest.split_once('-').map_or("", |(writer, _)| writer);
    age.is_some_and(|age| age >= DEAD_AFTER) || is_gone(writer)
}

/// Whether this machine has no process of a number; never sure where it cannot be looked up.
fn is_gone(process: &str) -> bool {
    let processes = Path::new("/proc");
    !process.is_empty()
        && process.bytes().all(|b| b.is_ascii_digit())
        && processes.join("self").exists()
        && !processes.join(process).exists()
}

#[cfg(unix)]
fn is_same_owner(one: &Metadata, other: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    one.uid() == other.uid()
}

#[cfg(not(unix))]
fn is_same_owner(_: &Metadata, _: &Metadata) -> bool {
    true
}
