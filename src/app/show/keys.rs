//! The keys of Show: those of a hand on the keyboard and of a remote for slides. One table, by which they
//! are handled, listed and offered on the bar.

use egui::{Context, Event, Key, Modifiers};

/// Something a key does in front of a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    Next,
    Back,
    First,
    Last,
    Blank,
    Numbers,
    Choose,
    Labels,
    Lens,
    Motion,
    Pause,
    OneClip,
    Slower,
    Faster,
    SliderUp,
    SliderDown,
    SliderBack,
    Spotlight,
    ZoomHere,
    ZoomIn,
    ZoomOut,
    Presenter,
    KeepStep,
    Beside,
    Swap,
    ListKeys,
    End,
}

/// How a key is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Press {
    /// By itself, without Shift.
    Alone(Key),
    /// A mark, whether it takes Shift on this keyboard or not.
    Mark(Key),
    /// A mark that is known by what it writes alone.
    Written(&'static str),
    WithShift(Key),
}

impl Press {
    fn is(self, event: &Event) -> bool {
        match event {
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => {
                let is_plain = Modifiers {
                    shift: false,
                    ..*modifiers
                } == Modifiers::NONE;
                is_plain
                    && match self {
                        Self::Alone(meant) => *key == meant && !modifiers.shift,
                        Self::Mark(meant) => *key == meant,
                        Self::WithShift(meant) => *key == meant && modifiers.shift,
                        Self::Written(_) => false,
                    }
            }
            Event::Text(text) => matches!(self, Self::Written(meant) if text == meant),
            _ => false,
        }
    }
}

/// A line of the table.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) act: Act,
    presses: &'static [Press],
    /// Its keys, as a person reads them.
    pub(super) keys: &'static str,
    /// What the bar offers; empty where it is on the list alone.
    pub(super) offer: &'static str,
    pub(super) does: &'static str,
}

const fn entry(
    act: Act,
    presses: &'static [Press],
    keys: &'static str,
    offer: &'static str,
    does: &'static str,
) -> Entry {
    Entry {
        act,
        presses,
        keys,
        offer,
        does,
    }
}

