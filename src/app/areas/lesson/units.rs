//! Which units a step shows, and the unit in front taken in their place.

use egui::{Button, RichText, Ui};

use super::texts::{flaw_ui, wrong_ui};
use crate::app::desk::Desk;
use crate::app::widgets::lettering::strong;
use crate::lesson::{LessonFlaw, LessonPlace, LessonView, SolvedStep, Step, UnitUse};
use crate::units::clipped;

/// Letters of a unit's name that are shown.
const LONGEST_NAME: usize = 60;

/// The step's unit and the one beside it.
pub fn units_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (number, step): (usize, &Step),
    solved: Option<&SolvedStep>,
    flaws: &[LessonFlaw],
) {
    let name = |document: &crate::unit::Document| clipped(&document.name, LONGEST_NAME).to_string();
    let first = solved.map(|solved| name(&solved.first.document));
    let second = solved.and_then(|solved| solved.second.as_ref());
    let second = second.map(|second| name(&second.document));
    let why_not = desk.why_not_current();
    let take_button = |ui: &mut Ui, text: &str| {
        let button = ui.add_enabled(why_not.is_none(), Button::new(text));
        let button = button.on_hover_text("With its setting and its ground as they are now");
        let button = match &why_not {
            Some(why) => button.on_disabled_hover_text(why),
            None => button,
        };
        button.clicked()
    };
    let mut taken = None;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Unit").family(strong()));
        ui.label(told(step.unit.as_ref(), first));
        if take_button(ui, "Take the unit in front") {
            taken = Some(false);
        }
    });
    flaw_ui(ui, flaws, LessonPlace::Unit);
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Beside it").family(strong()));
        ui.label(match &step.second {
            None => "no second unit".to_owned(),
            second_unit => told(second_unit.as_ref(), second),
        });
        if take_button(ui, "Take the unit in front beside it") {
            taken = Some(true);
        }
        if step.second.is_some() && ui.button("No second unit").clicked() {
            desk.edit_lesson("no second unit", None, |lesson| {
                if let Some(step) = lesson.steps.get_mut(number) {
                    step.second = None;
                    step.drop_wrong(true);
                    if let LessonView::SideBySide(view) = step.view {
                        step.view = view.alone();
                    }
                }
            });
        }
    });
    flaw_ui(ui, flaws, LessonPlace::Second);
    if let Some(is_second) = taken {
        match desk.unit_in_front_for_step() {
            Ok(unit) => {
                let change = if is_second {
                    "second unit"
                } else {
                    "unit of the step"
                };
                desk.edit_lesson(change, None, |lesson| {
                    if let Some(step) = lesson.steps.get_mut(number) {
                        let place = if is_second {
                            &mut step.second
                        } else {
                            &mut step.unit
                        };
                        *place = Some(unit);
                        step.drop_wrong(is_second);
                    }
                });
            }
            Err(why) => wrong_ui(ui, &why),
        }
    }
}

/// Where a unit comes from, and its name where it opens.
fn told(unit: Option<&UnitUse>, name: Option<String>) -> String {
    let from = match unit {
        None => "as in the step before".to_owned(),
        Some(UnitUse {
            file: Some(file), ..
        }) => {
            format!("from {}", clipped(file, LONGEST_NAME))
        }
        Some(UnitUse {
            embedded: Some(_), ..
        }) => "written out in the lesson".to_owned(),
        Some(_) => "that of the step before".to_owned(),
    };
    let set = unit.is_some_and(|unit| unit.setting.is_some() || unit.ground.is_some());
    let set = if set { ", set for this step" } else { "" };
    match name {
        Some(name) => format!("{name} ({from}{set})"),
        None => format!("{from}{set}"),
    }
}
