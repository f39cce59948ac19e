//! The mark of an open window: that it lives, and which unit file it has open.

use std::collections::BTreeSet;
use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

use tempfile::{Builder, TempPath};

use crate::store::whole::write_whole;

const LOCK: &str = "lock";
/// A lock that is not held yet, which no start takes for that of a dead window.
const COMING: &str = "locking";
pub(super) const OPEN: &str = "window";
pub(super) const WORK: &str = "recovery";

/// The mark of an open window. It goes with its window; what a killed window leaves is cleared by
/// whoever looks next.
#[derive(Debug)]
pub struct WindowMark {
    /// Held before the file has the name of a lock.
    _lock: File,
    path: TempPath,
}

impl WindowMark {
    /// Marks a window as open, in the folder of the recovery files, which is made if need be.
    ///
    /// # Errors
    /// When the folder cannot be made or written.
    pub fn new(folder: &Path) -> io::Result<Self> {
        fs::create_dir_all(folder)?;
        let process = std::process::id();
        let lock = Builder::new()
            .prefix(&format!("{process}-"))
            .suffix(&format!(".{COMING}"))
            .tempfile_in(folder)?;
        match lock.as_file().try_lock() {
            // Where a folder knows no locks, the number of the process has to do.
            Ok(()) | Err(TryLockError::Error(_)) => {}
            Err(TryLockError::WouldBlock) => return Err(io::ErrorKind::ResourceBusy.into()),
        }
        let path = lock.path().with_extension(LOCK);
        let lock = lock.persist_noclobber(&path)?;
        let path = TempPath::try_from_path(path)?;
        Ok(Self { _lock: lock, path })
    }

    /// The recovery file of a session of this window.
    pub(super) fn work_file(&self, session: u64) -> PathBuf {
        self.path.with_extension(format!("{session}.{WORK}"))
    }

    /// Tells other windows which unit file this one has open.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn opens(&self, file: Option<&Path>) -> io::Result<()> {
        let mark = self.path.with_extension(OPEN);
        match file {
            Some(file) => write_whole(&mark, one_spelling(file).as_os_str().as_encoded_bytes())
                .map_err(io::Error::other),
            None => remove_if_there(&mark),
        }
    }

    /// How many other windows have a unit file open.
    #[must_use]
    pub fn others_on(&self, file: &Path) -> usize {
        let own = self.path.with_extension(OPEN);
        let folder = own.parent().unwrap_or(Path::new("."));
        marks_on(folder, file)
            .into_iter()
            .filter(|mark| *mark != own && is_alive(mark))
            .count()
    }
}

/// Whether a window that lives has a unit file open, as told in the folder of the recovery files.
#[must_use]
pub fn is_open_in_a_window(folder: &Path, file: &Path) -> bool {
    marks_on(folder, file).iter().any(|mark| is_alive(mark))
}

/// The marks of windows, living or dead, that have a unit file open.
fn marks_on(folder: &Path, file: &Path) -> Vec<PathBuf> {
    let wanted = one_spelling(file);
    let wanted = wanted.as_os_str().as_encoded_bytes();
    let mut marks = files_with_ending(folder, OPEN);
    marks.retain(|mark| fs::read(mark).is_ok_and(|opened| opened == wanted));
    marks
}

fn is_alive(mark: &Path) -> bool {
    claim(&mark.with_extension(LOCK)).is_none()
}

impl Drop for WindowMark {
    fn drop(&mut self) {
        // Whoever looks next clears what stays behind.
        let _ = self.opens(None);
    }
}

/// The lock of the window that a recovery file belongs to.
pub(super) fn lock_of(work: &Path) -> PathBuf {
    let name = work.file_name().and_then(|name| name.to_str());
    let window = name.unwrap_or_default().split('.').next();
    work.with_file_name(format!("{}.{LOCK}", window.unwrap_or_default()))
}

