//! Shortcuts for files.

use egui::{Context, Key, KeyboardShortcut, Modifiers};

use super::opening::{Asking, ask_first};
use super::outside::save;
use super::saving::save_as;
use crate::app::desk::Desk;

const COMMAND: Modifiers = Modifiers::COMMAND;
pub const NEW: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::N);
pub const OPEN: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::O);
pub const SAVE: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::S);
pub const SAVE_AS: KeyboardShortcut = KeyboardShortcut::new(COMMAND.plus(Modifiers::SHIFT), Key::S);

/// Does what a shortcut asks for.
pub fn shortcuts(desk: &mut Desk, ctx: &Context) {
    // The longer one first: it holds the shorter one.
    if ctx.input_mut(|input| input.consume_shortcut(&SAVE_AS)) {
        save_as(desk, |_, is_saved| is_saved);
    } else if ctx.input_mut(|input| input.consume_shortcut(&SAVE)) {
        save(desk, |_, is_saved| is_saved);
    } else if ctx.input_mut(|input| input.consume_shortcut(&OPEN)) {
        ask_first(desk, Asking::Choose);
    } else if ctx.input_mut(|input| input.consume_shortcut(&NEW)) {
        ask_first(desk, Asking::New);
    }
}
