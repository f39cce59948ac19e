//! What a lesson asks, and where it answers: a step hides its numbers, and a later one gives them.

use super::fields::{FigureOf, Pair, Whose};
use super::script::{Lesson, Step};
use super::solved::{SolvedStep, StepProblem};
use super::template::Template;

/// A number that a step asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// What it is.
    pub title: String,
    /// The number.
    pub shown: String,
    /// The later step that gives it, the first being 0; none where no step does.
    pub given_in: Option<usize>,
}

impl Step {
    /// Every number that it gives by itself, with how it reads.
    fn gives(&self, solved: &SolvedStep) -> Vec<(FigureOf, String)> {
        let pair = Pair {
            first: &solved.first,
            second: solved.second.as_ref(),
        };
        let template = Template::parse(&self.text);
        let in_text = template.iter().flat_map(Template::figures);
        let shown = in_text
            .chain(self.large())
            .filter(|figure| !(self.numbers_hidden && self.hides(*figure)));
        let shown = shown.filter_map(|figure| Some((figure, figure.shown(pair).ok()?)));
        shown.collect()
    }
}

/// What a step of a lesson asks for: its large numbers, where it hides them, each with its answer.
#[must_use]
pub fn answers(
    lesson: &Lesson,
    steps: &[Result<SolvedStep, StepProblem>],
    at: usize,
) -> Vec<Answer> {
    let (Some(step), Some(Ok(solved))) = (lesson.steps.get(at), steps.get(at)) else {
        return Vec::new();
    };
    if !step.numbers_hidden {
        return Vec::new();
    }
    let later = lesson.steps.iter().zip(steps).enumerate().skip(at + 1);
    let later = later.filter_map(|(at, (step, solved))| {
        let solved = solved.as_ref().ok()?;
        Some((at, step.gives(solved)))
    });
    let later: Vec<_> = later.collect();
    let asked = step.large().zip(&solved.numbers);
    let asked = asked.map(|(figure, number)| {
        let is_it = |(other, shown): &(FigureOf, String)| {
            let is_times = [figure, *other].map(|of| of.whose == Whose::Times);
            other.figure == figure.figure && is_times[0] == is_times[1] && *shown == number.shown
        };
        let given = later.iter().find(|(_, given)| given.iter().any(is_it));
        Answer {
            title: number.title.clone(),
            shown: number.shown.clone(),
            given_in: given.map(|(at, _)| *at),
        }
    });
    asked.collect()
}
