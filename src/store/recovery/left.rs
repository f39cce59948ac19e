//! What dead windows left behind.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fmt;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::mark::{OPEN, WORK, claim, clear_stale, files_with_ending, lock_of, remove_if_there};
use super::work::Work;
use crate::{plate, unit};

/// How many files of one name are set aside; a further one stays where it is.
const MOST_SET_ASIDE: usize = 1000;

/// What dead windows left behind in a folder.
#[derive(Debug, Default)]
pub struct LeftBehind {
    /// Work that is whole, the oldest first.
    pub works: Vec<Left>,
    /// Files that could not be read.
    pub damaged: Vec<Damaged>,
}

/// A file that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damaged {
    /// Where it is now.
    pub file: PathBuf,
    /// Whether it has another name since, so that it is met once.
    pub is_set_aside: bool,
}

impl fmt::Display for Damaged {
    /// What became of it, to be read after what it is.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let file = self.file.display();
        if self.is_set_aside {
            write!(f, "is damaged, and was set aside as {file}")
        } else {
            write!(f, "is damaged, and could not be set aside: {file}")
        }
    }
}

/// Work that a dead window left behind. No other start is offered it while this one has it.
#[derive(Debug)]
pub struct Left {
    /// The work.
    pub work: Work,
    file: PathBuf,
    /// The one of its window, whose other works have it too.
    _lock: Arc<File>,
}

impl Left {
    /// Removes it for good. Without this it is offered again by the next start.
    ///
    /// # Errors
    /// When it cannot be removed.
    pub fn discard(self) -> std::io::Result<()> {
        remove_if_there(&self.file)
    }
}

/// Looks for the units and plate sheets that dead windows left behind. A damaged file is set aside, so that
/// it is met once; it is never removed.
#[must_use]
pub fn left_behind(folder: &Path) -> LeftBehind {
    left_behind_with(folder, |_| false)
}

/// The same, where `is_other` knows texts of further kinds of work.
#[must_use]
pub fn left_behind_with(folder: &Path, is_other: impl Fn(&str) -> bool) -> LeftBehind {
    let mut left = LeftBehind::default();
    let mut locks = BTreeMap::new();
    for file in files_with_ending(folder, WORK) {
        let lock = locks
            .entry(lock_of(&file))
            .or_insert_with_key(|lock| claim_left(lock));
        let Some(lock) = lock.clone() else {
            continue;
        };
        let read = Work::read(&file).ok();
        let is_whole = |work: &Work| {
            let text = &work.document;
            unit::parse_text(text).is_ok() || plate::parse_sheet(text).is_ok() || is_other(text)
        };
        let whole = read.filter(is_whole);
        match whole {
            Some(work) => left.works.push(Left {
                work,
                file,
                _lock: lock,
            }),
            None => left.damaged.push(set_aside(&file)),
        }
    }
    left.works.sort_by_key(|left| left.work.time);
    clear_stale(folder);
    left
}

/// The lock of a dead window, which from here on counts as open no more, though its lock is held.
fn claim_left(lock: &Path) -> Option<Arc<File>> {
    let claimed = claim(lock)?;
    // One that cannot be removed warns of a window that is not there.
    let _ = remove_if_there(&lock.with_extension(OPEN));
    Some(Arc::new(claimed))
}

/// Renames a damaged file so that it is met once, to a name that none set aside before has.
pub(in crate::store) fn set_aside(file: &Path) -> Damaged {
    let aside = free_name(file).filter(|aside| {
        let is_renamed = fs::rename(file, aside).is_ok();
        if !is_renamed {
            // It is empty, and held the name only.
            let _ = fs::remove_file(aside);
        }
        is_renamed
    });
    Damaged {
        is_set_aside: aside.is_some(),
        file: aside.unwrap_or_else(|| file.to_owned()),
    }
}

