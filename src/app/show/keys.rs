//! The keys of Show: those of a hand on the keyboard and of a remote for slides.

use egui::{Context, Key, Modifiers};

/// Something a key does in front of a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    Next,
    Back,
    First,
    Blank,
    Numbers,
    Pause,
    OneClip,
    End,
}

const ACTS: [(Act, &[Key]); 8] = [
    (Act::Next, &[Key::ArrowRight, Key::PageDown, Key::Enter]),
    (Act::Back, &[Key::ArrowLeft, Key::PageUp]),
    (Act::First, &[Key::Home]),
    (Act::Blank, &[Key::B, Key::Period]),
    (Act::Numbers, &[Key::N]),
    (Act::Pause, &[Key::Space]),
    (Act::OneClip, &[Key::ArrowUp]),
    (Act::End, &[Key::Escape, Key::F11]),
];

/// What the keys do, as the hint tells it.
pub(super) const KEYS: &str = "Right, Left: on and back   N: numbers   B: blank   Space: stop, go   Up: one blade   Escape: end";

/// The next act that was asked for in this frame; its key is used up.
pub(super) fn pressed(ctx: &Context) -> Option<Act> {
    ctx.input_mut(|input| {
        let is_pressed = |keys: &[Key], input: &mut egui::InputState| {
            keys.iter()
                .any(|key| input.consume_key(Modifiers::NONE, *key))
        };
        let found = ACTS.into_iter().find(|(_, keys)| is_pressed(keys, input));
        found.map(|(act, _)| act)
    })
}
