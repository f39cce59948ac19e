//! A lesson's step with its slider turned. The lesson stays as it is.

use super::slide::SliderOf;
use super::tried::slider_of;
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

    /// The step turned to a place, in millimetres or degrees; where that cannot be, as it was before and
    /// with the reason. None where the step has no slider.
    pub(super) fn turned(
        before: Option<Self>,
        step: &Step,
        set: &SolvedStep,
        base: f64,
    ) -> Option<Self> {
        let document = step.slider?.at_base(&set.first, base)?;
        let second = set.second.as_ref();
        let step = Step {
            unit: Some(written_out(&document)),
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
                solved: before.and_then(|before| before.solved),
                stopped: Some(problem.why),
            },
        })
    }
}
