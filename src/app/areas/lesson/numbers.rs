//! The fields of a lesson: put into a text, or shown large.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{ComboBox, Response, RichText, Ui};

use crate::app::desk::Desk;
use crate::app::widgets::lettering::strong;
use crate::app::widgets::list::list_ui;
use crate::app::widgets::words::within_line;
use crate::lesson::{FigureOf, MOST_NUMBERS, Step};

/// What a list of fields shows of one.
fn offered(figure: FigureOf) -> String {
    format!("{}  {{{}}}", figure.title(), figure.written())
}

/// The list of fields that can stand in the step's text; the one taken is put where the cursor is.
pub fn insert_ui(ui: &mut Ui, desk: &mut Desk, (number, step): (usize, &Step), text: &Response) {
    let list = ComboBox::from_id_salt("insert a number")
        .selected_text("Insert a number…")
        .width(220.0)
        .height(340.0);
    let mut taken = None;
    let list = list_ui(ui, list, |ui, list| {
        for figure in FigureOf::all(step.second.is_some()) {
            if list.offer(ui, false, offered(figure)) {
                taken = Some(figure);
            }
        }
    });
    list.on_hover_text(
        "Every number that there is for this step's units; it is worked out, never typed",
    )
    .accessible_name("Insert a number");
    let Some(figure) = taken else { return };
    let field = format!("{{{}}}", figure.written());
    let mut state = TextEditState::load(ui.ctx(), text.id).unwrap_or_default();
    let letters = step.text.chars().count();
    let at = state.cursor.char_range();
    let at = at.map_or(letters, |range| {
        usize::from(range.primary.index).min(letters)
    });
    let after = at + field.chars().count();
    desk.edit_lesson("number in the text", None, |lesson| {
        if let Some(step) = lesson.steps.get_mut(number) {
            let byte = step.text.char_indices().nth(at).map(|(byte, _)| byte);
            step.text
                .insert_str(byte.unwrap_or(step.text.len()), &field);
        }
    });
    state
        .cursor
        .set_char_range(Some(CCursorRange::one(CCursor::new(after))));
    state.store(ui.ctx(), text.id);
}

/// Up to four numbers that are shown large.
pub fn numbers_ui(ui: &mut Ui, desk: &mut Desk, (number, step): (usize, &Step)) {
    ui.label(RichText::new("Large numbers").family(strong()));
    ui.horizontal_wrapped(|ui| {
        let shown = step.numbers.len().min(MOST_NUMBERS - 1) + 1;
        for place in 0..shown.max(step.numbers.len()) {
            number_ui(ui, desk, (number, step), place);
        }
        let mut is_hidden = step.numbers_hidden;
        let hidden = ui.checkbox(&mut is_hidden, "Hidden until asked for (N)");
        let hidden = hidden.on_hover_text("The picture keeps its numbers to itself as well");
        if hidden.changed() {
            desk.edit_lesson("numbers hidden", None, |lesson| {
                if let Some(step) = lesson.steps.get_mut(number) {
                    step.numbers_hidden = is_hidden;
                }
            });
        }
    });
}

fn number_ui(ui: &mut Ui, desk: &mut Desk, (number, step): (usize, &Step), place: usize) {
    let written = step.numbers.get(place);
    let now = written.and_then(|name| FigureOf::named(name));
    let selected = match (written, now) {
        (None, _) => "one more…".to_owned(),
        (Some(_), Some(figure)) => figure.title(),
        // An unknown one stands as it was written.
        (Some(name), None) => name.clone(),
    };
    let list = ComboBox::from_id_salt(("large number", place))
        .selected_text(selected)
        .width(190.0)
        .height(340.0)
        .truncate();
    let mut taken = None;
    let list = list_ui(ui, list, |ui, list| {
        if written.is_some() && list.offer(ui, false, "none") {
            taken = Some(None);
        }
        for figure in FigureOf::all(step.second.is_some()) {
            if list.offer(ui, now == Some(figure), figure.title()) {
                taken = Some(Some(figure));
            }
        }
    });
    list.accessible_name(format!("Large number {}", place + 1));
    if let Some(taken) = taken {
        let name = taken.map_or("none".to_owned(), |figure| within_line(&figure.title()));
        let change = format!("large number, {name}");
        desk.edit_lesson(&change, None, |lesson| {
            let Some(step) = lesson.steps.get_mut(number) else {
                return;
            };
            match taken {
                Some(figure) if place < step.numbers.len() => {
                    step.numbers[place] = figure.written();
                }
                Some(figure) => step.numbers.push(figure.written()),
                None => {
                    step.numbers.remove(place);
                }
            }
        });
    }
}
