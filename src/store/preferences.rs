//! The file of preferences: read, or set aside when it is damaged; written whole or not at all.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use serde::Serialize;
use serde::de::DeserializeOwned;
use thiserror::Error;

use super::place::folder_of;
use super::read::{ReadProblem, read_text};
use super::recovery::{Damaged, data_folder, set_aside};
use super::whole::{WriteProblem, can_be_written, write_whole};

const FILE: &str = "preferences.ron";
/// Preferences are a few hundred bytes.
const MOST_BYTES: usize = 1_000_000;

/// What is wrong with the file of preferences; no start fails over it.
#[derive(Debug, Error)]
pub enum PreferencesProblem {
    /// It was damaged.
    #[error("The file of preferences {0}. Settings are back to their defaults.")]
    Damaged(Damaged),
    /// It cannot be written.
    #[error("{}: {why}. What is chosen here is forgotten when the window closes.", .file.display())]
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

/// Writes preferences, whole or not at all.
///
/// # Errors
/// When they cannot be written; what stood there before is whole.
pub fn write_preferences<P: Serialize>(
    file: &Path,
    preferences: &P,
) -> Result<(), PreferencesProblem> {
    let pretty = ron::ser::PrettyConfig::default();
    ron::ser::to_string_pretty(preferences, pretty)
        .map_err(|error| WriteProblem::Other(io::Error::other(error)))
        .and_then(|text| write_whole(file, text.as_bytes()))
        .map_err(|why| unwritable(file, why))
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

    #[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
    #[serde(default)]
    struct Chosen {
        recent: Vec<String>,
        is_dark: bool,
    }

    fn read(file: &Path) -> (Chosen, Option<PreferencesProblem>) {
        read_preferences(file)
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
        write_preferences(&file, &chosen).unwrap();
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
    fn preferences_that_cannot_be_written_are_told() {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path().join("a file");
        fs::write(&folder, "").unwrap();
        let file = folder.join(FILE);
        let (_, on_reading) = read(&file);
        let on_writing = write_preferences(&file, &Chosen::default()).err();
        for problem in [on_reading, on_writing] {
            let told = problem.expect("it cannot be written").to_string();
            assert!(told.contains("forgotten when the window closes"), "{told}");
        }
    }
}
