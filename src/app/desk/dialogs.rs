//! What a person is asked for by the desktop's own dialogs.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, channel};

/// What a dialog asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ask {
    /// A unit file to open.
    UnitToOpen,
    /// Where to save a unit, beginning with a name.
    PlaceForUnit(String),
    /// A folder of unit files.
    FolderOfUnits,
    /// A CSV file of knives to read.
    RowsToRead,
    /// Where to write the knives as CSV, beginning with a name.
    PlaceForRows(String),
    /// Where to save a sheet as PDF, beginning with a name.
    PlaceForSheet(String),
    /// A plate sheet to open.
    WorksheetToOpen,
    /// Where to save a plate sheet, beginning with a name.
    PlaceForWorksheet(String),
    /// A lesson to open.
    LessonToOpen,
    /// Where to save a lesson, beginning with a name.
    PlaceForLesson(String),
    /// Where to save a picture, beginning with a name.
    PlaceForPicture(String),
}

/// What a person chooses, once it is chosen; none when they thought better of it. Closed without either
/// where no dialog could be shown.
pub type Choosing = Receiver<Option<PathBuf>>;

/// Asks a person for a file: the native dialogs in the program, something else in tests. The window
/// goes on while a dialog is open.
pub trait Dialogs {
    /// Opens a dialog.
    fn ask(&self, ask: &Ask) -> Choosing;
}

/// What is chosen already.
#[must_use]
pub fn chosen(file: Option<PathBuf>) -> Choosing {
    let (sender, choosing) = channel();
    // Both ends are here.
    let _ = sender.send(file);
    choosing
}

/// Dialogs that are put away at once: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoDialogs;

impl Dialogs for NoDialogs {
    fn ask(&self, _: &Ask) -> Choosing {
        chosen(None)
    }
}