/// The lock of a window that lives no more; none while it lives.
pub(super) fn claim(lock: &Path) -> Option<File> {
    let file = File::options()
        .write(true)
        .create(true)
        .truncate(false)
        .open(lock)
        .ok()?;
    match file.try_lock() {
        Ok(()) => Some(file),
        Err(TryLockError::WouldBlock) => None,
        Err(TryLockError::Error(_)) => (!is_running(lock)).then_some(file),
    }
}

/// Whether the process that a file is named after runs, where the system shows its processes as files.
fn is_running(lock: &Path) -> bool {
    let process = lock
        .file_name()
        .and_then(|name| name.to_str()?.split('-').next());
    process.is_some_and(|process| Path::new("/proc").join(process).exists())
}

/// Clears what dead windows left beside their work.
pub(super) fn clear_stale(folder: &Path) {
    let works = files_with_ending(folder, WORK);
    let with_work: BTreeSet<_> = works.iter().map(|work| lock_of(work)).collect();
    for lock in files_with_ending(folder, LOCK) {
        if !with_work.contains(&lock) && claim(&lock).is_some() {
            // One that cannot be cleared takes a few bytes and does no harm.
            let _ = remove_if_there(&lock.with_extension(OPEN));
            let _ = remove_if_there(&lock);
        }
    }
}

pub(super) fn files_with_ending(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut files: Vec<_> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|found| found == ending))
        .collect();
    files.sort();
    files
}

pub(super) fn remove_if_there(file: &Path) -> io::Result<()> {
    match fs::remove_file(file) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        done => done,
    }
}

/// The same for every way to write the path of a file.
fn one_spelling(file: &Path) -> PathBuf {
    fs::canonicalize(file)
        .or_else(|_| std::path::absolute(file))
        .unwrap_or_else(|_| file.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_windows_on_one_file_see_each_other_however_it_is_spelt() {
        let folder = tempfile::tempdir().expect("a folder");
        let unit = folder.path().join("unit.ron");
        fs::write(&unit, "").expect("it is written");
        let marks = folder.path().join("marks");
        let [first, second] = [(); 2].map(|()| WindowMark::new(&marks).expect("a mark"));
        first.opens(Some(&unit)).expect("it is told");
        assert_eq!((first.others_on(&unit), second.others_on(&unit)), (0, 1));
        assert!(is_open_in_a_window(&marks, &unit));
        let spelt_otherwise = folder.path().join("marks").join("..").join("unit.ron");
        second.opens(Some(&spelt_otherwise)).expect("it is told");
        assert_eq!((first.others_on(&unit), second.others_on(&unit)), (1, 1));
        drop(second);
        assert_eq!(first.others_on(&unit), 0);
        first.opens(None).expect("it is told");
        drop(first);
        assert_eq!(fs::read_dir(&marks).expect("a folder").count(), 0);
    }

    #[test]
    fn the_mark_of_a_dead_window_counts_for_none_and_is_cleared() {
        let folder = tempfile::tempdir().expect("a folder");
        let unit = folder.path().join("unit.ron");
        let dead = folder.path().join("1-dead.window");
        let path = std::path::absolute(&unit).expect("a path");
        fs::write(&dead, path.as_os_str().as_encoded_bytes()).expect("it is written");
        fs::write(dead.with_extension(LOCK), "").expect("it is written");
        let mark = WindowMark::new(folder.path()).expect("a mark");
        assert_eq!(mark.others_on(&unit), 0);
        assert!(!is_open_in_a_window(folder.path(), &unit));
        clear_stale(folder.path());
        assert!(!dead.exists() && !dead.with_extension(LOCK).exists());
        assert!(mark.path.exists(), "a living mark stays");
    }

    #[test]
    fn a_lock_is_held_as_soon_as_it_has_its_name() {
        let folder = tempfile::tempdir().expect("a folder");
        std::thread::scope(|scope| {
            let clearing = scope.spawn(|| (0..2000).for_each(|_| clear_stale(folder.path())));
            while !clearing.is_finished() {
                let mark = WindowMark::new(folder.path()).expect("a mark");
                assert!(mark.path.exists(), "a living window lost its lock");
            }
        });
        assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 0);
    }
}
