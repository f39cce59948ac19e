//! Opening a unit from the board, through the question about unsaved work.

use std::path::{Path, PathBuf};

use crate::app::desk::Desk;
use crate::app::files::{Asking, ask_first};

/// A unit that was asked for, until it is open or the question was answered otherwise.
#[derive(Debug, Default)]
pub struct AskedFor(Option<PathBuf>);

impl AskedFor {
    /// Opens a unit, once no unsaved work is lost by it.
    pub fn open(&mut self, desk: &mut Desk, file: &Path) {
        self.0 = Some(file.to_owned());
        ask_first(desk, Asking::Open(file.to_owned()));
        self.follow(desk);
    }

    /// Brings the drawing to the front once the unit is open.
    pub fn follow(&mut self, desk: &mut Desk) {
        let Some(file) = &self.0 else {
            return;
        };
        if desk.session().file() == Some(file) && !desk.is_asking() {
            self.0 = None;
            desk.want_area("unit");
        } else if !desk.has_card() {
            self.0 = None;
        }
    }
}
