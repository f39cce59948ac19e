//! The Edit menu: taking steps back and doing them again, and their keys.

use egui::text_edit::TextEditState;
use egui::{Button, Context, Key, KeyboardShortcut, Modifiers, Ui};

use crate::app::desk::Desk;

const UNDO: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::Z);
const REDO: KeyboardShortcut =
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
const REDO_TOO: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::Y);

/// The menu, which tells what it would do while the pointer rests on it.
pub fn edit_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let (undo, redo) = (undo_text(desk), redo_text(desk));
    let keys = |shortcut| ui.ctx().format_shortcut(shortcut);
    let help = format!("{undo} ({})\n{redo} ({})", keys(&UNDO), keys(&REDO));
    let menu = ui.menu_button("Edit", |ui| {
        let keys = |shortcut| ui.ctx().format_shortcut(shortcut);
        let undo = Button::new(undo).shortcut_text(keys(&UNDO));
        let redo = Button::new(redo).shortcut_text(keys(&REDO));
        let is_free = !desk.is_asking();
        if ui
            .add_enabled(is_free && desk.undone().is_some(), undo)
            .clicked()
        {
            desk.undo();
        }
        if ui
            .add_enabled(is_free && desk.redone().is_some(), redo)
            .clicked()
        {
            desk.redo();
        }
    });
    menu.response.on_hover_text(help);
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

/// Does what the keys ask for. A text field takes back what was typed into it first.
pub fn undo_shortcuts(ctx: &Context, desk: &mut Desk) {
    let is_pressed = |shortcut| ctx.input_mut(|input| input.consume_shortcut(shortcut));
    let typing = Typing::of(ctx, desk);
    // The longer one first: it holds the shorter one.
    if typing.can_redo {
        // The field's own.
    } else if is_pressed(&REDO) || is_pressed(&REDO_TOO) {
        desk.redo();
        return;
    }
    let is_redo = ctx.input(|input| input.modifiers.shift);
    if !is_redo && !typing.can_undo && is_pressed(&UNDO) {
        desk.undo();
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
