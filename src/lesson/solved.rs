//! A lesson's steps solved: their units, their texts with every field filled in, their numbers.

use std::collections::BTreeMap;
use std::sync::Arc;

use thiserror::Error;

use super::fields::{FigureOf, Pair};
use super::flaw::LessonFlawKind;
use super::script::{Lesson, Step, UnitUse};
use super::template::Template;
use crate::analysis::{Solved, Unsolved};
use crate::unit::Document;

/// A number of a step that is shown large.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShownFigure {
    /// What it is.
    pub title: String,
    /// The number in the units it was measured in.
    pub shown: String,
}

/// A step with all that is worked out for it.
#[derive(Clone, Debug)]
pub struct SolvedStep {
    /// The step's unit.
    pub first: Solved,
    /// The second one.
    pub second: Option<Solved>,
    /// Its text with the fields filled in.
    pub text: String,
    /// The same while its numbers are hidden: those that are shown large are left blank.
    pub text_asked: String,
    /// Its numbers, in their order.
    pub numbers: Vec<ShownFigure>,
}

/// Why a step has no numbers. The steps after it have theirs.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{why}")]
pub struct StepProblem {
    /// The reason, as a sentence.
    pub why: String,
    /// Whether its geometry cannot exist; else a file or a value is wrong.
    pub is_impossible: bool,
}

impl StepProblem {
    fn wrong(why: String) -> Self {
        Self {
            why,
            is_impossible: false,
        }
    }
}

/// A unit as a step names it, or why there is none.
pub type Named = Result<Arc<Document>, String>;

/// What a step without a unit of its own goes on with.
#[derive(Clone, Default)]
struct Before {
    named: Option<Named>,
    used: Option<Named>,
}

/// The units of a step with what it tries on them, solved or not.
#[derive(Clone, Debug)]
pub struct StepUnits {
    /// The step's unit, or why there is none.
    pub first: Named,
    /// The second one, where the step has one.
    pub second: Option<Named>,
}

/// The units of every step of a lesson. `open` opens a unit file of the lesson's own folder by its name, or
/// says in a sentence why it does not; each is asked for once.
pub fn units_of_steps(
    lesson: &Lesson,
    mut open: impl FnMut(&str) -> Result<Document, String>,
) -> Vec<StepUnits> {
    let mut opened: BTreeMap<String, Named> = BTreeMap::new();
    let mut named = |unit: &UnitUse| -> Option<Named> {
        if let Some(document) = &unit.embedded {
            return Some(Ok(Arc::new((**document).clone())));
        }
        let file = unit.file.as_ref()?;
        let found = opened.entry(file.clone());
        Some(found.or_insert_with(|| open(file).map(Arc::new)).clone())
    };
    let none = || Err("no step up to here has a unit".to_owned());
    let mut before = Before::default();
    let units = lesson.steps.iter().map(|step| {
        if let Some(unit) = &step.unit {
            if let Some(other) = named(unit) {
                before.named = Some(other);
            }
            let document = before.named.clone();
            before.used = document.map(|document| Ok(tried(document?, unit)));
        }
        let second = step.second.as_ref().map(|second| {
            let document = named(second).or_else(|| before.named.clone());
            Ok(tried(document.unwrap_or_else(none)?, second))
        });
        StepUnits {
            first: before.used.clone().unwrap_or_else(none),
            second,
        }
    });
    units.collect()
}

/// Solves every step of a lesson; `open` as for [`units_of_steps`].
pub fn solve_steps(
    lesson: &Lesson,
    open: impl FnMut(&str) -> Result<Document, String>,
) -> Vec<Result<SolvedStep, StepProblem>> {
    solve_with(lesson, &units_of_steps(lesson, open))
}

/// Solves every step of a lesson with its units, which are those of [`units_of_steps`].
#[must_use]
pub fn solve_with(lesson: &Lesson, units: &[StepUnits]) -> Vec<Result<SolvedStep, StepProblem>> {
    let steps = lesson.steps.iter().zip(units);
    let solved = steps.map(|(step, units)| solve_step(step, units.clone()));
    solved.collect()
}

/// A unit with what a step tries on it.
fn tried(document: Arc<Document>, unit: &UnitUse) -> Arc<Document> {
    if unit.setting.is_none() && unit.ground.is_none() {
        return document;
    }
    let mut tried = (*document).clone();
    if let Some(setting) = &unit.setting {
        tried.setting = setting.clone();
    }
    if let Some(ground) = &unit.ground {
        tried.ground = ground.clone();
    }
    Arc::new(tried)
}

fn solve_step(step: &Step, units: StepUnits) -> Result<SolvedStep, StepProblem> {
    let first = solve_unit(units.first, "")?;
    let second = units.second.map(|unit| solve_unit(unit, "second unit: "));
    let second = second.transpose()?;
    let pair = Pair {
        first: &first,
        second: second.as_ref(),
    };
    let template = Template::parse(&step.text);
    let template = template.map_err(|kind| StepProblem::wrong(kind.to_string()))?;
    let text = template.filled(pair).map_err(StepProblem::wrong)?;
    let hidden = |figure| step.hides(figure);
    let text_asked = template.asked(pair, hidden).map_err(StepProblem::wrong)?;
    let numbers = step.numbers.iter().map(|name| {
        let unknown = || {
            let written = name.clone();
            StepProblem::wrong(LessonFlawKind::NoSuchField { written }.to_string())
        };
        let figure = FigureOf::named(name).ok_or_else(unknown)?;
        let shown = figure.shown(pair).map_err(StepProblem::wrong)?;
        Ok(ShownFigure {
            title: figure.title_in(step.view),
            shown,
        })
    });
    let numbers: Vec<_> = numbers.collect::<Result<_, StepProblem>>()?;
    Ok(SolvedStep {
        first,
        second,
        text,
        text_asked,
        numbers,
    })
}

fn solve_unit(document: Named, whose: &str) -> Result<Solved, StepProblem> {
    let wrong = |why: String| StepProblem::wrong(format!("{whose}{why}"));
    let document = document.map_err(wrong)?;
    let system = document.system();
    Solved::of_shared(document).map_err(|unsolved| match unsolved {
        Unsolved::Flaw(flaw) => wrong(flaw.to_string()),
        Unsolved::Impossible { .. } => StepProblem {
            why: format!("{whose}{}", unsolved.shown_in(system)),
            is_impossible: true,
        },
    })
}
