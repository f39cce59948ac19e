//! The step in front: what is seen, what is said, and how.

use egui::{ComboBox, RichText, Ui, Vec2};

use super::numbers::{insert_ui, numbers_ui};
use super::picture::StepPicture;
use super::settings::{SettingsTyped, settings_ui};
use super::texts::{Began, LessonText, TextPlace, flaw_ui, wrong_ui};
use super::units::units_ui;
use super::worked_out::Working;
use crate::app::desk::Desk;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::lesson::{Emphasis, Held, LessonFlaw, LessonPlace, LessonView, Step, Turned};

/// From this width on the picture stands beside the texts.
const BESIDE: f32 = 780.0;

/// The step in front.
pub fn step_form_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    number: usize,
    (working, picture, began, settings): (
        &mut Working,
        &mut StepPicture,
        &mut Began,
        &mut SettingsTyped,
    ),
) {
    let Some(work) = desk.lesson() else { return };
    let lesson = work.shared();
    let Some(step) = lesson.steps.get(number) else {
        ui.label(
            "A lesson begins with its first step: go to a unit in any area, and keep it as a step.",
        );
        return;
    };
    let checked = working.checked(work);
    let flaws = checked.steps.get(number).cloned().unwrap_or_default();
    let units = working.units_of(work, number);
    let of = working.key(work);
    let opened = working.of(work);
    let solved = opened.steps.get(number);
    let step = (number, step);
    let width = ui.available_width();
    let mut texts = |ui: &mut Ui, desk: &mut Desk| {
        texts_ui(ui, desk, step, &flaws, began);
        match solved {
            Some(Ok(solved)) => {
                ui.label(Lettering::Note.of(format!("Reads: {}", solved.text)));
            }
            // What is wrong with the text or a number itself stands under it.
            Some(Err(problem)) if !flaws.iter().any(is_in_words) => {
                wrong_ui(
                    ui,
                    &format!("This step shows why it cannot be shown: {problem}"),
                );
            }
            _ => {}
        }
    };
    if width >= BESIDE {
        let size = Vec2::new(0.45 * width, 0.45 * 0.66 * width);
        ui.horizontal_top(|ui| {
            let left = width - size.x - ui.spacing().item_spacing.x;
            ui.vertical(|ui| {
                ui.set_width(left);
                texts(ui, desk);
            });
            picture.show(ui, (of, opened), number, size);
        });
    } else {
        texts(ui, desk);
        let size = Vec2::new(width.min(420.0), 0.6 * width.min(420.0));
        picture.show(ui, (of, opened), number, size);
    }
    ui.add_space(4.0);
    units_ui(
        ui,
        desk,
        step,
        solved.and_then(|solved| solved.as_ref().ok()),
        &flaws,
    );
    settings_ui(ui, desk, number, units.as_ref(), settings);
    ui.add_space(4.0);
    look_ui(ui, desk, step, &flaws);
    numbers_ui(ui, desk, step);
    flaw_ui(ui, &flaws, LessonPlace::Numbers);
    let notes = LessonText {
        name: "Notes for the presenter",
        change: "notes of the step",
        hint: "What to point at, what to ask, when to wait; nobody else sees them",
        rows: 3,
        place: TextPlace::StepNotes(number),
    };
    notes.show(ui, desk, began);
    flaw_ui(ui, &flaws, LessonPlace::Notes);
}

/// Whether a flaw is in what is read of the step, and says itself why it cannot be filled in.
fn is_in_words(flaw: &LessonFlaw) -> bool {
    matches!(flaw.place(), LessonPlace::Text | LessonPlace::Numbers)
}

/// Title and text.
fn texts_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (number, step): (usize, &Step),
    flaws: &[LessonFlaw],
    began: &mut Began,
) {
    let title = LessonText {
        name: "Title of the step",
        change: "title of the step",
        hint: "A few words over the picture",
        rows: 1,
        place: TextPlace::StepTitle(number),
    };
    title.show(ui, desk, began);
    flaw_ui(ui, flaws, LessonPlace::Title);
    let text = LessonText {
        name: "Text",
        change: "text of the step",
        hint: "Two or three sentences; a number is a field like {sweep}",
        rows: 4,
        place: TextPlace::StepText(number),
    };
    if let Some(field) = text.show(ui, desk, began) {
        insert_ui(ui, desk, (number, step), &field);
    }
    flaw_ui(ui, flaws, LessonPlace::Text);
}

/// How the step is shown.
fn look_ui(ui: &mut Ui, desk: &mut Desk, (number, step): (usize, &Step), flaws: &[LessonFlaw]) {
    let mut edit = |name: &str, edit: &dyn Fn(&mut Step)| {
        desk.edit_lesson(name, None, |lesson| {
            if let Some(step) = lesson.steps.get_mut(number) {
                edit(step);
            }
        });
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("View").family(strong()));
        let mut view = step.view;
        let list = ComboBox::from_id_salt("view of the step")
            .selected_text(view.title())
            .width(230.0);
        let has_second = step.second.is_some();
        let views = LessonView::ALL.into_iter();
        let views = views.filter(|view| has_second || !matches!(view, LessonView::SideBySide(_)));
        let views: Vec<_> = views.collect();
        let list = list_ui(ui, list, |ui, list| {
            list.values(ui, &views, &mut view, |view| view.title().to_owned());
        });
        list.on_hover_text("Side by side once there is a second unit")
            .accessible_name("View of the step");
        if view != step.view {
            edit("view of the step", &|step| step.view = view);
        }
        ui.label(RichText::new("Held still").family(strong()));
        let mut held = step.held;
        let list = ComboBox::from_id_salt("held still")
            .selected_text(held.title())
            .width(190.0);
        let list = list_ui(ui, list, |ui, list| {
            list.values(ui, &Held::ALL, &mut held, |held| held.title().to_owned());
        });
        list.on_hover_text("What stays in its place on the picture from step to step")
            .accessible_name("Held still");
        if held != step.held {
            edit("what is held still", &|step| step.held = held);
        }
        ui.label(RichText::new("Slider").family(strong()));
        let mut slider = step.slider;
        let named = |slider: Option<Turned>| slider.map_or("none", Turned::name).to_owned();
        let offered: Vec<_> = std::iter::once(None).chain(Turned::ALL.map(Some)).collect();
        let list = ComboBox::from_id_salt("slider of the step")
            .selected_text(named(slider))
            .width(130.0);
        let list = list_ui(ui, list, |ui, list| {
            list.values(ui, &offered, &mut slider, named);
        });
        list.on_hover_text("What the presenter can turn before the room")
            .accessible_name("Slider of the step");
        if slider != step.slider {
            edit("slider of the step", &|step| step.slider = slider);
        }
        let mut motion = step.motion;
        let turning = ui.checkbox(&mut motion, "The reel turns");
        let turning = turning.on_hover_text("Over stems of grass; the unit needs both its speeds");
        if turning.changed() {
            edit("motion of the step", &|step| step.motion = motion);
        }
    });
    flaw_ui(ui, flaws, LessonPlace::View);
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Emphasis").family(strong()));
        for what in Emphasis::ALL {
            let mut is_strong = step.emphasis.contains(&what);
            if ui.checkbox(&mut is_strong, what.title()).changed() {
                edit("emphasis of the step", &|step| {
                    step.emphasis.retain(|other| *other != what);
                    if is_strong {
                        step.emphasis.push(what);
                    }
                });
            }
        }
    });
    flaw_ui(ui, flaws, LessonPlace::Emphasis);
}
