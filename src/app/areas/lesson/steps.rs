//! The list of a lesson's steps; a click brings one to the front.

use egui::{Align, Button, Key, Layout, Modifiers, ScrollArea, Sense, TextWrapMode, Ui, Vec2};

use super::worked_out::Working;
use crate::analysis::Level;
use crate::app::desk::Desk;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::units::clipped;

/// Letters of a title that are named.
const LONGEST: usize = 80;

/// The list, and what is done with the step in front in the order of the others.
pub fn steps_ui(ui: &mut Ui, desk: &mut Desk, front: &mut usize, working: &mut Working) {
    ui.label(Lettering::Heading.of("Steps"));
    let Some(work) = desk.lesson() else { return };
    let lesson = work.lesson();
    let count = lesson.steps.len();
    if count == 0 {
        ui.label(
            "None yet. Bring a unit to the front as it is to be seen, then keep it as a step.",
        );
        return;
    }
    let titles = lesson.steps.iter();
    let titles = titles.map(|step| clipped(&step.title, LONGEST).to_string());
    let titles: Vec<_> = titles.zip(working.why_wrong(work)).collect();
    order_ui(ui, desk, front, count);
    ScrollArea::vertical()
        .id_salt("lesson steps")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            ui.spacing_mut().item_spacing.y = 2.0;
            for (number, (title, why_wrong)) in titles.iter().enumerate() {
                let why_wrong = why_wrong.as_deref();
                if step_ui(ui, (number, title), why_wrong, *front == number) {
                    *front = number;
                }
            }
            followed.bring_in(ui);
        });
}

/// Moves the step in front up or down the list by Alt and an arrow.
pub fn move_by_key(ui: &Ui, desk: &mut Desk, front: &mut usize) {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::ALT, key));
    let count = desk.lesson().map_or(0, |work| work.lesson().steps.len());
    if pressed(Key::ArrowUp) && *front > 0 {
        move_step(desk, front, *front - 1);
    }
    if pressed(Key::ArrowDown) && *front + 1 < count {
        move_step(desk, front, *front + 1);
    }
}

/// Moves the step in front to another place, where it stays in front.
fn move_step(desk: &mut Desk, front: &mut usize, to: usize) {
    let at = std::mem::replace(front, to);
    desk.edit_lesson("step moved", None, |lesson| lesson.move_step(at, to));
}

fn order_ui(ui: &mut Ui, desk: &mut Desk, front: &mut usize, count: usize) {
    let at = *front;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().button_padding.x = 6.0;
        let button = |ui: &mut Ui, is_open: bool, text: &str, name: &str, key: &str| {
            let button = ui.add_enabled(is_open, Button::new(text));
            let button = button.on_hover_text(format!("{name}{key}"));
            button.accessible_name(name).clicked()
        };
        if button(ui, at > 0, "Up", "Move this step up", " (Alt+Up)") {
            move_step(desk, front, at - 1);
        }
        let is_last = at + 1 >= count;
        if button(ui, !is_last, "Down", "Move this step down", " (Alt+Down)") {
            move_step(desk, front, at + 1);
        }
        if button(ui, true, "Copy", "Copy this step behind itself", "") {
            desk.edit_lesson("step copied", None, |lesson| lesson.double_step(at));
            *front = at + 1;
        }
        if button(ui, true, "Delete", "Delete this step", "") {
            desk.edit_lesson("step deleted", None, |lesson| lesson.take_step_out(at));
        }
    });
}

/// A step in the list; one that is to be put right is marked, and says why under the pointer.
fn step_ui(
    ui: &mut Ui,
    (number, title): (usize, &str),
    why_wrong: Option<&str>,
    is_front: bool,
) -> bool {
    ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
        if why_wrong.is_some() {
            symbol(ui, place, Level::Over, theme(ui.ctx()));
        }
        let width = ui.available_width();
        let words = Lettering::Body.of(format!("{}. {title}", number + 1));
        let button = Button::selectable(is_front, words)
            .min_size(Vec2::new(width, 27.0))
            .wrap_mode(TextWrapMode::Truncate);
        let words_first = Layout::top_down_justified(Align::Min);
        let button = ui.with_layout(words_first, |ui| ui.add(button)).inner;
        let wrong = why_wrong.map_or("", |_| ", to be put right");
        let name = format!("Step {}: {title}{wrong}", number + 1);
        let button = match why_wrong {
            Some(why) => button.on_hover_text(why),
            None => button,
        };
        button.accessible_name(name).clicked()
    })
    .inner
}
