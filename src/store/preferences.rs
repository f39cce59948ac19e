//! The file of preferences, looked over before the window reads it.

use std::collections::HashMap;
use std::fs;
use std::path::{Path, PathBuf};

use thiserror::Error;

use super::place::folder_of;
use super::read::{ReadProblem, read_text};
use super::recovery::{data_folder, set_aside};
use super::whole::{WriteProblem, can_be_written};

/// The window's toolkit keeps its own few values in the same file.
const FILE: &str = "app.ron";
/// Preferences are a few hundred bytes.
const MOST_BYTES: usize = 1_000_000;

/// What is wrong with the file of preferences; no start fails over it.
#[derive(Debug, Error)]
pub enum PreferencesProblem {
    /// It was damaged.
    #[error(
        "The file of preferences is damaged, and was set aside as {}. All is as on a first start.", .0.display()
    )]
    Damaged(PathBuf),
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

/// Looks over the file of preferences, and sets it aside when it is damaged. `is_right` tells whether
/// the program's own value in it can be read.
///
/// # Errors
/// When it was damaged or cannot be written; the window opens all the same.
pub fn look_over_preferences(
    file: &Path,
    key: &str,
    is_right: impl Fn(&str) -> bool,
) -> Result<(), PreferencesProblem> {
    // One that cannot be made is told below.
    let _ = fs::create_dir_all(folder_of(file));
    let is_whole = match read_text(file, MOST_BYTES) {
        Ok(text) => ron::from_str::<HashMap<String, String>>(&text)
            .is_ok_and(|values| values.get(key).is_none_or(|value| is_right(value))),
        // Not there yet, or not to be read: what cannot be written is told below.
        Err(ReadProblem::Unreadable(_)) => true,
        Err(_) => false,
    };
    if !is_whole {
        return Err(PreferencesProblem::Damaged(set_aside(file)));
    }
    can_be_written(file).map_err(|why| PreferencesProblem::Unwritable {
        file: file.to_owned(),
        why,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn look_over(file: &Path) -> Result<(), PreferencesProblem> {
        look_over_preferences(file, "app", |value| value.starts_with('('))
    }

    #[test]
    fn damaged_preferences_are_set_aside_and_met_once() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE);
        look_over(&file).expect("there are none yet");
        fs::write(&file, r#"{"app": "(recent: [])", "window": "x"}"#).unwrap();
        look_over(&file).expect("they are whole");
        let half: &[u8] = br#"{"app": "(rec"#;
        for broken in [half, br#"{"app": "recent"}"#, b"\xff", b""] {
            fs::write(&file, broken).unwrap();
            let Err(PreferencesProblem::Damaged(aside)) = look_over(&file) else {
                panic!("{broken:?} is taken for whole");
            };
            assert_eq!(fs::read(aside).unwrap(), broken);
            look_over(&file).expect("met twice");
        }
    }

    #[test]
    fn preferences_that_cannot_be_written_are_told() {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path().join("a file");
        fs::write(&folder, "").unwrap();
        let problem = look_over(&folder.join(FILE)).unwrap_err().to_string();
        assert!(
            problem.contains("forgotten when the window closes"),
            "{problem}"
        );
    }
}