/// A name for a file to be set aside under, held by an empty file; none where none can be made.
fn free_name(file: &Path) -> Option<PathBuf> {
    for number in 1..=MOST_SET_ASIDE {
        let mut name = OsString::from(file);
        name.push(match number {
            1 => ".damaged".to_owned(),
            _ => format!(".damaged-{number}"),
        });
        let aside = PathBuf::from(name);
        match File::create_new(&aside) {
            Ok(_) => return Some(aside),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(_) => return None,
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::WindowMark;
    use super::*;

    const UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

    fn work(document: &str) -> Work {
        Work {
            document: document.to_owned(),
            ..Work::default()
        }
    }

    #[test]
    fn the_work_of_a_dead_window_is_offered_to_one_start_until_it_is_discarded() {
        let folder = tempfile::tempdir().expect("a folder");
        // Attitude past the upright makes no sense, and is kept as it was typed.
        let flawed = UNIT.replace("4 deg", "400 deg");
        let file = folder.path().join("1-dead.recovery");
        work(&flawed).write(&file).expect("it is written");
        let first = left_behind(folder.path());
        assert_eq!(first.works.len(), 1);
        assert_eq!(first.works[0].work.document, flawed);
        assert!(left_behind(folder.path()).works.is_empty(), "offered twice");
        drop(first);
        let again = left_behind(folder.path());
        for left in again.works {
            left.discard().expect("it goes");
        }
        assert!(left_behind(folder.path()).works.is_empty());
        assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 0);
    }

    #[test]
    fn the_work_of_a_living_window_is_offered_to_none() {
        let folder = tempfile::tempdir().expect("a folder");
        let mark = WindowMark::new(folder.path()).expect("a mark");
        work(UNIT).write(&mark.work_file(1)).expect("it is written");
        assert!(left_behind(folder.path()).works.is_empty());
        assert!(mark.work_file(1).exists());
    }

    #[test]
    fn a_dead_window_whose_work_is_offered_has_no_file_open() {
        let folder = tempfile::tempdir().expect("a folder");
        let unit = folder.path().join("unit.ron");
        fs::write(&unit, UNIT).expect("it is written");
        let dead = folder.path().join("1-dead.window");
        let spelt = fs::canonicalize(&unit).expect("it is there");
        fs::write(&dead, spelt.as_os_str().as_encoded_bytes()).expect("it is written");
        for session in ["1-dead.0.recovery", "1-dead.1.recovery"] {
            let file = folder.path().join(session);
            work(UNIT).write(&file).expect("it is written");
        }
        let mark = WindowMark::new(folder.path()).expect("a mark");
        let left = left_behind(folder.path());
        assert_eq!(left.works.len(), 2);
        assert_eq!(mark.others_on(&unit), 0);
    }

    #[test]
    fn a_damaged_file_is_set_aside_and_met_once() {
        let folder = tempfile::tempdir().expect("a folder");
        let whole = ron::to_string(&work(UNIT)).expect("it is text");
        let broken = [
            &whole.as_bytes()[..whole.len() / 2],
            b"",
            b"\xff\xfe",
            b"(document: \"x\", wrong: [], file: None, stamp: None, time: 0, process: 0)",
        ];
        for (index, bytes) in broken.iter().enumerate() {
            let file = folder.path().join(format!("{index}-dead.recovery"));
            fs::write(file, bytes).expect("it is written");
        }
        let left = left_behind(folder.path());
        assert!(left.works.is_empty());
        assert_eq!(left.damaged.len(), broken.len());
        for (aside, bytes) in left.damaged.iter().zip(broken) {
            assert_eq!(fs::read(&aside.file).expect("it is there still"), bytes);
            assert!(aside.is_set_aside);
        }
        assert!(left_behind(folder.path()).damaged.is_empty());
    }

    #[test]
    fn a_damaged_file_never_takes_the_place_of_an_earlier_one() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("preferences.ron");
        let aside = ["one", "two", "three"].map(|text| {
            fs::write(&file, text).expect("it is written");
            set_aside(&file).file
        });
        for (aside, text) in aside.iter().zip(["one", "two", "three"]) {
            assert_eq!(fs::read_to_string(aside).expect("it is there"), text);
        }
        let missing = folder.path().join("no folder").join("preferences.ron");
        let told = set_aside(&missing).to_string();
        assert!(told.contains("could not be set aside"), "{told}");
    }
}
