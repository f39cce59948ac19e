//! The lesson on paper: what its handout is made of.

use crate::app::desk::{Desk, DeskWork as _, LessonToPrint};
use crate::printing::origin_of;

/// The handout of the lesson on the desk; none while it has no step.
pub fn handout(desk: &Desk) -> Option<LessonToPrint> {
    let work = desk.lesson()?;
    let lesson = work.shared();
    (!lesson.steps.is_empty()).then(|| LessonToPrint {
        lesson,
        file_in_folder: work.file_in_folder(),
        origin: origin_of(work.file(), work.digest(), work.has_unsaved()),
    })
}
