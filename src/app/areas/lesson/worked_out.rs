//! The lesson's steps solved, anew when the lesson changes.

use std::collections::BTreeMap;
use std::path::PathBuf;

use egui::{Context, Event};

use crate::app::desk::{DeskWork as _, LessonWork, SessionId};
use crate::app::widgets::kept::Kept;
use crate::command::{OpenLesson, unit_of_lesson};
use crate::lesson::{LessonFlaw, StepUnits, solve_with, units_of_steps};
use crate::unit::Document;

/// What the steps are worked out from.
pub type WorkedOutOf = (SessionId, u64, u64);

/// What makes no sense in a lesson.
#[derive(Debug)]
pub struct Checked {
    /// In each of its steps.
    pub steps: Vec<Vec<LessonFlaw>>,
    /// Why it cannot be saved; none where it can.
    pub why_not_savable: Option<String>,
}

impl Checked {
    fn of(lesson: &LessonWork) -> Self {
        let steps = 0..lesson.lesson().steps.len();
        Self {
            steps: steps
                .map(|number| lesson.lesson().flaws_of_step(number))
                .collect(),
            why_not_savable: lesson.why_not_savable(),
        }
    }
}

/// The steps with all that is worked out from them.
#[derive(Debug)]
struct WorkedOut {
    opened: OpenLesson,
    /// The units of each.
    units: Vec<StepUnits>,
    /// Why each is to be put right; none where it need not be.
    why_wrong: Vec<Option<String>>,
}

/// The steps, and the unit files that they name as they were when they were last looked at.
#[derive(Debug, Default)]
pub struct Working {
    checked: Kept<(SessionId, u64), Checked>,
    steps: Kept<WorkedOutOf, WorkedOut>,
    units: BTreeMap<String, Result<Document, String>>,
    folder: Option<PathBuf>,
    /// How often the files were looked at anew.
    looks: u64,
    /// The pass in which the area was seen last.
    seen: u64,
}

impl Working {
    /// Looks at the unit files anew when the area or the window is come back to, or the lesson went to
    /// another folder: they may have been changed meanwhile.
    pub fn look(&mut self, ctx: &Context, lesson: &LessonWork) {
        let pass = ctx.cumulative_pass_nr();
        let is_focus = |event: &Event| matches!(event, Event::WindowFocused(true));
        let is_come_back = ctx.input(|input| input.events.iter().any(is_focus));
        let was_away = std::mem::replace(&mut self.seen, pass) + 2 < pass;
        let folder = lesson.folder();
        if is_come_back || was_away || folder != self.folder {
            self.folder = folder;
            self.units.clear();
            self.looks += 1;
        }
    }

    /// What the steps of a lesson are worked out from.
    pub fn key(&self, lesson: &LessonWork) -> WorkedOutOf {
        (lesson.id(), lesson.revision(), self.looks)
    }

    /// What makes no sense in a lesson.
    pub fn checked(&mut self, lesson: &LessonWork) -> &Checked {
        self.checked
            .get((lesson.id(), lesson.revision()), |_| Checked::of(lesson))
    }

    /// The lesson with its steps solved.
    pub fn of(&mut self, lesson: &LessonWork) -> &OpenLesson {
        &self.worked_out(lesson).opened
    }

    /// The units of a step, with what it tries on them; none where there is no such step.
    pub fn units_of(&mut self, lesson: &LessonWork, number: usize) -> Option<StepUnits> {
        self.worked_out(lesson).units.get(number).cloned()
    }

    /// Why each step is to be put right: what makes no sense in it, or else why it cannot be shown; none for
    /// one that is right.
    pub fn why_wrong(&mut self, lesson: &LessonWork) -> &[Option<String>] {
        &self.worked_out(lesson).why_wrong
    }

    fn worked_out(&mut self, lesson: &LessonWork) -> &WorkedOut {
        let key = self.key(lesson);
        let of = (lesson.id(), lesson.revision());
        let flaws = &self.checked.get(of, |_| Checked::of(lesson)).steps;
        let units = &mut self.units;
        self.steps.get(key, |_| {
            let file = lesson.file_in_folder();
            let lesson = lesson.lesson().clone();
            let units = units_of_steps(&lesson, |name| {
                let unit = units.entry(name.to_owned());
                unit.or_insert_with(|| unit_of_lesson(file.as_deref(), name))
                    .clone()
            });
            let steps = solve_with(&lesson, &units);
            let why_wrong = flaws.iter().zip(&steps).map(|(flaws, step)| {
                let flaw = flaws.first().map(LessonFlaw::told);
                let problem = step.as_ref().err();
                flaw.or_else(|| Some(format!("It cannot be shown: {}", problem?)))
            });
            WorkedOut {
                why_wrong: why_wrong.collect(),
                opened: OpenLesson {
                    lesson,
                    steps,
                    digest: String::new(),
                },
                units,
            }
        })
    }
}
