//! A lesson's step with its slider turned. The lesson stays as it is.

use super::slide::SliderOf;
use super::tried::{CANNOT_BE_SET, slider_of};
use crate::lesson::{Lesson, SolvedStep, Step, UnitUse, solve_steps};
use crate::unit::Document;

/// A step as it was tried.
pub(super) struct TriedStep {
    solved: Option<SolvedStep>,
    /// Why it went no further.
    stopped: Option<String>,
}

fn written_out(document: &Document) -> UnitUse {
    UnitUse {
        embedded: Some(Box::new(document.clone())),
        ..UnitUse::default()
    }
}

impl TriedStep {
    /// The step as it is shown: as tried, or as the lesson has it.
    pub(super) fn shown<'a>(tried: Option<&'a Self>, set: &'a SolvedStep) -> &'a SolvedStep {
        tried.and_then(|tried| tried.solved.as_ref()).unwrap_or(set)
    }

    /// The slider of a step as it stands; none where the step has none.
    pub(super) fn slider(tried: Option<&Self>, step: &Step, set: &SolvedStep) -> Option<SliderOf> {
        let shown = &Self::shown(tried, set).first;
        let slider = slider_of(&set.first, shown, step.slider?, set.first.unit.system)?;
        Some(SliderOf {
            stopped: tried.and_then(|tried| tried.stopped.clone()),
            ..slider
        })
    }

    /// Turns the step to a place, in millimetres or degrees; where that cannot be, it stays as it was tried
    /// before, with the reason.
    pub(super) fn turn(tried: &mut Option<Self>, step: &Step, set: &SolvedStep, base: f64) {
        let Some(slider) = step.slider else { return };
        let before = tried.take().and_then(|tried| tried.solved);
        *tried = match slider.at_base(&set.first, base) {
            Some(document) => Self::turned(before, step, set, &document),
            None => Some(Self {
                solved: before,
                stopped: Some(CANNOT_BE_SET.to_owned()),
            }),
        };
    }

    fn turned(
        before: Option<SolvedStep>,
        step: &Step,
        set: &SolvedStep,
        document: &Document,
    ) -> Option<Self> {
        let second = set.second.as_ref();
        let step = Step {
            unit: Some(written_out(document)),
            second: second.map(|second| written_out(&second.document)),
            ..step.clone()
        };
        let lesson = Lesson {
            steps: vec![step],
            ..Lesson::default()
        };
        // No file is named, so none is opened.
        let solved = solve_steps(&lesson, |file| Err(file.to_owned())).pop()?;
        Some(match solved {
            Ok(solved) => Self {
                solved: Some(solved),
                stopped: None,
            },
            Err(problem) => Self {
                solved: before,
                stopped: Some(problem.why),
            },
        })
    }
}
