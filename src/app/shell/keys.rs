//! The keys of the window: one table, by which they are handled, listed and told beside what they do.

use std::borrow::Cow;

use egui::gui_zoom::kb_shortcuts::{ZOOM_IN, ZOOM_IN_SECONDARY, ZOOM_OUT, ZOOM_RESET};
use egui::{Context, Key, KeyboardShortcut, Modifiers};

use super::menu::Menu;
use crate::app::areas::{About, Areas};

/// Something a key does, wherever it is pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deed {
    New,
    Open,
    SaveAs,
    Save,
    Quit,
    /// Prints or saves a sheet.
    Print,
    /// Copies the picture of the area in front.
    CopyPicture,
    Redo,
    Undo,
    /// Opens a menu of the bar.
    Menu(Menu),
    /// Takes the form out over the area, or folds it away, in a narrow window.
    Form,
    /// Shows the unit to a room.
    Show,
    /// Keeps the unit in front as a step of a lesson.
    KeepStep,
    /// Tells what the field in hand means.
    Help,
    /// Lists the keys.
    ListKeys,
    Larger,
    Smaller,
    /// The scale that fits the screen.
    FittingScale,
    /// Brings an area to the front.
    Front(&'static About),
}

/// A line of the table.
#[derive(Clone, Debug)]
pub struct Entry {
    pub deed: Deed,
    pub keys: Cow<'static, [KeyboardShortcut]>,
    pub name: &'static str,
    pub does: &'static str,
}

