//! Whole sessions at random: whatever is done in the window, nothing panics, the file is what is on
//! screen when it was saved, and every step goes back to the beginning and forth to the end.

use std::path::Path;

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Vec2};
use egui_kittest::kittest::NodeT;
use proptest::prelude::*;
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::store::{open_unit, save_unit};
use sweepgauge::unit::Document;
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::shown::{Answers, Start, Window, document};

const FIELDS: [&str; 8] = [
    "Reel diameter",
    "Height of cut",
    "Attitude",
    "Edge forward",
    "Name",
    "Behind centre, as measured",
    "Gap, as measured",
    "Rear roller moved",
];
const TEXTS: [&str; 12] = [
    "6.7",
    "0.5 in",
    "5",
    "-0.1",
    "12 mm",
    "",
    "half",
    "6.9 in ± 2 thou",
    "½",
    "-1e300",
    "\"",
    "0",
];
const LEAVING: [Option<Key>; 4] = [Some(Key::Enter), Some(Key::Tab), Some(Key::Escape), None];
const SLIDERS: [&str; 3] = [
    "Attitude slider",
    "Reel diameter slider",
    "Edge forward slider",
];
const BUTTONS: [&str; 8] = [
    "the rollers",
    "attitude and height",
    "Back to the bench",
    "Left alone, both 0",
    "Duplicate short",
    "Fit reaching",
    "Remove knife heavy",
    "Try Edge forward, To its limit",
];
const UNDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Z);
const REDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Y);

/// Something a person does.
#[derive(Clone, Debug)]
enum Action {
    Type(&'static str, &'static str, Option<Key>),
    Drag(&'static str, f32),
    Click(&'static str),
    Area(Key),
    Undo,
    Redo,
    Save,
    Reopen,
}

fn action() -> impl Strategy<Value = Action> {
    use prop::sample::select;
    prop_oneof![
        6 => (select(&FIELDS[..]), select(&TEXTS[..]), select(&LEAVING[..]))
            .prop_map(|(field, text, leaving)| Action::Type(field, text, leaving)),
        2 => (select(&SLIDERS[..]), -150.0..150.0_f32)
            .prop_map(|(slider, by)| Action::Drag(slider, by)),
        3 => select(&BUTTONS[..]).prop_map(Action::Click),
        2 => select(&[Key::Num1, Key::Num2, Key::Num3, Key::Num4][..]).prop_map(Action::Area),
        3 => Just(Action::Undo),
        2 => Just(Action::Redo),
        1 => Just(Action::Save),
        1 => Just(Action::Reopen),
    ]
}

/// A window on a file, and the document that its steps begin with.
struct Sitting<'a> {
    window: Window,
    file: &'a Path,
    first: Document,
}

impl Sitting<'_> {
    fn has(&self, roles: &[Role], name: &str) -> bool {
        let nodes = self.window.nodes();
        let mut found = nodes.iter().filter(|node| {
            let node = node.accesskit_node();
            roles.contains(&node.role())
                && node.label().as_deref() == Some(name)
                && !node.is_disabled()
        });
        found.next().is_some() && found.next().is_none()
    }

    fn press(&mut self, (modifiers, key): (Modifiers, Key)) {
        self.window.press_with(modifiers, key);
    }

    fn take(&mut self, action: &Action) {
        match action {
            Action::Type(field, text, leaving) if self.has(&[Role::TextInput], field) => {
                self.window.type_over(field, "");
                for letter in text.chars() {
                    self.window.harness.event(Event::Text(letter.to_string()));
                    self.window.settle();
                }
                if let Some(key) = leaving {
                    self.window.press(*key);
                }
            }
            Action::Drag(slider, by) if self.has(&[Role::Slider], slider) => {
                let middle = self.window.slider(slider).rect().center();
                self.window.drag(middle, Vec2::new(*by, 0.0));
                self.window.harness.remove_cursor();
                self.window.settle();
            }
            Action::Click(name) if self.has(&[Role::Button], name) => self.window.click(name),
            Action::Type(..) | Action::Drag(..) | Action::Click(_) => {}
            Action::Area(key) => self.press((Modifiers::COMMAND, *key)),
            Action::Undo => self.press(UNDO),
            Action::Redo => self.press(REDO),
            Action::Save => {
                self.press((Modifiers::COMMAND, Key::S));
                let is_whole = open_unit(self.file);
                let kept = is_whole.expect("the file opens at any time");
                let session = self.window.app().session();
                assert!(session.is_changed() || kept == *session.document());
            }
            Action::Reopen => {
                self.press((Modifiers::COMMAND, Key::O));
                if self.window.has_button("Discard changes") {
                    self.window.click("Discard changes");
                }
                self.first = open_unit(self.file).expect("the file opens at any time");
                assert_eq!(self.window.document(), &self.first);
            }
        }
    }

    /// Presses keys until the Edit menu says that there is no step any more.
    fn press_to_the_end(&mut self, keys: (Modifiers, Key), said: &str) {
        loop {
            let before = self.window.document().clone();
            self.press(keys);
            if *self.window.document() == before && self.edit_menu_says(said) {
                return;
            }
        }
    }

    fn edit_menu_says(&mut self, said: &str) -> bool {
        self.window.click("Edit");
        let does = self.window.says(said);
        self.window.press(Key::Escape);
        does
    }

    /// What stands in every field.
    fn entries(&self) -> Vec<(Option<String>, Option<String>)> {
        let nodes = self.window.nodes();
        let nodes = nodes.iter().map(NodeT::accesskit_node);
        let fields = nodes.filter(|node| node.role() == Role::TextInput);
        fields.map(|node| (node.label(), node.value())).collect()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { max_shrink_iters: 200, ..by_chance(6) })]

    #[test]
    fn every_session_goes_back_to_its_beginning_and_forth_to_its_end(
        actions in prop::collection::vec(action(), 1..25),
    ) {
        let folder = TempDir::new().unwrap();
        let file = folder.path().join("gang.ron");
        let first = document(DEMO_UNIT);
        save_unit(&first, &file).unwrap();
        let answers = Answers::default();
        answers.open(&file);
        let window = Start::on_file(&file).asking(&answers).window();
        let mut sitting = Sitting { window, file: &file, first };
        for action in &actions {
            sitting.take(action);
        }
        // Out of whatever field has the cursor, which would take back its own typing first.
        sitting.window.press(Key::Escape);
        sitting.press_to_the_end(REDO, "No step to redo");
        let last = sitting.window.document().clone();
        let entries = sitting.entries();
        sitting.press_to_the_end(UNDO, "No step to undo");
        prop_assert_eq!(sitting.window.document(), &sitting.first);
        prop_assert!(!sitting.window.says("Not current"));
        sitting.press_to_the_end(REDO, "No step to redo");
        prop_assert_eq!(sitting.window.document(), &last);
        prop_assert_eq!(sitting.entries(), entries, "wrong texts as well");
    }
}
