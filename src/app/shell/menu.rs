//! The menus of the bar, by keyboard as by pointer: each opens by its letter with Alt, and each of its
//! items is taken by its own.

use egui::containers::menu::{MenuState, SubMenu};
use egui::text::{LayoutJob, TextFormat};
use egui::{
    Button, Context, FontSelection, Id, InnerResponse, Key, KeyboardShortcut, LayerId, Modifiers,
    Order, Popup, Response, RichText, Stroke, Ui,
};

/// A menu of the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Menu {
    File,
    Edit,
    View,
}

impl Menu {
    const fn name(self) -> &'static str {
        match self {
            Self::File => "File",
            Self::Edit => "Edit",
            Self::View => "View",
        }
    }

    const fn letter(self) -> Key {
        match self {
            Self::File => Key::F,
            Self::Edit => Key::E,
            Self::View => Key::V,
        }
    }

    /// The keys that open it.
    pub const fn keys(self) -> KeyboardShortcut {
        KeyboardShortcut::new(Modifiers::ALT, self.letter())
    }

    /// Opens it when it is shown next, its first item in hand.
    pub fn open(self, ctx: &Context) {
        let focused = ctx.memory(egui::Memory::focused);
        ctx.data_mut(|data| {
            data.insert_temp(opening(), self);
            // From one menu to another, the first one's place is kept.
            let over: Option<(Self, Id)> = data.get_temp(opened_over());
            let over = over.map(|(_, field)| field).or(focused);
            if let Some(field) = over {
                data.insert_temp(opened_over(), (self, field));
            }
        });
        ctx.request_repaint();
    }

    /// The button in the bar, and the menu under it while it is open.
    pub fn show(self, ui: &mut Ui, items_ui: impl FnOnce(&mut Ui)) -> Response {
        let name = underlined(ui, self.name(), self.letter());
        let InnerResponse { response, inner } = ui.menu_button(name, items_ui);
        let response = response.accessible_name(self.name());
        let popup = Popup::default_response_id(&response);
        let is_asked = ui.data(|data| data.get_temp(opening()) == Some(self));
        if !is_asked {
            self.give_back(ui, &response, inner.is_some());
            return response;
        }
        if inner.is_none() {
            response.request_focus();
            Popup::open_id(ui.ctx(), popup);
            ui.ctx().request_repaint();
            return response;
        }
        // Once it is laid out: its first item is in hand.
        let layer = LayerId::new(Order::Foreground, popup);
        let first = ui.ctx().viewport(|view| {
            let mut items = view.this_pass.widgets.get_layer(layer);
            let first = items.find(|item| item.enabled && item.sense.is_focusable());
            first.map(|item| item.id)
        });
        if let Some(first) = first {
            ui.memory_mut(|memory| memory.request_focus(first));
            ui.data_mut(|data| data.remove::<Self>(opening()));
            ui.ctx().request_repaint();
        }
        response
    }

    /// What had the keys when they opened it has them again once it is closed, unless they went elsewhere.
    fn give_back(self, ui: &Ui, button: &Response, is_open: bool) {
        let over: Option<(Self, Id)> = ui.data(|data| data.get_temp(opened_over()));
        let Some((_, field)) = over.filter(|(menu, _)| *menu == self) else {
            return;
        };
        let is_in_reach = ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()));
        if is_open && !Popup::is_id_open(ui.ctx(), Popup::default_response_id(button)) {
            // It has just been closed: the next frame gives back.
            ui.ctx().request_repaint();
        }
        if is_open || !is_in_reach {
            return;
        }
        ui.data_mut(|data| data.remove::<(Self, Id)>(opened_over()));
        let focused = ui.memory(egui::Memory::focused);
        let is_pointed = ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
        if !is_pointed && focused.is_none_or(|focused| focused == button.id) {
            ui.memory_mut(|memory| memory.request_focus(field));
        }
    }
}

/// An item of an open menu with its letter, and what keys do the same; whether it is taken.
pub fn item_ui(ui: &mut Ui, name: &str, letter: Key, keys: &str) -> Response {
    let text = underlined(ui, name, letter);
    let response = ui.add(Button::new(text).shortcut_text(keys));
    response.accessible_name(name)
}

/// An item that opens a menu of its own, by its letter as by the pointer.
pub fn submenu_ui(ui: &mut Ui, name: &str, letter: Key, items_ui: impl FnOnce(&mut Ui)) {
    let text = underlined(ui, name, letter);
    let response = ui.menu_button(text, items_ui).response;
    let response = response.accessible_name(name);
    if is_pressed(ui, &response, letter) {
        response.request_focus();
        let opened = SubMenu::id_from_widget_id(response.id);
        // A menu that was not shown until now would be taken for one that just closed.
        MenuState::mark_shown(ui.ctx(), opened);
        MenuState::from_ui(ui, |state, _| state.open_item = Some(opened));
        ui.ctx().request_repaint();
    }
}

/// An item of an open menu that is chosen or not, with its letter; whether it is taken.
pub fn choice_ui(ui: &mut Ui, (name, letter): (&str, Key), is_chosen: bool, keys: &str) -> bool {
    let shown = if name.contains(|c: char| c.is_alphabetic()) {
        name.to_owned()
    } else {
        // A number has no letter of its own.
        format!("{name}  ({})", letter.name())
    };
    let text = underlined(ui, &shown, letter);
    let ink = ui.visuals().selection.stroke.color;
    let mut keys = RichText::new(keys);
    if is_chosen {
        // The weak ink of keys cannot be read on what marks the choice.
        keys = keys.color(ink);
    }
    let button = Button::selectable(is_chosen, text).shortcut_text(keys);
    let response = ui.add(button).accessible_name(name);
    is_taken(ui, &response, letter)
}

/// Whether an item is taken, by a click or its letter.
pub fn is_taken(ui: &Ui, item: &Response, letter: Key) -> bool {
    item.clicked() || is_pressed(ui, item, letter)
}

/// Whether the letter of an item was pressed; the press is used up then.
fn is_pressed(ui: &Ui, item: &Response, letter: Key) -> bool {
    item.enabled()
        && !ui.is_sizing_pass()
        && ui.input_mut(|input| input.consume_key(Modifiers::NONE, letter))
}

/// A name with its letter underlined, where it has one.
pub fn underlined(ui: &Ui, name: &str, letter: Key) -> LayoutJob {
    let font = FontSelection::Style(egui::TextStyle::Button).resolve(ui.style());
    let plain = TextFormat {
        font_id: font,
        color: egui::Color32::PLACEHOLDER,
        ..TextFormat::default()
    };
    let marked = TextFormat {
        underline: Stroke::new(1.0, ui.visuals().text_color()),
        ..plain.clone()
    };
    let is_letter = |c: char| {
        letter
            .name()
            .eq_ignore_ascii_case(c.encode_utf8(&mut [0; 4]))
    };
    let mut job = LayoutJob::default();
    let Some((at, c)) = name.char_indices().find(|(_, c)| is_letter(*c)) else {
        job.append(name, 0.0, plain);
        return job;
    };
    let end = at + c.len_utf8();
    for (part, format) in [
        (&name[..at], &plain),
        (&name[at..end], &marked),
        (&name[end..], &plain),
    ] {
        if !part.is_empty() {
            job.append(part, 0.0, format.clone());
        }
    }
    job
}

/// Where it is kept which menu was opened last by its keys, and what had the keys then.
fn opened_over() -> Id {
    Id::unique("menu opened over")
}

/// Where it is kept which menu opens next.
fn opening() -> Id {
    Id::unique("menu to open")
}