/// Every key there is. The bar offers what it has room for, in this order.
pub(super) const TABLE: [Entry; 27] = [
    entry(
        Act::ListKeys,
        &[Press::Mark(Key::Questionmark), Press::Alone(Key::F1)],
        "?",
        "?: keys",
        "This list",
    ),
    entry(
        Act::Back,
        &[Press::Alone(Key::ArrowLeft), Press::Alone(Key::PageUp)],
        "Left, Page Up",
        "Left: back",
        "To the picture or step before",
    ),
    entry(
        Act::Next,
        &[
            Press::Alone(Key::ArrowRight),
            Press::Alone(Key::PageDown),
            Press::Alone(Key::Enter),
        ],
        "Right, Page Down, Enter",
        "Right: next",
        "To the next picture or step",
    ),
    entry(
        Act::Numbers,
        &[Press::Alone(Key::N)],
        "N",
        "N: numbers",
        "Show or hide the numbers",
    ),
    entry(
        Act::Lens,
        &[Press::Alone(Key::L)],
        "L",
        "L: lens",
        "The clip point enlarged, and back",
    ),
    entry(
        Act::Motion,
        &[Press::Alone(Key::M)],
        "M",
        "M: motion",
        "The reel in motion, and back",
    ),
    entry(
        Act::Beside,
        &[Press::Alone(Key::D)],
        "D",
        "D: two side by side",
        "Two side by side, as last chosen in View, Side by side; and back",
    ),
    entry(
        Act::Swap,
        &[Press::Alone(Key::X)],
        "X",
        "X: swap",
        "Left and right change places",
    ),
    entry(
        Act::Spotlight,
        &[Press::Alone(Key::S)],
        "S",
        "S: spotlight",
        "A bright ring at the pointer, the rest dimmed; again to put it out",
    ),
    entry(
        Act::ZoomHere,
        &[Press::Alone(Key::Z)],
        "Z",
        "Z: zoom",
        "Enlarge the place at the pointer; again to show all. Or drag a frame around it",
    ),
    entry(
        Act::Blank,
        &[Press::Alone(Key::B), Press::Alone(Key::Period)],
        "B, .",
        "B: blank",
        "All dark, and back",
    ),
    entry(
        Act::Choose,
        &[Press::Alone(Key::C)],
        "C",
        "C: choose",
        "Choose the numbers and the slider",
    ),
    entry(
        Act::Presenter,
        &[Press::Alone(Key::P)],
        "P",
        "P: presenter",
        "In a lesson: a second window with notes, next step and clocks. Put it on your own screen; again to close it",
    ),
    entry(
        Act::KeepStep,
        &[Press::Alone(Key::K)],
        "K",
        "K: keep",
        "Of a unit: keep the picture as a step of a lesson",
    ),
    entry(
        Act::End,
        &[Press::Alone(Key::Escape), Press::Alone(Key::F11)],
        "Escape, F11",
        "Escape: end",
        "Back to where you were",
    ),
    entry(
        Act::Labels,
        &[Press::Alone(Key::T)],
        "T",
        "T: labels",
        "All words on the picture, then none, then the few again",
    ),
    entry(
        Act::Pause,
        &[Press::Alone(Key::Space)],
        "Space",
        "Space: stop, go",
        "Stop the reel, and let it go on",
    ),
    entry(
        Act::OneClip,
        &[Press::Alone(Key::ArrowUp)],
        "Up",
        "Up: one blade",
        "Turn the reel on by one blade, and stop there. Or drag the picture",
    ),
    entry(
        Act::Slower,
        &[Press::Written("<")],
        "<",
        "<: slower",
        "Turn the reel slower, down to one blade a step",
    ),
    entry(
        Act::Faster,
        &[Press::Written(">")],
        ">",
        ">: faster",
        "Turn the reel faster, up to its real speed",
    ),
    entry(
        Act::SliderUp,
        &[Press::WithShift(Key::ArrowRight)],
        "Shift+Right",
        "",
        "The slider, one step up",
    ),
    entry(
        Act::SliderDown,
        &[Press::WithShift(Key::ArrowLeft)],
        "Shift+Left",
        "",
        "The slider, one step down",
    ),
    entry(
        Act::SliderBack,
        &[Press::Alone(Key::R)],
        "R",
        "R: as set",
        "The slider back to what is set",
    ),
    entry(
        Act::ZoomIn,
        &[Press::Mark(Key::Plus), Press::Mark(Key::Equals)],
        "+",
        "",
        "Enlarge; or turn the wheel",
    ),
    entry(
        Act::ZoomOut,
        &[Press::Mark(Key::Minus)],
        "-",
        "",
        "Show more; or turn the wheel",
    ),
    entry(
        Act::First,
        &[Press::Alone(Key::Home)],
        "Home",
        "",
        "To the first picture or step",
    ),
    entry(
        Act::Last,
        &[Press::Alone(Key::End)],
        "End",
        "",
        "To the last picture or step",
    ),
];

/// The next act that was asked for in this frame; its key is used up.
pub(super) fn pressed(ctx: &Context) -> Option<Act> {
    ctx.input_mut(|input| {
        let meant = |event: &Event| {
            let is_meant = |entry: &&Entry| entry.presses.iter().any(|press| press.is(event));
            TABLE.iter().find(is_meant).map(|entry| entry.act)
        };
        let found = input.events.iter().enumerate();
        let found = found.filter_map(|(place, event)| Some((place, meant(event)?)));
        let (place, act) = found.min_by_key(|(place, _)| *place)?;
        input.events.remove(place);
        Some(act)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_does_two_things_and_every_line_says_what_it_does() {
        let mut presses: Vec<_> = TABLE.iter().flat_map(|entry| entry.presses).collect();
        let count = presses.len();
        presses.sort_by_key(|press| format!("{press:?}"));
        presses.dedup();
        assert_eq!(presses.len(), count);
        for (index, entry) in TABLE.iter().enumerate() {
            assert!(!entry.keys.is_empty() && !entry.does.is_empty());
            let before = TABLE[..index].iter();
            assert!(before.clone().all(|other| other.act != entry.act));
        }
    }

    #[test]
    fn a_mark_is_known_however_it_is_typed_and_a_letter_without_shift_alone() {
        let key = |key, shift| Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers {
                shift,
                ..Modifiers::NONE
            },
        };
        for shift in [false, true] {
            assert!(Press::Mark(Key::Plus).is(&key(Key::Plus, shift)));
            let is_alone = Press::Alone(Key::Period).is(&key(Key::Period, shift));
            assert_eq!(is_alone, !shift, "it writes > with Shift");
        }
        assert!(Press::Written(">").is(&Event::Text(">".to_owned())));
    }
}
