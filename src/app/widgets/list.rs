//! A list to choose one from: it opens on what is chosen, arrow keys go through it, Enter takes one
//! and closes it.

use egui::{Align, ComboBox, EventFilter, Id, Key, Popup, Response, Ui, WidgetText};

/// A list while it is open.
#[derive(Clone, Copy, Debug)]
pub struct OpenList {
    /// Whether it has only just opened.
    is_new: bool,
}

impl OpenList {
    /// Offers one; whether it was taken.
    pub fn offer(self, ui: &mut Ui, is_chosen: bool, name: impl Into<WidgetText>) -> bool {
        let offer = ui.selectable_label(is_chosen, name.into());
        if is_chosen && self.is_new {
            offer.request_focus();
            offer.scroll_to_me(Some(Align::Center));
        }
        let is_taken = offer.clicked();
        if is_taken {
            ui.close();
        }
        is_taken
    }

    /// Offers some values by their names; the one that is taken is the value then.
    pub fn values<T: Copy + PartialEq>(
        self,
        ui: &mut Ui,
        offered: &[T],
        value: &mut T,
        name: impl Fn(T) -> String,
    ) {
        let before = *value;
        for offer in offered {
            if self.offer(ui, *offer == before, name(*offer)) {
                *value = *offer;
            }
        }
    }
}

/// Shows a list; `offers` offers what stands in it, while it is open.
pub fn list_ui(
    ui: &mut Ui,
    list: ComboBox<'_>,
    offers: impl FnOnce(&mut Ui, OpenList),
) -> Response {
    let shown = list.show_ui(ui, |ui| {
        let shown_in = shown_in(ui.layer_id().id);
        let pass = ui.ctx().cumulative_pass_nr();
        let before: Option<u64> = ui.data(|data| data.get_temp(shown_in));
        let is_new = before.is_none();
        if !ui.is_sizing_pass() {
            ui.data_mut(|data| data.insert_temp(shown_in, pass));
        }
        offers(ui, OpenList { is_new });
    });
    let response = shown.response;
    let popup = response.id.with("popup");
    let is_open = Popup::is_id_open(ui.ctx(), popup);
    if is_open {
        return response;
    }
    let was_open = ui.data_mut(|data| data.remove_temp::<u64>(shown_in(popup)).is_some());
    if was_open {
        response.request_focus();
    } else if response.has_focus() {
        let filter = EventFilter {
            vertical_arrows: true,
            ..EventFilter::default()
        };
        let opens = ui.input(|input| {
            let is_pressed = |key| input.key_pressed(key);
            is_pressed(Key::ArrowDown) || is_pressed(Key::ArrowUp)
        });
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
        if opens {
            Popup::open_id(ui.ctx(), popup);
            ui.ctx().request_repaint();
        }
    }
    response
}

/// Where it is kept that a list is open.
fn shown_in(popup: Id) -> Id {
    popup.with("shown in pass")
}
