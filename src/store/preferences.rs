//! The file of preferences: read, or set aside when it is damaged; written whole or not at all.

use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use serde::Serialize;
use serde::de::DeserializeOwned;
use thiserror::Error;

use super::place::folder_of;
use super::read::{ReadProblem, read_text};
use super::recovery::{Damaged, data_folder, set_aside};
use super::whole::{WriteProblem, can_be_written, write_whole};

const FILE: &str = "preferences.ron";
/// The ending of the file that a window locks while it changes preferences.
const TURN: &str = "lock";
/// The longest that a window waits for another one to have changed them, which takes some milliseconds.
const LONGEST_TURN: Duration = Duration::from_millis(500);
/// Preferences are a few hundred bytes.
const MOST_BYTES: usize = 1_000_000;

/// What is wrong with the file of preferences; no start fails over it.
#[derive(Debug, Error)]
pub enum PreferencesProblem {
    /// It was damaged.
    #[error("The preferences file {0}. Settings are back to their defaults.")]
    Damaged(Damaged),
    /// It cannot be written.
    #[error("What is chosen here is forgotten when the window closes: {why}. File: {}", .file.display())]
    Unwritable {
        /// The file.
        file: PathBuf,
        /// Why.
        why: WriteProblem,
    },
}

/// Where preferences are kept; none where the platform names no home.
#[must_use]
pub fn preferences_file() -> Option<PathBuf> {
    Some(data_folder()?.join(FILE))
}

/// Reads preferences, those of a first start where there are none or the file is damaged; with them
/// what is wrong with their file. A damaged one is set aside, so that it is met once.
#[must_use]
pub fn read_preferences<P: DeserializeOwned + Default>(
    file: &Path,
) -> (P, Option<PreferencesProblem>) {
    // One that cannot be made is told below.
    let _ = fs::create_dir_all(folder_of(file));
    let read = match read_text(file, MOST_BYTES) {
        Ok(text) => ron::from_str(&text).ok(),
        // Not there yet, or not to be read: what cannot be written is told below.
        Err(ReadProblem::Unreadable(_)) => Some(P::default()),
        Err(_) => None,
    };
    let Some(preferences) = read else {
        let damaged = PreferencesProblem::Damaged(set_aside(file));
        return (P::default(), Some(damaged));
    };
    let problem = can_be_written(file).err().map(|why| unwritable(file, why));
    (preferences, problem)
}

/// Changes preferences in their file, whole or not at all: `change` is told what stands there now, none
/// where it cannot be read, and gives what is to stand there. Two windows that do so at one time do it
/// one after the other.
///
/// Tells what became of a damaged file that stood there.
///
/// # Errors
/// When they cannot be written; what stood there before is whole.
pub fn change_preferences<P: Serialize + DeserializeOwned>(
    file: &Path,
    change: impl FnOnce(Option<P>) -> P,
) -> Result<Option<Damaged>, PreferencesProblem> {
    // Held until they are written.
    let _turn = take_turn(&file.with_extension(TURN));
    let read = match read_text(file, MOST_BYTES) {
        Ok(text) => ron::from_str(&text).map(Some).map_err(|_| set_aside(file)),
        Err(ReadProblem::Unreadable(_)) => Ok(None),
        Err(_) => Err(set_aside(file)),
    };
    let (standing, damaged) = match read {
        Ok(standing) => (standing, None),
        Err(damaged) => (None, Some(damaged)),
    };
    let pretty = ron::ser::PrettyConfig::default();
    ron::ser::to_string_pretty(&change(standing), pretty)
        .map_err(|error| WriteProblem::Other(io::Error::other(error)))
        .and_then(|text| write_whole(file, text.as_bytes()))
        .map_err(|why| unwritable(file, why))?;
    Ok(damaged)
}

