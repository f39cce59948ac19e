//! The head of the area: which lesson is open, and what is done with the whole of it.

use egui::{Button, Label, RichText, Ui};

use super::handout::handout;
use super::texts::{Began, LessonText, TextPlace};
use super::worked_out::Working;
use crate::app::desk::{Desk, DeskWork as _, ToPrint, WorkKind};
use crate::app::files::{WorkAsking, ask_work_first, choose_work, save_work, save_work_as};
use crate::app::widgets::lettering::strong;
use crate::drawing::PictureView;
use crate::units::clipped;

/// Letters of a name that the head shows.
const LONGEST_NAME: usize = 60;

/// The head.
pub fn tools_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    front: &mut usize,
    (working, began): (&mut Working, &mut Began),
) {
    ui.add_space(2.0);
    ui.horizontal_wrapped(|ui| {
        if ui.button("New lesson").clicked() {
            ask_work_first(desk, WorkKind::Lesson, WorkAsking::New);
        }
        if ui.button("Open lesson…").clicked() {
            choose_work(desk, WorkKind::Lesson);
        }
        let checked = desk.lesson().map(|lesson| working.checked(lesson));
        let why_not = checked.and_then(|checked| checked.why_not_savable.as_ref());
        let save_button = |ui: &mut Ui, name: &str| {
            let button = ui.add_enabled(why_not.is_none(), Button::new(name));
            match why_not {
                Some(why) => {
                    button.on_disabled_hover_text(format!("It cannot be saved yet. {why}."))
                }
                None => button,
            }
        };
        if save_button(ui, "Save lesson").clicked() {
            save_work(desk, WorkKind::Lesson, |_, is_saved| is_saved);
        }
        if save_button(ui, "Save lesson as…").clicked() {
            save_work_as(desk, WorkKind::Lesson, |_, is_saved| is_saved);
        }
        if ui.button("Close lesson").clicked() {
            ask_work_first(desk, WorkKind::Lesson, WorkAsking::Close);
        }
        ui.separator();
        let keep = ui
            .button("Keep the unit in front as a step")
            .on_hover_text("Puts it behind the other steps, with its setting as it is now");
        if keep.clicked() {
            desk.ask_to_keep_step(PictureView::Whole);
        }
        let has_steps = desk
            .lesson()
            .is_some_and(|lesson| !lesson.lesson().steps.is_empty());
        let show = ui
            .add_enabled(has_steps, Button::new("Try from this step"))
            .on_hover_text(
                "Shows the lesson over the whole screen, as to a room; Escape comes back",
            )
            .on_disabled_hover_text("There is no step yet");
        if show.clicked() {
            desk.ask_to_show_lesson(*front);
        }
        let paper = ui
            .add_enabled(has_steps, Button::new("Handout…"))
            .on_hover_text(
                "Prints or saves the lesson as a PDF: picture, text and numbers of each step",
            )
            .on_disabled_hover_text("There is no step yet");
        if paper.clicked()
            && let Some(handout) = handout(desk)
        {
            desk.want_sheet(ToPrint::Lesson(handout));
        }
    });
    ui.horizontal(|ui| {
        name_ui(ui, desk);
        ui.separator();
        ui.label("Title");
        let title = LessonText {
            name: "Title of the lesson",
            change: "title of the lesson",
            hint: "What it is about",
            rows: 1,
            place: TextPlace::Title,
        };
        title.field_ui(ui, desk, began);
    });
    ui.add_space(2.0);
}

/// The name of the lesson's file, and whether it has something to be saved.
fn name_ui(ui: &mut Ui, desk: &Desk) {
    let Some(lesson) = desk.lesson() else { return };
    let name = lesson.file().and_then(|file| file.file_name());
    let name = name.map_or_else(
        || "New lesson, in no file yet".to_owned(),
        |name| clipped(&name.to_string_lossy(), LONGEST_NAME).to_string(),
    );
    let text = if lesson.has_unsaved() {
        format!("• {name}, not saved")
    } else {
        name
    };
    let kept = lesson.file().map_or_else(
        || "Not saved in a file yet".to_owned(),
        |file| file.display().to_string(),
    );
    ui.add(Label::new(RichText::new(text).family(strong())))
        .on_hover_text(kept);
}