const fn with_command(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn with_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

const fn alone(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

const fn entry(
    deed: Deed,
    keys: &'static [KeyboardShortcut],
    name: &'static str,
    does: &'static str,
) -> Entry {
    Entry {
        deed,
        keys: Cow::Borrowed(keys),
        name,
        does,
    }
}

/// What every area has. Where one key holds another, the longer one stands first.
const EVERYWHERE: [Entry; 20] = [
    entry(
        Deed::New,
        &[with_command(Key::N)],
        "New",
        "Begin a unit of your own",
    ),
    entry(
        Deed::Open,
        &[with_command(Key::O)],
        "Open",
        "Open a unit file",
    ),
    entry(
        Deed::SaveAs,
        &[with_shift(Key::S)],
        "Save as",
        "Save to another file",
    ),
    entry(
        Deed::Save,
        &[with_command(Key::S)],
        "Save",
        "Save to the file that is open",
    ),
    entry(
        Deed::Print,
        &[with_command(Key::P)],
        "Print",
        "Print or save a sheet",
    ),
    entry(
        Deed::CopyPicture,
        &[with_shift(Key::C)],
        "Copy picture",
        "Copy the picture of the area in front",
    ),
    entry(
        Deed::Quit,
        &[with_command(Key::Q)],
        "Quit",
        "Close the window; what is not saved is asked about",
    ),
    entry(
        Deed::Redo,
        &[with_shift(Key::Z), with_command(Key::Y)],
        "Redo",
        "Redo what was undone",
    ),
    entry(
        Deed::Undo,
        &[with_command(Key::Z)],
        "Undo",
        "Undo the last step",
    ),
    entry(
        Deed::Larger,
        &[ZOOM_IN, ZOOM_IN_SECONDARY],
        "Larger",
        "Everything in the window larger",
    ),
    entry(
        Deed::Smaller,
        &[ZOOM_OUT],
        "Smaller",
        "Everything in the window smaller",
    ),
    entry(
        Deed::FittingScale,
        &[ZOOM_RESET],
        "Automatic",
        "Everything as large as the screen has room for",
    ),
    entry(
        Deed::Menu(Menu::File),
        &[alone(Key::F10), Menu::File.keys()],
        "File menu",
        "Open it; then the arrow keys, or the letter underlined",
    ),
    entry(
        Deed::Menu(Menu::Edit),
        &[Menu::Edit.keys()],
        "Edit menu",
        "Open it, the same way",
    ),
    entry(
        Deed::Menu(Menu::View),
        &[Menu::View.keys()],
        "View menu",
        "Open it, the same way",
    ),
    entry(
        Deed::Show,
        &[alone(Key::F11)],
        "Show",
        "One picture and its numbers over the whole screen, for a room; Escape ends it",
    ),
    entry(
        Deed::KeepStep,
        &[with_command(Key::K)],
        "Keep as a step",
        "Put the unit in front behind the steps of a lesson, as it is set and seen",
    ),
    entry(
        Deed::Form,
        &[alone(Key::F2)],
        "Form",
        "In a narrow window: open the form, close it",
    ),
    entry(
        Deed::Help,
        &[alone(Key::F1)],
        "Help",
        "What the field means and how it is measured",
    ),
    entry(
        Deed::ListKeys,
        &[alone(Key::Questionmark)],
        "Keys",
        "This list, outside of a field",
    ),
];

/// What keys do in the widget that has them, by the toolkit or the widget itself.
pub const IN_HAND: [(&str, &str); 10] = [
    (
        "Tab, Shift+Tab",
        "On to the next field, list or button; back",
    ),
    (
        "Enter",
        "Press a button; open a list, choose from it; leave a field",
    ),
    ("Space", "Press a button, tick a box"),
    (
        "Escape",
        "Close card, menu or list; in a field, bring back what was there",
    ),
    ("Up, Down", "Through a list or a menu"),
    ("Left, Right", "Step a slider; with Shift in finer steps"),
    (
        "Arrows",
        "Step a handle on the drawing; with Shift in finer steps",
    ),
    ("Ctrl+A", "Select all of a field"),
    ("Ctrl+C, Ctrl+X, Ctrl+V", "Copy, cut, paste in a field"),
    ("Home, End", "To the beginning or the end of a field"),
];

/// Every line of the table, the areas last.
pub fn table(areas: impl Iterator<Item = &'static About>) -> Vec<Entry> {
    let fronts = areas.map(|about| Entry {
        deed: Deed::Front(about),
        keys: Cow::Owned(vec![with_command(about.key)]),
        name: about.title,
        does: about.purpose,
    });
    EVERYWHERE.into_iter().chain(fronts).collect()
}

/// The keys of a deed, as a person reads them.
pub fn told(ctx: &Context, entry: &Entry) -> String {
    let keys = entry.keys.iter().map(|keys| match keys.logical_key {
        // A mark is told as it is written on its key.
        Key::Questionmark => "?".to_owned(),
        _ => ctx.format_shortcut(keys),
    });
    keys.collect::<Vec<_>>().join(", ")
}

/// The first keys of a deed, to be told beside what does the same.
pub fn keys_of(ctx: &Context, deed: Deed) -> String {
    let entry = match deed {
        Deed::Front(about) => return ctx.format_shortcut(&with_command(about.key)),
        deed => EVERYWHERE.into_iter().find(|entry| entry.deed == deed),
    };
    let first = entry.and_then(|entry| entry.keys.first().copied());
    first.map_or_else(String::new, |keys| ctx.format_shortcut(&keys))
}

/// What is asked for by a key pressed in this frame, if `may` lets it be done; the key is used up then.
pub fn pressed(ctx: &Context, areas: &Areas, may: impl Fn(Deed) -> bool) -> Option<Deed> {
    let is_quiet = ctx.input(|input| {
        let is_press =
            |event: &egui::Event| matches!(event, egui::Event::Key { pressed: true, .. });
        !input.events.iter().any(is_press)
    });
    if is_quiet {
        return None;
    }
    let is_typing = ctx.text_edit_focused();
    let is_pressed = |keys: &KeyboardShortcut| {
        let is_mark = *keys != alone(Key::Questionmark) || !is_typing;
        is_mark && is_consumed(ctx, *keys)
    };
    let mut table = table(areas.abouts()).into_iter();
    let found = table.find(|entry| may(entry.deed) && entry.keys.iter().any(is_pressed));
    found.map(|entry| entry.deed)
}

/// Whether keys were pressed; the press is used up then. What was held is told by the press itself: by
/// the end of a slow frame, all may be let go.
fn is_consumed(ctx: &Context, keys: KeyboardShortcut) -> bool {
    // A mark that is typed with Shift is one key, a letter with Shift is another.
    let name = keys.logical_key.name();
    let is_letter = name.len() == 1 && name.as_bytes()[0].is_ascii_alphabetic();
    let is_meant = |event: &egui::Event| {
        matches!(event, egui::Event::Key { key, pressed: true, modifiers, .. }
            if *key == keys.logical_key
                && modifiers.matches_logically(keys.modifiers)
                && (!is_letter || modifiers.shift == keys.modifiers.shift))
    };
    ctx.input_mut(|input| {
        let place = input.events.iter().position(is_meant);
        if let Some(place) = place {
            input.events.remove(place);
        }
        place.is_some()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_does_two_things_and_every_line_says_what_it_does() {
        let areas = Areas::all();
        let table = table(areas.abouts());
        let mut keys: Vec<_> = table.iter().flat_map(|entry| entry.keys.iter()).collect();
        assert!(keys.len() > 15);
        let count = keys.len();
        keys.sort_by_key(|keys| format!("{keys:?}"));
        keys.dedup();
        assert_eq!(keys.len(), count);
        for entry in &table {
            assert!(!entry.keys.is_empty() && !entry.name.is_empty() && !entry.does.is_empty());
        }
    }
}