/// Waits for a turn to change a file, which is over when what this gives is dropped. Where no file can be
/// locked, and where another program stands still in its turn, none is waited for.
fn take_turn(turn: &Path) -> Option<File> {
    let options = File::options()
        .write(true)
        .create(true)
        .truncate(false)
        .open(turn);
    let lock = options.ok()?;
    let asked = Instant::now();
    while let Err(TryLockError::WouldBlock) = lock.try_lock() {
        if asked.elapsed() > LONGEST_TURN {
            return None;
        }
        thread::sleep(Duration::from_millis(5));
    }
    Some(lock)
}

fn unwritable(file: &Path, why: WriteProblem) -> PreferencesProblem {
    PreferencesProblem::Unwritable {
        file: file.to_owned(),
        why,
    }
}

#[cfg(test)]
mod tests {
    use serde::Deserialize;

    use super::*;

    #[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
    #[serde(default)]
    struct Chosen {
        recent: Vec<String>,
        is_dark: bool,
    }

    fn read(file: &Path) -> (Chosen, Option<PreferencesProblem>) {
        read_preferences(file)
    }

    /// Puts them in the place of whatever stands there.
    fn write(file: &Path, chosen: &Chosen) -> Result<Option<Damaged>, PreferencesProblem> {
        change_preferences(file, |_| chosen.clone())
    }

    #[test]
    fn what_is_written_is_read_again_and_what_is_missing_is_as_on_a_first_start() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("sweepgauge").join(FILE);
        let (first, problem) = read(&file);
        assert_eq!(first, Chosen::default());
        assert!(problem.is_none(), "{problem:?}");
        let chosen = Chosen {
            recent: vec!["a \"b\".ron".to_owned()],
            is_dark: true,
        };
        write(&file, &chosen).unwrap();
        assert_eq!(read(&file).0, chosen);
        fs::write(&file, "(is_dark: true, of_a_later_program: 3)").unwrap();
        let (tolerant, problem) = read(&file);
        assert!(tolerant.is_dark && tolerant.recent.is_empty() && problem.is_none());
    }

    #[test]
    fn damaged_preferences_are_set_aside_and_met_once() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE);
        let half: &[u8] = br#"(recent: ["a.r"#;
        for broken in [half, b"recent", b"(is_dark: 4)", b"\xff", b""] {
            fs::write(&file, broken).unwrap();
            let (first, Some(PreferencesProblem::Damaged(aside))) = read(&file) else {
                panic!("{broken:?} is taken for whole");
            };
            assert_eq!(first, Chosen::default());
            assert_eq!(fs::read(aside.file).unwrap(), broken);
            assert!(read(&file).1.is_none(), "met twice");
        }
    }

    #[test]
    fn windows_that_change_preferences_at_one_time_lose_none_of_each_others() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE);
        thread::scope(|windows| {
            for window in 0..4 {
                let file = &file;
                windows.spawn(move || {
                    for change in 0..10 {
                        change_preferences(file, |standing: Option<Chosen>| {
                            let mut chosen = standing.unwrap_or_default();
                            chosen.recent.push(format!("{window} {change}"));
                            chosen
                        })
                        .unwrap();
                    }
                });
            }
        });
        assert_eq!(read(&file).0.recent.len(), 40);
    }

    #[test]
    fn preferences_that_were_damaged_meanwhile_are_set_aside_before_others_take_their_place() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE);
        fs::write(&file, "(is_dark: 4)").unwrap();
        let damaged = change_preferences(&file, |standing: Option<Chosen>| {
            assert_eq!(standing, None);
            Chosen::default()
        });
        let aside = damaged.unwrap().expect("it was damaged").file;
        assert_eq!(fs::read_to_string(aside).unwrap(), "(is_dark: 4)");
        assert_eq!(read(&file).0, Chosen::default());
    }

    #[test]
    fn preferences_that_cannot_be_written_are_told() {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path().join("a file");
        fs::write(&folder, "").unwrap();
        let file = folder.join(FILE);
        let (_, on_reading) = read(&file);
        let on_writing = write(&file, &Chosen::default()).err();
        for problem in [on_reading, on_writing] {
            let told = problem.expect("it cannot be written").to_string();
            assert!(told.contains("forgotten when the window closes"), "{told}");
        }
    }
}
