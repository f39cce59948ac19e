//! What a person is asked for by the desktop's own dialogs.

use std::path::PathBuf;

/// Asks a person for a file. The native dialogs in the program; something else in tests.
pub trait Dialogs {
    /// A unit file to open; none when the person thought better of it.
    fn file_to_open(&self) -> Option<PathBuf>;
    /// Where to save, beginning with a name.
    fn file_to_save(&self, name: &str) -> Option<PathBuf>;
    /// A CSV file of knives to read; none when the person thought better of it.
    fn rows_to_read(&self) -> Option<PathBuf> {
        None
    }
    /// Where to write the knives as CSV, beginning with a name.
    fn rows_to_write(&self, _name: &str) -> Option<PathBuf> {
        None
    }
}

/// Dialogs that are put away at once: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoDialogs;

impl Dialogs for NoDialogs {
    fn file_to_open(&self) -> Option<PathBuf> {
        None
    }
    fn file_to_save(&self, _: &str) -> Option<PathBuf> {
        None
    }
}
