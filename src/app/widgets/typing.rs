//! Text fields as they are entered.

use egui::text::CCursorRange;
use egui::text_edit::TextEditState;
use egui::{Response, Ui};

/// Takes the whole text of a field into hand as the field is entered, so that typing replaces it. A
/// drag that enters it takes what it goes over instead.
pub fn take_all_in_hand(ui: &Ui, field: &Response, text: &str) {
    let pressed = field.id.with("entered by a press");
    let is_pressed = ui.input(|input| input.pointer.any_down());
    if field.gained_focus() && is_pressed {
        ui.data_mut(|data| data.insert_temp(pressed, ()));
        return;
    }
    let was_pressed = !is_pressed && ui.data_mut(|data| data.remove_temp::<()>(pressed).is_some());
    if !(field.gained_focus() || was_pressed && field.clicked()) {
        return;
    }
    take_all(ui, field, text);
}

/// Takes the whole text of a field that has the keys into hand.
pub fn take_all(ui: &Ui, field: &Response, text: &str) {
    if let Some(mut state) = TextEditState::load(ui.ctx(), field.id) {
        let all = CCursorRange::select_all_str(text);
        state.cursor.set_char_range(Some(all));
        state.store(ui.ctx(), field.id);
        ui.ctx().request_repaint();
    }
}
