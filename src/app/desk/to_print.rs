//! What the card opens with on which a sheet is printed or saved.

use std::path::PathBuf;
use std::sync::Arc;

use crate::drawing::{Origin, SheetKind};
use crate::lesson::Lesson;
use crate::plate::Worksheet;
use crate::unit::Document;

/// What is printed or saved.
#[derive(Clone, Debug, PartialEq)]
pub enum ToPrint {
    /// A sheet of the unit in front.
    Unit(SheetKind),
    /// A plate sheet as it is filled in.
    Plate(PlateToPrint),
    /// The handout of a lesson as it is written.
    Lesson(LessonToPrint),
}

/// A plate sheet as it is filled in, with the unit that it is worked out for.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateToPrint {
    /// The sheet.
    pub sheet: Arc<Worksheet>,
    /// Its unit.
    pub unit: Arc<Document>,
    /// The file that it is kept in.
    pub origin: Origin,
}

/// A lesson as it is written, with where its unit files stand.
#[derive(Clone, Debug, PartialEq)]
pub struct LessonToPrint {
    /// The lesson.
    pub lesson: Arc<Lesson>,
    /// A file of its folder; none while it has no folder yet.
    pub file_in_folder: Option<PathBuf>,
    /// The file that it is kept in.
    pub origin: Origin,
}

impl Default for ToPrint {
    fn default() -> Self {
        Self::Unit(SheetKind::default())
    }
}
