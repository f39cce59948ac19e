//! The desk with its opener: files that were written are opened outside the window, and what no program
//! opened is told.

use std::path::Path;

use super::Desk;
use super::opener::Opener;

impl Desk {
    /// Has files opened by this opener from here on.
    pub fn open_files_with(&mut self, opener: Box<dyn Opener>) {
        self.outside.open_with(opener);
    }

    /// Opens a file that was just written outside the window.
    pub fn open_outside(&mut self, file: &Path) {
        self.outside.open(file);
    }

    /// Tells of each file that no program opened.
    pub fn hear_from_opener(&mut self) {
        for file in self.outside.take_unopened() {
            self.warn(format!(
                "Saved, but no program of this system opened it. Open it yourself, here or on another computer: {}",
                file.display()
            ));
        }
    }
}
