//! The lesson's steps solved, anew when the lesson changes.

use std::collections::BTreeMap;
use std::path::PathBuf;

use egui::{Context, Event};

use crate::app::desk::{DeskWork as _, LessonWork, SessionId};
use crate::app::widgets::kept::Kept;
use crate::command::{OpenLesson, unit_of_lesson};
use crate::lesson::{LessonFlaw, StepUnits, solve_steps, units_of_steps};
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

/// The steps, and the unit files that they name as they were when they were last looked at.
#[derive(Debug, Default)]
pub struct Working {
    checked: Kept<(SessionId, u64), Checked>,
    steps: Kept<WorkedOutOf, OpenLesson>,
    units_of_steps: Kept<WorkedOutOf, Vec<StepUnits>>,
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
        self.checked.get((lesson.id(), lesson.revision()), |_| {
            let steps = 0..lesson.lesson().steps.len();
            Checked {
                steps: steps
                    .map(|number| lesson.lesson().flaws_of_step(number))
                    .collect(),
                why_not_savable: lesson.why_not_savable(),
            }
        })
    }

    /// The lesson with its steps solved.
    pub fn of(&mut self, lesson: &LessonWork) -> &OpenLesson {
        let key = self.key(lesson);
        let units = &mut self.units;
        self.steps.get(key, |_| {
            let file = lesson.file_in_folder();
            let lesson = lesson.lesson().clone();
            let steps = solve_steps(&lesson, |name| {
                let unit = units.entry(name.to_owned());
                unit.or_insert_with(|| unit_of_lesson(file.as_deref(), name))
                    .clone()
            });
            OpenLesson {
                lesson,
                steps,
                digest: String::new(),
            }
        })
    }

    /// The units of a step, with what it tries on them; none where there is no such step.
    pub fn units_of(&mut self, lesson: &LessonWork, number: usize) -> Option<StepUnits> {
        let key = self.key(lesson);
        let units = &mut self.units;
        let of_steps = self.units_of_steps.get(key, |_| {
            let file = lesson.file_in_folder();
            units_of_steps(lesson.lesson(), |name| {
                let unit = units.entry(name.to_owned());
                unit.or_insert_with(|| unit_of_lesson(file.as_deref(), name))
                    .clone()
            })
        });
        of_steps.get(number).cloned()
    }
}
