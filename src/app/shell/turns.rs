//! Keys in their turn, as fast as they come: what is typed goes into the field that has the keys before
//! the next press moves them on or saves what was typed. What came in one frame is shown in several then.

use std::collections::VecDeque;

use egui::{Context, Event, FocusDirection, Key};

/// What was pressed and waits for its turn.
#[derive(Debug, Default)]
pub struct Turns {
    waiting: VecDeque<Event>,
}

impl Turns {
    /// Leaves of what was pressed what belongs into this frame; the rest waits for the next ones.
    pub fn take(&mut self, ctx: &Context) {
        let is_held = !self.waiting.is_empty();
        let had_tab = ctx.input(|input| input.events.iter().any(is_tab));
        ctx.input_mut(|input| {
            self.waiting.extend(input.events.drain(..));
            input.events.extend(turn(&mut self.waiting));
        });
        let tab = ctx.input(|input| input.events.iter().find(|event| is_tab(event)).cloned());
        if is_held || !self.waiting.is_empty() {
            // The toolkit looked for Tab before turns were made.
            let direction = match tab {
                Some(Event::Key { modifiers, .. }) if modifiers.shift => FocusDirection::Previous,
                Some(_) => FocusDirection::Next,
                None => FocusDirection::None,
            };
            if had_tab || tab.is_some() {
                ctx.memory_mut(|memory| memory.move_focus(direction));
            }
        }
        if !self.waiting.is_empty() {
            ctx.request_repaint();
        }
    }
}

/// The next turn: what comes before a press that has one of its own, or that press.
fn turn(waiting: &mut VecDeque<Event>) -> Vec<Event> {
    let mut turn = Vec::new();
    let mut is_typed = false;
    while let Some(event) = waiting.front() {
        let has_own = has_own_turn(event);
        if has_own && is_typed {
            break;
        }
        is_typed |= is_pressed(event);
        turn.extend(waiting.pop_front());
        if has_own {
            // What is let go, and where the pointer went, needs no turn.
            while let Some(event) = waiting.pop_front_if(|event| !is_pressed(event)) {
                turn.push(event);
            }
            break;
        }
    }
    turn
}

/// Whether something is typed or pressed by it.
fn is_pressed(event: &Event) -> bool {
    matches!(
        event,
        Event::Text(_)
            | Event::Paste(_)
            | Event::Cut
            | Event::Copy
            | Event::Ime(_)
            | Event::Key { pressed: true, .. }
    )
}

/// Whether it moves the keys on, or may be a shortcut.
fn has_own_turn(event: &Event) -> bool {
    matches!(event, Event::Key { key, pressed: true, modifiers, .. }
        if matches!(key, Key::Tab | Key::F1 | Key::F2 | Key::F10) || modifiers.command || modifiers.ctrl || modifiers.alt)
}

fn is_tab(event: &Event) -> bool {
    matches!(
        event,
        Event::Key {
            key: Key::Tab,
            pressed: true,
            ..
        }
    )
}

#[cfg(test)]
mod tests {
    use egui::Modifiers;

    use super::*;

    fn key(key: Key, modifiers: Modifiers) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers,
        }
    }

    fn text(text: &str) -> Event {
        Event::Text(text.to_owned())
    }

    #[test]
    fn what_is_typed_comes_before_the_press_after_it_and_after_the_press_before_it() {
        let (tab, save) = (
            key(Key::Tab, Modifiers::NONE),
            key(Key::S, Modifiers::COMMAND),
        );
        let pressed = [
            text("7"),
            key(Key::Num7, Modifiers::NONE),
            tab.clone(),
            Event::PointerGone,
            tab.clone(),
            text("6"),
            text("."),
            save.clone(),
        ];
        let mut waiting = VecDeque::from(pressed.to_vec());
        let turns: Vec<_> = std::iter::repeat_with(|| turn(&mut waiting))
            .take_while(|turn| !turn.is_empty())
            .collect();
        let wanted = [
            vec![text("7"), key(Key::Num7, Modifiers::NONE)],
            vec![tab.clone(), Event::PointerGone],
            vec![tab],
            vec![text("6"), text(".")],
            vec![save],
        ];
        assert_eq!(turns, wanted);
    }
}
