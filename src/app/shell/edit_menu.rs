//! The Edit menu: taking steps back and doing them again.

use egui::text_edit::TextEditState;
use egui::{Context, Key, Ui};

use super::keys::{Deed, keys_of};
use super::menu::{Menu, is_taken, item_ui};
use crate::app::desk::Desk;

/// The menu, which tells what it would do while the pointer rests on it.
pub fn edit_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let (undo, redo) = (undo_text(desk), redo_text(desk));
    let keys = |deed| keys_of(ui.ctx(), deed);
    let (undo_keys, redo_keys) = (keys(Deed::Undo), keys(Deed::Redo));
    let help = format!("{undo} ({undo_keys})\n{redo} ({redo_keys})");
    let menu = Menu::Edit.show(ui, |ui| {
        let is_free = !desk.is_asking();
        let item = |ui: &mut Ui, is_open: bool, text: &str, letter, keys: &str| {
            let item = |ui: &mut Ui| item_ui(ui, text, letter, keys);
            let item = ui.add_enabled_ui(is_free && is_open, item).inner;
            let is_taken = is_taken(ui, &item, letter);
            if is_taken {
                ui.close();
            }
            is_taken
        };
        if item(ui, desk.undone().is_some(), &undo, Key::U, &undo_keys) {
            desk.undo();
        }
        if item(ui, desk.redone().is_some(), &redo, Key::R, &redo_keys) {
            desk.redo();
        }
    });
    menu.on_hover_text(help);
}

fn undo_text(desk: &Desk) -> String {
    let step = desk.undone();
    step.map_or_else(
        || "No step to undo".to_owned(),
        |name| format!("Undo {name}"),
    )
}

fn redo_text(desk: &Desk) -> String {
    let step = desk.redone();
    step.map_or_else(
        || "No step to redo".to_owned(),
        |name| format!("Redo {name}"),
    )
}

/// Whether a key may do this now: a text field takes back what was typed into it first.
pub fn may_be_done(ctx: &Context, desk: &Desk, deed: Deed) -> bool {
    match deed {
        Deed::Undo => !Typing::of(ctx, desk).can_undo,
        Deed::Redo => !Typing::of(ctx, desk).can_redo,
        _ => true,
    }
}

/// What the text field that has the cursor can take back by itself.
#[derive(Clone, Copy, Debug, Default)]
struct Typing {
    can_undo: bool,
    can_redo: bool,
}

impl Typing {
    fn of(ctx: &Context, desk: &Desk) -> Self {
        let found = ctx.memory(egui::Memory::focused).and_then(|field| {
            let draft = desk.session().drafts().held_by(field)?;
            let state = TextEditState::load(ctx, field)?;
            let now = (state.cursor.char_range()?, draft.text.clone());
            let undoer = state.undoer();
            Some(Self {
                can_undo: draft.text != draft.began && undoer.has_undo(&now),
                can_redo: undoer.has_redo(&now),
            })
        });
        found.unwrap_or_default()
    }
}
