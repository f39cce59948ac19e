//! Lessons without a window: every step solved and told, and the handout.

use std::fmt::Write as _;
use std::path::Path;

use kurbo::Rect;
use serde::Serialize;

use super::report::{SolutionReport, in_line, json_text};
use crate::command::{OpenLesson, Printout, Problem, caution, open_lesson, terminal};
use crate::drawing::{LessonPictures, Page, STILL, Style, Theme, handout_sheets};
use crate::lesson::{SolvedStep, Step, StepProblem};
use crate::printing::{bound, origin_of};
use crate::store;

/// What a step's picture is tried on.
const PAPER: Rect = Rect::new(0.0, 0.0, 1024.0, 640.0);

/// Prints every step of a lesson with its numbers. A step without any is told with its reason; the
/// others are printed all the same.
///
/// # Errors
/// When the lesson is wrong, or a step of it has no numbers; the problem knows its exit code.
pub fn check_lesson(file: &Path, is_json: bool) -> Result<(), Problem> {
    let opened = open_lesson(file)?;
    let text = if is_json {
        json_text(&Report::of(&opened))
    } else {
        told(&opened)
    };
    terminal::print(&Printout::Text(text))?;
    failed(file, &opened.steps)
}

/// Writes a lesson's handout. A step without numbers stands there with its reason.
///
/// # Errors
/// When the lesson is wrong, the handout is no PDF or cannot be written, or a step has no numbers: it is
/// written before that is told.
pub fn write_handout(file: &Path, out: &Path, page: Page) -> Result<(), Problem> {
    let is_pdf = out
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
    let problem = |what: String| Problem::Paper {
        file: out.to_owned(),
        what,
    };
    if !is_pdf {
        return Err(problem("write a name that ends in .pdf".to_owned()));
    }
    let OpenLesson {
        lesson,
        steps,
        digest,
    } = open_lesson(file)?;
    let pictures = LessonPictures {
        lesson: &lesson,
        steps: &steps,
        clips: STILL,
    };
    let origin = origin_of(Some(file), Some(&digest), false);
    let sheets = handout_sheets(pictures, &origin, page);
    let bytes = bound(&lesson.title, &sheets).map_err(problem)?;
    store::write_whole(out, &bytes)
        .map_err(|error| problem(format!("cannot be written: {error}")))?;
    failed(file, &steps)
}

/// A problem where a step has no numbers.
pub(super) fn failed(
    file: &Path,
    steps: &[Result<SolvedStep, StepProblem>],
) -> Result<(), Problem> {
    let problems: Vec<&StepProblem> = steps
        .iter()
        .filter_map(|step| step.as_ref().err())
        .collect();
    if problems.is_empty() {
        return Ok(());
    }
    Err(Problem::Steps {
        file: file.to_owned(),
        failed: problems.len(),
        of: steps.len(),
        is_impossible: problems.iter().all(|problem| problem.is_impossible),
    })
}

/// A lesson in the shape of this file format.
#[derive(Debug, Serialize)]
struct Report<'a> {
    lesson: &'a str,
    steps: Vec<StepReport<'a>>,
}

#[derive(Debug, Serialize)]
struct StepReport<'a> {
    title: &'a str,
    /// With its fields filled in; null where the step has no numbers.
    text: Option<&'a str>,
    solution: Option<SolutionReport>,
    /// Of the second unit, where there is one.
    second: Option<SolutionReport>,
    numbers: Vec<FigureReport<'a>>,
    /// Why the step has no numbers; null where it has them.
    problem: Option<&'a str>,
    /// Why the step has no picture though it has numbers; null where it has one.
    no_picture: Option<String>,
}

#[derive(Debug, Serialize)]
struct FigureReport<'a> {
    title: &'a str,
    shown: &'a str,
}

impl<'a> Report<'a> {
    fn of(opened: &'a OpenLesson) -> Self {
        let steps = opened.lesson.steps.iter().zip(&opened.steps);
        Self {
            lesson: &opened.lesson.title,
            steps: steps
                .map(|(step, solved)| StepReport {
                    no_picture: solved
                        .as_ref()
                        .ok()
                        .and_then(|solved| no_picture(opened, step, solved)),
                    ..StepReport::of(&step.title, solved)
                })
                .collect(),
        }
    }
}

impl<'a> StepReport<'a> {
    fn of(title: &'a str, step: &'a Result<SolvedStep, StepProblem>) -> Self {
        let solved = step.as_ref().ok();
        let second = solved.and_then(|step| step.second.as_ref());
        let figures = solved.into_iter().flat_map(|step| &step.numbers);
        Self {
            title,
            text: solved.map(|step| step.text.as_str()),
            solution: solved.map(|step| SolutionReport::of(&step.first)),
            second: second.map(SolutionReport::of),
            numbers: figures
                .map(|figure| FigureReport {
                    title: &figure.title,
                    shown: &figure.shown,
                })
                .collect(),
            problem: step.as_ref().err().map(|problem| problem.why.as_str()),
            no_picture: None,
        }
    }
}

/// Why a step has no picture though it has numbers.
fn no_picture(opened: &OpenLesson, step: &Step, solved: &SolvedStep) -> Option<String> {
    let pictures = LessonPictures {
        lesson: &opened.lesson,
        steps: &opened.steps,
        clips: STILL,
    };
    let drawn = pictures.panels(step, solved, PAPER, Style::from(Theme::Light));
    drawn.err().map(|none| none.to_string())
}

fn told(opened: &OpenLesson) -> String {
    let mut text = format!("{}\n", in_line(&opened.lesson.title));
    let steps = opened.lesson.steps.iter().zip(&opened.steps);
    // Writing to a `String` cannot fail, so its results are passed over below.
    for (number, (step, solved)) in (1..).zip(steps) {
        let _ = writeln!(text, "\n{number}. {}", in_line(&step.title));
        match solved {
            Ok(solved) => {
                let _ = writeln!(text, "   {}", in_line(&solved.text));
                for figure in &solved.numbers {
                    let _ = writeln!(text, "   {}: {}", figure.title, in_line(&figure.shown));
                }
                if let Some(why) = no_picture(opened, step, solved) {
                    let _ = writeln!(text, "   No picture: {}", in_line(&why));
                }
            }
            Err(problem) => {
                let _ = writeln!(text, "   Not shown: {}", in_line(&problem.why));
            }
        }
    }
    let _ = writeln!(text, "\n{}", caution());
    text
}
