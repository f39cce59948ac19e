//! The texts of a lesson while they are written: each goes into it as it is typed, and what is wrong with
//! it is marked at once.

use egui::{Id, Key, Response, RichText, TextEdit, Ui};

use crate::analysis::Level;
use crate::app::desk::Desk;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::words::capitalised;
use crate::lesson::{Lesson, LessonFlaw, LessonPlace};

/// What stood in the field in hand when it was entered, which Escape brings back.
#[derive(Debug, Default)]
pub struct Began(Option<(Id, String)>);

/// A text of the lesson.
pub struct LessonText<'a> {
    /// Its accessible name, and the name over it.
    pub name: &'a str,
    /// What undo calls a change of it.
    pub change: &'a str,
    pub hint: &'a str,
    /// How many lines it has room for; one is a single line for good.
    pub rows: usize,
    /// Where it stands in the lesson.
    pub place: TextPlace,
}

/// Where a text stands in a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextPlace {
    /// The lesson's title.
    Title,
    /// The title of a step.
    StepTitle(usize),
    /// What is said in a step.
    StepText(usize),
    /// A step's notes.
    StepNotes(usize),
}

impl TextPlace {
    fn of(self, lesson: &Lesson) -> Option<&String> {
        let step = |number: usize| lesson.steps.get(number);
        match self {
            Self::Title => Some(&lesson.title),
            Self::StepTitle(number) => step(number).map(|step| &step.title),
            Self::StepText(number) => step(number).map(|step| &step.text),
            Self::StepNotes(number) => step(number).map(|step| &step.notes),
        }
    }

    fn of_mut(self, lesson: &mut Lesson) -> Option<&mut String> {
        let steps = &mut lesson.steps;
        match self {
            Self::Title => Some(&mut lesson.title),
            Self::StepTitle(number) => steps.get_mut(number).map(|step| &mut step.title),
            Self::StepText(number) => steps.get_mut(number).map(|step| &mut step.text),
            Self::StepNotes(number) => steps.get_mut(number).map(|step| &mut step.notes),
        }
    }
}

impl LessonText<'_> {
    /// The text with its name over it.
    pub fn show(&self, ui: &mut Ui, desk: &mut Desk, began: &mut Began) -> Option<Response> {
        ui.label(RichText::new(self.name).family(strong()));
        self.field_ui(ui, desk, began)
    }

    /// The field alone.
    pub fn field_ui(&self, ui: &mut Ui, desk: &mut Desk, began: &mut Began) -> Option<Response> {
        let before = self.place.of(desk.lesson()?.lesson())?.clone();
        let mut text = before.clone();
        let edit = if self.rows > 1 {
            TextEdit::multiline(&mut text).desired_rows(self.rows)
        } else {
            TextEdit::singleline(&mut text)
        };
        let edit = edit
            .id_salt(self.name)
            .hint_text(self.hint)
            .desired_width(f32::INFINITY);
        let response = ui.add(edit).accessible_name(self.name);
        if response.gained_focus() {
            began.0 = Some((response.id, before));
        }
        let held = began.0.take_if(|(id, _)| *id == response.id);
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape)) {
            if let Some((_, began)) = held {
                // A step of its own, so that undo brings the typed words back.
                self.put(desk, None, began);
            }
        } else {
            if response.changed() {
                self.put(desk, Some(response.id), text);
            }
            if response.has_focus() {
                began.0 = held;
            }
        }
        Some(response)
    }

    fn put(&self, desk: &mut Desk, holder: Option<Id>, text: String) {
        desk.edit_lesson(self.change, holder, |lesson| {
            if let Some(place) = self.place.of_mut(lesson) {
                *place = text;
            }
        });
    }
}

/// Says what is wrong at a place of the step, if anything is.
pub fn flaw_ui(ui: &mut Ui, flaws: &[LessonFlaw], place: LessonPlace) {
    for flaw in flaws.iter().filter(|flaw| flaw.place() == place) {
        wrong_ui(ui, &flaw.kind.to_string());
    }
}

/// Says what is wrong.
pub fn wrong_ui(ui: &mut Ui, why: &str) {
    let ink = colour(theme(ui.ctx()).level(Level::Over));
    let why = capitalised(why.trim_end_matches('.'));
    ui.label(Lettering::Note.of(format!("{why}.")).color(ink));
}
