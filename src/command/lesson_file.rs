//! A lesson opened with the units it names.

use std::path::Path;

use super::Problem;
use crate::lesson::{LESSON_FILE, Lesson, SolvedStep, StepProblem, read_lesson, solve_steps};
use crate::store::{self, FileProblem};

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
    let steps = solve_steps(&lesson, |name| {
        let unit = store::open_unit(&store::unit_beside(file, name));
        unit.map_err(|problem| problem.to_string())
    });
    Ok(OpenLesson {
        lesson,
        steps,
        digest,
    })
}
