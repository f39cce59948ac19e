//! A lesson opened with the units it names.

use std::path::Path;

use super::Problem;
use crate::lesson::{LESSON_FILE, Lesson, SolvedStep, StepProblem, read_lesson, solve_steps};
use crate::store::{self, FileProblem};
use crate::unit::Document;

/// A lesson, and each of its steps solved or not.
#[derive(Clone, Debug)]
pub struct OpenLesson {
    /// The lesson.
    pub lesson: Lesson,
    /// Its steps, in the same order.
    pub steps: Vec<Result<SolvedStep, StepProblem>>,
    /// The first eight digits of the SHA-256 of what was read (FIPS 180-4).
    pub digest: String,
}

/// Opens a lesson and solves every step of it. The unit files it names stand in its own folder.
///
/// # Errors
/// When the lesson cannot be read or makes no sense. A step that cannot be solved is none: it says why.
pub fn open_lesson(file: &Path) -> Result<OpenLesson, Problem> {
    let (text, digest) = store::text_with_digest(file, &LESSON_FILE)?;
    let lesson = read_lesson(&text).map_err(|problem| FileProblem::wrong(file, problem))?;
    Ok(OpenLesson {
        steps: solve_steps(&lesson, |name| unit_of_lesson(Some(file), name)),
        lesson,
        digest,
    })
}

/// The unit that a lesson names as a file of its folder, which is that of `file`; none while it is in no
/// file and has no folder yet.
///
/// # Errors
/// When it does not open or stands elsewhere, in a sentence.
pub fn unit_of_lesson(file: Option<&Path>, name: &str) -> Result<Document, String> {
    let Some(file) = file else {
        return Err(format!(
            "{name} is looked for beside the lesson, which is in no file yet: save the lesson in the folder of its units"
        ));
    };
    store::open_unit_beside(file, name).map_err(|problem| format!("{name}: {}", problem.reason()))
}

impl OpenLesson {
    /// A lesson as it is written now, with the units of the folder of a file. Nobody asked yet whether it
    /// makes sense; a step that makes none says why.
    #[must_use]
    pub fn as_it_stands(lesson: Lesson, file: Option<&Path>) -> Self {
        Self {
            steps: solve_steps(&lesson, |name| unit_of_lesson(file, name)),
            lesson,
            digest: String::new(),
        }
    }
}
