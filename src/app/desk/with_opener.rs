//! The desk with its opener: files that were written are opened outside the window, and what no program
//! opened is told.

use std::path::Path;

use super::Desk;
use super::opener::{Opener, Outgoing};
use crate::store;

impl Desk {
    /// Has files opened by this opener from here on.
    pub fn open_files_with(&mut self, opener: Box<dyn Opener>) {
        self.outside.open_with(opener);
    }

    /// Opens a file that was just written outside the window.
    pub fn open_outside(&mut self, file: &Path) {
        self.outside.open(Outgoing::Saved(file.to_owned()));
    }

    /// Opens a copy outside the window, to be printed from there.
    pub fn open_to_print(&mut self, file: &Path) {
        self.outside.open(Outgoing::ToPrint(file.to_owned()));
    }

    /// Tells of each file that no program opened.
    pub fn hear_from_opener(&mut self) {
        for file in self.outside.take_unopened() {
            match file {
                Outgoing::Saved(file) => self.warn(format!(
                    "Saved, not opened: no program here opens it. File: {}",
                    file.display()
                )),
                Outgoing::ToPrint(file) => {
                    store::remove_copy(&file);
                    self.warn(
                        "Not printed: this desktop has no print dialog and no PDF viewer. Save the PDF and print it on another computer.",
                    );
                }
            }
        }
    }
}
