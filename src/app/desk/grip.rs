//! What a person holds: what is done without letting go is one step.

use egui::{Context, Event, Id};

/// What is held while a change is made. Changes of the same thing made in one grip are one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// A text field that keeps the cursor.
    Field(Id),
    /// The pointer or a key, by how often one was pressed before.
    Press(u64),
}

/// The hands of a person, looked at once a frame.
#[derive(Clone, Debug, Default)]
pub struct Hands {
    presses: u64,
    is_pressing: bool,
    /// The widget that has the keys, and the one that had them in the frame before: what a field
    /// does as it loses them still belongs to it.
    focused: [Option<Id>; 2],
}

impl Hands {
    /// Looks at what is held in this frame.
    pub fn look(&mut self, ctx: &Context) {
        let (is_new, is_pressing) = ctx.input(|input| {
            let is_fresh_key = |event: &Event| {
                matches!(
                    event,
                    Event::Key {
                        pressed: true,
                        repeat: false,
                        ..
                    }
                )
            };
            let is_new = input.pointer.any_pressed() || input.events.iter().any(is_fresh_key);
            let pointer = input.pointer.any_down() || input.pointer.any_released();
            (is_new, pointer || !input.keys_down.is_empty())
        });
        self.presses += u64::from(is_new);
        // A key can go down and up between two frames.
        self.is_pressing = is_pressing || is_new;
        self.focused = [ctx.memory(egui::Memory::focused), self.focused[0]];
    }

    /// Whether a text field has the cursor, or had it until now.
    pub fn has(&self, field: Id) -> bool {
        self.focused.contains(&Some(field))
    }

    /// What is held while a change is made that is typed into a field, or is not.
    pub fn grip(&self, field: Option<Id>) -> Option<Grip> {
        let field = field.filter(|field| self.has(*field));
        let press = self.is_pressing.then_some(Grip::Press(self.presses));
        field.map(Grip::Field).or(press)
    }
}
