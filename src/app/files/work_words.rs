//! The kinds of work beside the units, in the words that questions and refusals need.

use crate::app::desk::{Ask, WorkKind};

/// A kind of work in words.
pub(super) struct WorkWords {
    /// Its name, without an article.
    pub(super) name: &'static str,
    /// The short name of what is open.
    pub(super) holds: &'static str,
    /// What a person puts into one, in the plural.
    pub(super) entries: &'static str,
    /// The area in which it is made.
    pub(super) area: &'static str,
    /// What the name of its file ends in.
    pub(super) ending: &'static str,
    /// Where its file goes best.
    pub(super) best_in: &'static str,
    /// The dialog that asks for one to open.
    pub(super) to_open: Ask,
    /// The dialog that asks where to save one, beginning with a name.
    pub(super) place: fn(String) -> Ask,
}

/// The area in which a sheet is filled in.
pub const PLATE_AREA: &str = "plate";

/// The area in which a lesson is made.
pub const LESSON_AREA: &str = "lesson";

const SHEET: WorkWords = WorkWords {
    name: "plate sheet",
    holds: "sheet",
    entries: "entries",
    area: PLATE_AREA,
    ending: ".plate.ron",
    best_in: "the folder of its unit",
    to_open: Ask::WorksheetToOpen,
    place: Ask::PlaceForWorksheet,
};

const LESSON: WorkWords = WorkWords {
    name: "lesson",
    holds: "lesson",
    entries: "changes",
    area: LESSON_AREA,
    ending: ".lesson.ron",
    best_in: "the folder of its units",
    to_open: Ask::LessonToOpen,
    place: Ask::PlaceForLesson,
};

/// The words of a kind.
pub(super) const fn words_of(kind: WorkKind) -> &'static WorkWords {
    match kind {
        WorkKind::Sheet => &SHEET,
        WorkKind::Lesson => &LESSON,
    }
}
