//! Keys that are pressed before the field they are meant for has the keys.

use std::collections::VecDeque;

use egui::{Context, Event, Key, Plugin, RawInput};

/// How many frames a field needs to get the keys and to take its text in hand.
const SETTLES: u8 = 2;

/// Keeps back what comes after Enter or Tab until the field that it leads to has the keys, so that whoever
/// types without a pause loses no letter and no letter is typed over.
#[derive(Debug, Default)]
pub struct TypedAhead {
    kept: VecDeque<Event>,
    /// How many frames pass before more is handed on.
    waits: u8,
}

impl TypedAhead {
    /// Hands on what may be handed on in this frame; whether another frame is needed.
    fn hand_on(&mut self, events: &mut Vec<Event>) -> bool {
        self.kept.extend(events.drain(..));
        if self.waits > 0 {
            self.waits -= 1;
            return true;
        }
        while let Some(event) = self.kept.pop_front() {
            let leads_on = is_leading_on(&event);
            events.push(event);
            if leads_on {
                self.waits = SETTLES;
                return true;
            }
        }
        false
    }
}

/// Whether a press leads to another field.
const fn is_leading_on(event: &Event) -> bool {
    matches!(
        event,
        Event::Key {
            key: Key::Enter | Key::Tab,
            pressed: true,
            ..
        }
    )
}

impl Plugin for TypedAhead {
    fn debug_name(&self) -> &'static str {
        "typed ahead"
    }

    fn input_hook(&mut self, ctx: &Context, input: &mut RawInput) {
        // Nobody types into another window.
        if input.viewport_id == egui::ViewportId::ROOT && self.hand_on(&mut input.events) {
            ctx.request_repaint_of(egui::ViewportId::ROOT);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn press(key: Key) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: egui::Modifiers::NONE,
        }
    }

    fn letters(text: &str) -> Vec<Event> {
        let of = |letter: char| Event::Text(letter.to_string());
        text.chars().map(of).collect()
    }

    /// What is handed on, frame by frame, where all of it comes at once.
    fn frames(events: Vec<Event>, count: usize) -> Vec<Vec<Event>> {
        let mut ahead = TypedAhead::default();
        let mut come = events;
        (0..count)
            .map(|_| {
                let mut frame = std::mem::take(&mut come);
                ahead.hand_on(&mut frame);
                frame
            })
            .collect()
    }

    #[test]
    fn what_comes_after_enter_waits_until_the_next_field_has_the_keys() {
        let enter = press(Key::Enter);
        let all = [letters(".4"), vec![enter.clone()], letters(".3")].concat();
        let first = [letters(".4"), vec![enter]].concat();
        let none = Vec::new;
        assert_eq!(frames(all, 4), [first, none(), none(), letters(".3")]);
    }

    #[test]
    fn every_press_that_leads_on_waits_for_itself_and_the_order_stays() {
        let all = [
            vec![press(Key::Tab), press(Key::Enter)],
            letters("1"),
            vec![press(Key::Tab)],
        ];
        let handed: Vec<Event> = frames(all.concat(), 12).concat();
        assert_eq!(handed, all.concat());
    }

    #[test]
    fn letters_alone_never_wait() {
        let mut ahead = TypedAhead::default();
        let mut events = letters("0.0125");
        assert!(!ahead.hand_on(&mut events));
        assert_eq!(events, letters("0.0125"));
    }
}
