//! The Lesson area: a lesson being made, a step at a time.

mod handout;
mod no_lesson;
mod numbers;
mod picture;
mod settings;
mod step_form;
mod steps;
mod texts;
mod tools;
mod typed;
mod units;
mod worked_out;

use egui::{CentralPanel, Key, Panel, ScrollArea, Ui};

use self::handout::handout;
use self::no_lesson::NO_LESSON;
use self::picture::StepPicture;
use self::settings::SettingsTyped;
use self::step_form::step_form_ui;
use self::steps::{move_by_key, steps_ui};
use self::texts::Began;
use self::tools::tools_ui;
use self::worked_out::Working;
use super::{About, Area};
use crate::app::desk::{Desk, DeskWork as _, InHand, LessonWork, SessionId, ToPrint, WorkKind};
use crate::app::files::LESSON_AREA;
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;

pub const ABOUT: About = About {
    id: LESSON_AREA,
    title: "Lesson",
    purpose: "Make a lesson: units shown and explained in steps",
    key: Key::Num7,
    picture: None,
};

/// Width of the list of steps.
const STEPS: f32 = 236.0;

/// The area. What is looked at belongs to the lesson.
#[derive(Debug, Default)]
pub struct LessonArea {
    working: Working,
    /// The lesson that the rest is of.
    of: Option<SessionId>,
    /// The step in front, the first being 0.
    front: usize,
    began: Began,
    picture: StepPicture,
    settings: SettingsTyped,
}

impl Area for LessonArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let kept = desk.step_wanted();
        let Some(lesson) = desk.lesson() else {
            self.of = None;
            CentralPanel::default_margins().show(ui, |ui| NO_LESSON.show(ui, desk, |_, _| {}));
            return;
        };
        self.begin(lesson, kept);
        self.working.look(ui.ctx(), lesson);
        let is_free = !desk.is_asking();
        if is_free {
            move_by_key(ui, desk, &mut self.front);
        }
        Panel::top("lesson tools").show(ui, |ui| {
            ui.add_enabled_ui(is_free, |ui| {
                let kept = (&mut self.working, &mut self.began);
                tools_ui(ui, desk, &mut self.front, kept);
            });
        });
        Panel::left("lesson steps")
            .exact_size(STEPS)
            .resizable(false)
            .show(ui, |ui| {
                ui.add_enabled_ui(is_free, |ui| {
                    steps_ui(ui, desk, &mut self.front, &mut self.working);
                });
            });
        // A step may have been deleted in this frame.
        let count = desk.lesson().map_or(0, |work| work.lesson().steps.len());
        self.front = self.front.min(count.saturating_sub(1));
        CentralPanel::default_margins().show(ui, |ui| {
            ui.add_enabled_ui(is_free, |ui| self.front_ui(ui, desk));
        });
    }

    fn has_form(&self, _desk: &Desk) -> bool {
        false
    }

    fn in_hand(&self) -> InHand {
        InHand::Work(WorkKind::Lesson)
    }

    fn to_print(&mut self, desk: &Desk) -> Result<ToPrint, String> {
        Ok(handout(desk).map_or_else(ToPrint::default, ToPrint::Lesson))
    }

    fn step_shown(&self, desk: &Desk) -> Option<usize> {
        let lesson = desk.lesson()?;
        let last = lesson.lesson().steps.len().checked_sub(1)?;
        let is_seen = self.of == Some(lesson.id());
        Some(if is_seen { self.front.min(last) } else { 0 })
    }

    fn table(&mut self, _desk: &Desk) -> Option<Result<String, String>> {
        Some(Err("A lesson has no table.".to_owned()))
    }
}

impl LessonArea {
    /// Begins with another lesson at its first step, and goes to a step that was kept since.
    fn begin(&mut self, lesson: &LessonWork, kept: Option<usize>) {
        let count = lesson.lesson().steps.len();
        if self.of != Some(lesson.id()) {
            *self = Self {
                of: Some(lesson.id()),
                ..Self::default()
            };
        }
        self.front = kept.unwrap_or(self.front);
        self.front = self.front.min(count.saturating_sub(1));
    }

    /// The step in front.
    fn front_ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        ScrollArea::vertical()
            .id_salt(("lesson step", self.front))
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                step_form_ui(
                    ui,
                    desk,
                    self.front,
                    (
                        &mut self.working,
                        &mut self.picture,
                        &mut self.began,
                        &mut self.settings,
                    ),
                );
                ui.add_space(14.0);
                caution_in_short_ui(ui);
                followed.bring_in(ui);
            });
    }
}
