//! Work: a document being edited, and the texts that stand wrong in fields.

use std::io;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize, Serializer};

use crate::store::read::read_text;
use crate::store::stamp::Stamp;
use crate::store::whole::{WriteProblem, write_whole};

/// Read and written: a unit file has at most a million bytes; as a text within a text it has a few
/// times as many.
const MOST_BYTES: usize = 8_000_000;

/// What a window holds that is in no unit file yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Work {
    /// The text of the unit file that the document would be; it may make no sense yet.
    pub document: String,
    /// The texts that stand wrong in fields.
    pub wrong: Vec<WrongText>,
    /// Where the document is kept; none for one that was never saved. A path that is no Unicode is
    /// not remembered.
    #[serde(serialize_with = "unicode")]
    pub file: Option<PathBuf>,
    /// What stood in that file when it was last opened or saved.
    pub stamp: Option<Stamp>,
    /// Where the unit of a sheet that is in no file was; none for anything else. A path that is no
    /// Unicode is not remembered.
    #[serde(default, serialize_with = "unicode")]
    pub unit: Option<PathBuf>,
    /// The number that its session had in its window.
    #[serde(default)]
    pub session: u64,
    /// The number of the session of the unit that a sheet was begun for; none for anything else.
    #[serde(default)]
    pub begun_for: Option<u64>,
    /// When it was written, in seconds since 1970 began.
    pub time: u64,
    /// The process that wrote it.
    pub process: u32,
}

/// A text that stands wrong in a field.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WrongText {
    /// The field's path in the unit file, or what the form calls a field that is in none.
    pub field: String,
    /// The field's name as a person reads it.
    pub name: String,
    /// As it stands in the field.
    pub text: String,
    /// Why it is wrong.
    pub problem: String,
    /// Whether it is right in itself, and waits for what the file holds only together with it.
    #[serde(default)]
    pub is_waiting: bool,
}

impl Work {
    /// Writes it to a file, whole or not at all.
    pub(super) fn write(&self, file: &Path) -> Result<(), WriteProblem> {
        let text =
            ron::to_string(self).map_err(|error| WriteProblem::Other(io::Error::other(error)))?;
        // What could not be read again must not take the place of what can.
        if text.len() > MOST_BYTES {
            return Err(WriteProblem::TooLarge { most: MOST_BYTES });
        }
        write_whole(file, text.as_bytes())
    }

    /// Reads it from a file.
    pub(super) fn read(file: &Path) -> io::Result<Self> {
        let text = read_text(file, MOST_BYTES).map_err(io::Error::other)?;
        ron::from_str(&text).map_err(io::Error::other)
    }
}

#[expect(
    clippy::ref_option,
    reason = "serde hands over a reference to the field"
)]
fn unicode<S: Serializer>(file: &Option<PathBuf>, serializer: S) -> Result<S::Ok, S::Error> {
    let file = file.as_deref().and_then(Path::to_str);
    file.serialize(serializer)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_too_large_to_be_read_again_leaves_what_was_kept_before() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("1-a.0.recovery");
        let with_letters = |letters| Work {
            document: "a".repeat(letters),
            ..Work::default()
        };
        let kept = with_letters(MOST_BYTES / 2);
        kept.write(&file).expect("it is written");
        let problem = with_letters(MOST_BYTES)
            .write(&file)
            .expect_err("too large");
        assert!(problem.to_string().contains("8000000 bytes"), "{problem}");
        assert_eq!(Work::read(&file).expect("it is whole"), kept);
    }
}
