//! Whole sessions at random: whatever is done in the window, nothing panics, the file is what is on
//! screen when it was saved, and every step goes back to the beginning and forth to the end.

use std::path::Path;

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Vec2};
use egui_kittest::kittest::NodeT;
use proptest::prelude::*;
use sweepgauge::app::{Beginning, DEMO_UNIT};
use sweepgauge::store::{open_unit, save_unit};
use sweepgauge::unit::Document;
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::plate_window::{GREENS, ground};
use crate::common::shown::{Answers, MEASURED, Start, WANTED, Window, document};

/// What stands in the first step of the form.
const READINGS: [&str; 21] = [
    "Name",
    "Reel, new",
    "Reel, minimum (scrap)",
    "Blades",
    "Reel diameter, as measured",
    "Height of cut, as measured",
    "Attitude, as measured",
    "Behind centre, as measured",
    "Gap, as measured",
    "Front, diameter",
    "Front, ahead of edge",
    "Rear, diameter",
    "Rear, behind edge",
    "Knife name",
    "Reach",
    "Lip thickness",
    "Lip length",
    "Body thickness",
    "Width",
    "Price",
    "Notes",
];
/// What stands in the second.
const SETTINGS: [&str; 7] = [
    "Attitude",
    "Height of cut",
    "Reel diameter",
    "Edge forward",
    "Gap",
    "Metal off top face",
    "Metal off front face",
];
const ROLLERS: [&str; 2] = ["Front roller moved", "Rear roller moved"];
const BY_ROLLERS: &str = "the rollers";
const BY_ATTITUDE: &str = "attitude and height";
const BACK: &str = "Back to as measured";
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
/// Handles on the drawing; the last one's name goes by how the unit is set.
const HANDLES: [&str; 2] = ["Reel diameter handle", "Edge forward handle"];
const LISTS: [(&str, &str, &str); 3] = [
    (MEASURED, "Turf", "Rough"),
    (MEASURED, "Adjusted by", "Reel swings on a pivot"),
    (WANTED, "Knife fitted", "short"),
];
/// Buttons, each with where it stands.
const BUTTONS: [(Place, &str); 10] = [
    (Place::Wanted, BY_ROLLERS),
    (Place::Wanted, BY_ATTITUDE),
    (Place::Wanted, "front roller, height kept"),
    (Place::Wanted, "rear roller, height kept"),
    (Place::Wanted, BACK),
    (Place::Rollers, "Left alone, both 0"),
    (Place::Measured, "Add a point"),
    (Place::Knives, "Duplicate short"),
    (Place::Knives, "Fit reaching"),
    (Place::Knives, "Remove knife heavy"),
];
const AREAS: [Key; 7] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
];
const ARROWS: [Key; 4] = [
    Key::ArrowUp,
    Key::ArrowDown,
    Key::ArrowLeft,
    Key::ArrowRight,
];
const UNDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Z);
const REDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Y);

/// Where something stands in the window.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Place {
    Measured,
    Wanted,
    /// The second step, with the unit set by its rollers.
    Rollers,
    Knives,
    Why,
}

/// Something a person does.
#[derive(Clone, Debug)]
enum Action {
    Type(Place, &'static str, &'static str, Option<Key>),
    Drag(&'static str, f32),
    Step(&'static str, Key),
    Choose(&'static str, &'static str, &'static str),
    Click(Place, &'static str),
    /// Tries the first adjustment of the Why area that can be tried.
    Try,
    Area(Key),
    Undo,
    Redo,
    Save,
    Reopen,
}

/// Every control there is, each with something done to it by chance, and what is done to all of them now
/// and then; in any order.
fn session() -> impl Strategy<Value = Vec<Action>> {
    use prop::sample::select;
    let typed = |place: Place| {
        move |name: &'static str| {
            let text = (select(&TEXTS[..]), select(&LEAVING[..]));
            text.prop_map(move |(text, leaving)| Action::Type(place, name, text, leaving))
                .boxed()
        }
    };
    let mut actions: Vec<BoxedStrategy<Action>> = Vec::new();
    actions.extend(READINGS.map(typed(Place::Measured)));
    actions.extend(SETTINGS.map(typed(Place::Wanted)));
    actions.extend(ROLLERS.map(typed(Place::Rollers)));
    actions.extend(SLIDERS.map(|slider| {
        let by = -150.0..150.0_f32;
        by.prop_map(move |by| Action::Drag(slider, by)).boxed()
    }));
    actions.extend(HANDLES.map(|handle| {
        let arrow = select(&ARROWS[..]);
        arrow.prop_map(move |key| Action::Step(handle, key)).boxed()
    }));
    let one = |action| Just(action).boxed();
    actions.extend(LISTS.map(|(step, list, what)| one(Action::Choose(step, list, what))));
    actions.extend(BUTTONS.map(|(place, button)| one(Action::Click(place, button))));
    actions.extend(AREAS.map(|area| one(Action::Area(area))));
    for (action, times) in [
        (Action::Try, 1),
        (Action::Undo, 12),
        (Action::Redo, 6),
        (Action::Save, 3),
        (Action::Reopen, 1),
    ] {
        actions.extend(std::iter::repeat_n(one(action), times));
    }
    actions.prop_shuffle()
}

/// A window on a file, and the document that its steps begin with.
struct Sitting<'a> {
    window: Window,
    file: &'a Path,
    first: Document,
    /// How often the document was written to its file.
    saves: usize,
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

    /// Goes to where something stands.
    fn go_to(&mut self, place: Place) {
        let area = match place {
            Place::Measured | Place::Wanted | Place::Rollers => Key::Num1,
            Place::Knives => Key::Num2,
            Place::Why => Key::Num3,
        };
        self.press((Modifiers::COMMAND, area));
        match place {
            Place::Measured => self.window.click(MEASURED),
            Place::Wanted | Place::Rollers => self.window.click(WANTED),
            Place::Knives | Place::Why => {}
        }
        if place == Place::Rollers && self.has(&[Role::Button], BY_ROLLERS) {
            self.window.click(BY_ROLLERS);
        }
    }

    /// Goes to something and takes steps back until it is there: it can be away while the document
    /// cannot be solved, or is another one.
    #[track_caller]
    fn reach(&mut self, place: Place, roles: &[Role], name: &str) {
        self.go_to(place);
        while !self.has(roles, name) {
            self.window.press(Key::Escape);
            let can_undo = !self.edit_menu_says("No step to undo");
            assert!(
                can_undo,
                "\"{name}\" is nowhere: {:#?}",
                self.window.texts()
            );
            self.press(UNDO);
            self.go_to(place);
        }
    }

    fn take(&mut self, action: &Action) {
        match action {
            Action::Type(place, field, text, leaving) => {
                if SETTINGS[..2].contains(field) {
                    self.reach(Place::Wanted, &[Role::Button], BY_ATTITUDE);
                    self.window.click(BY_ATTITUDE);
                }
                self.reach(*place, &[Role::TextInput], field);
                self.window.type_over(field, "");
                for letter in text.chars() {
                    self.window.harness.event(Event::Text(letter.to_string()));
                    self.window.settle();
                }
                if let Some(key) = leaving {
                    self.window.press(*key);
                }
            }
            Action::Drag(slider, by) => {
                self.reach(Place::Wanted, &[Role::Button], BY_ATTITUDE);
                self.window.click(BY_ATTITUDE);
                self.reach(Place::Wanted, &[Role::Slider], slider);
                let middle = self.window.slider(slider).rect().center();
                self.window.drag(middle, Vec2::new(*by, 0.0));
                self.window.harness.remove_cursor();
                self.window.settle();
            }
            Action::Step(handle, key) => {
                self.reach(Place::Measured, &[Role::Button], handle);
                self.window.button(handle).focus();
                self.window.settle();
                self.window.press(*key);
            }
            Action::Choose(step, list, what) => {
                let place = if *step == MEASURED {
                    Place::Measured
                } else {
                    Place::Wanted
                };
                self.reach(place, &[Role::ComboBox], list);
                self.window.choose(list, what);
            }
            Action::Click(place, name) => {
                if *name == BACK {
                    // There must be something to go back from.
                    self.take(&Action::Type(
                        Place::Wanted,
                        "Gap",
                        "3 thou",
                        Some(Key::Enter),
                    ));
                }
                self.reach(*place, &[Role::Button], name);
                self.window.click(name);
            }
            Action::Try => self.try_one(),
            Action::Area(key) => self.press((Modifiers::COMMAND, *key)),
            Action::Undo => self.press(UNDO),
            Action::Redo => self.press(REDO),
            Action::Save => self.save(),
            Action::Reopen => self.reopen(),
        }
    }

    fn try_one(&mut self) {
        self.go_to(Place::Why);
        let first = |sitting: &Self| {
            let texts = sitting.window.texts();
            let mut tries = texts.into_iter().filter(|text| text.starts_with("Try "));
            tries.find(|text| sitting.has(&[Role::Button], text))
        };
        while first(self).is_none() {
            self.window.press(Key::Escape);
            assert!(!self.edit_menu_says("No step to undo"), "nothing to try");
            self.press(UNDO);
        }
        let found = first(self).expect("it was just there");
        self.window.click(&found);
    }

    /// Saves; what can be saved stands in the file then, and what cannot leaves the file as it was.
    fn save(&mut self) {
        let before = std::fs::read(self.file).expect("it is read");
        self.window.press(Key::Escape);
        self.window.click("File");
        let can_be_saved = self.has(&[Role::Button], "Save");
        self.window.press(Key::Escape);
        self.press((Modifiers::COMMAND, Key::S));
        if can_be_saved {
            assert!(!self.window.app().session().is_changed());
            let kept = open_unit(self.file).expect("the file opens at any time");
            assert_eq!(&kept, self.window.document());
            self.saves += 1;
        } else {
            assert_eq!(std::fs::read(self.file).expect("it is read"), before);
        }
    }

    fn reopen(&mut self) {
        let unsaved = self.window.says("unsaved changes");
        let before = self.window.document().clone();
        self.press((Modifiers::COMMAND, Key::O));
        assert_eq!(self.window.has_button("Discard changes"), unsaved);
        if unsaved {
            self.window.click("Discard changes");
        }
        self.first = open_unit(self.file).expect("the file opens at any time");
        assert_eq!(self.window.document(), &self.first);
        assert!(unsaved || self.first == before, "reopened, and another");
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
    // A session has every control in it, and takes some seconds.
    #![proptest_config(ProptestConfig { max_shrink_iters: 40, ..by_chance(1) })]

    #[test]
    fn every_session_goes_back_to_its_beginning_and_forth_to_its_end(actions in session()) {
        let folder = TempDir::new().unwrap();
        let file = folder.path().join("gang.ron");
        let first = document(DEMO_UNIT);
        save_unit(&first, &file).unwrap();
        let answers = Answers::default();
        answers.open(&file);
        let mut window = Start::on_file(&file).asking(&answers).window();
        window.unfold();
        let mut sitting = Sitting { window, file: &file, first, saves: 0 };
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
        // The beginning can always be saved, and comes back.
        sitting.press_to_the_end(UNDO, "No step to undo");
        let saves = sitting.saves;
        sitting.save();
        prop_assert_eq!(sitting.saves, saves + 1);
        sitting.reopen();
    }
}

/// What is typed or pasted by chance: readings, words, rows of a table.
const PASTED: [&str; 6] = [
    "0.187",
    "-3 mm",
    "½",
    "",
    "name\treach\tprice\nthin\t1.2 in\t40\n\tx\t",
    "It sweeps {sweep} below {depth}.",
];
/// What leads out of the window, or has it move on its own.
const LEFT_ALONE: [&str; 4] = ["Close window", "Minimize", "Maximize", "Quit"];
/// Every area, and how often in ten it is gone to: Unit and Knives have a test of their own above.
const POKED: [Key; 10] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num5,
    Key::Num5,
    Key::Num6,
    Key::Num6,
    Key::Num7,
];

/// One widget of an area with something done to it: which one, where on it, and what is pasted into it.
#[derive(Clone, Copy, Debug)]
struct Poke {
    area: Key,
    which: usize,
    at: (f32, f32),
    text: &'static str,
    then: Option<(Modifiers, Key)>,
}

fn poke() -> impl Strategy<Value = Poke> {
    use prop::sample::select;
    let then = [
        None,
        None,
        None,
        Some((Modifiers::NONE, Key::Enter)),
        Some((Modifiers::NONE, Key::Tab)),
        Some((Modifiers::NONE, Key::Escape)),
        Some(UNDO),
        Some(REDO),
        Some((Modifiers::COMMAND, Key::K)),
    ];
    let at = (0.02..0.98_f32, 0.02..0.98_f32);
    (
        select(&POKED[..]),
        0..400_usize,
        at,
        select(&PASTED[..]),
        select(then.to_vec()),
    )
        .prop_map(|(area, which, at, text, then)| Poke {
            area,
            which,
            at,
            text,
            then,
        })
}

/// Some frames: a picture may move meanwhile, so that the window is never at rest.
fn frames(window: &mut Window) {
    (0..4).for_each(|_| {
        window.step();
    });
}

/// Out of whatever card, menu or field is open.
fn escape(window: &mut Window) {
    (0..3).for_each(|_| {
        window.harness.key_press(Key::Escape);
        window.step();
    });
}

fn poke_at(window: &mut Window, poke: Poke) {
    escape(window);
    window
        .harness
        .key_press_modifiers(Modifiers::COMMAND, poke.area);
    frames(window);
    let found = {
        let screen = window.harness.ctx.content_rect();
        let nodes = window.nodes();
        let places = nodes.iter().filter_map(|node| {
            let inner = node.accesskit_node();
            let is_text = inner.role() == Role::TextInput;
            let is_touched = is_text
                || matches!(
                    inner.role(),
                    Role::Button
                        | Role::CheckBox
                        | Role::RadioButton
                        | Role::ComboBox
                        | Role::Slider
                        | Role::Image
                );
            let name = inner.label().unwrap_or_default();
            inner.bounding_box()?;
            let place = node.rect();
            let is_seen = place.is_positive() && screen.contains(place.center());
            let is_left = LEFT_ALONE.contains(&name.as_str()) || inner.is_disabled();
            (is_touched && is_seen && !is_left).then_some((place, is_text))
        });
        let places: Vec<_> = places.collect();
        places.get(poke.which % places.len().max(1)).copied()
    };
    let Some((place, is_text)) = found else {
        return;
    };
    let at = place.lerp_inside(Vec2::new(poke.at.0, poke.at.1));
    window.harness.hover_at(at);
    for pressed in [true, false] {
        window.harness.event(Event::PointerButton {
            pos: at,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        window.step();
    }
    window.harness.remove_cursor();
    frames(window);
    if is_text {
        window
            .harness
            .key_press_modifiers(Modifiers::COMMAND, Key::A);
    }
    window.harness.event(Event::Paste(poke.text.to_owned()));
    frames(window);
    if let Some((modifiers, key)) = poke.then {
        window.harness.key_press_modifiers(modifiers, key);
        frames(window);
    }
}

/// What stands in the fields of the area in front, once it is at rest.
fn fields_of(window: &mut Window, area: Key) -> Vec<(Option<String>, Option<String>)> {
    escape(window);
    window.press_with(Modifiers::COMMAND, area);
    // Which step of the form or of a lesson is in front is no change that goes back and forth.
    let texts = window.texts();
    let is_first = |text: &&String| *text == MEASURED || text.starts_with("Step 1:");
    for first in texts.iter().filter(is_first) {
        if window.has_button(first) {
            window.click(first);
        }
    }
    let nodes = window.nodes();
    let nodes = nodes.iter().map(NodeT::accesskit_node);
    let fields = nodes.filter(|node| node.role() == Role::TextInput);
    fields.map(|node| (node.label(), node.value())).collect()
}

proptest! {
    // What fails is printed whole: to try each shorter session takes half a minute.
    #![proptest_config(ProptestConfig { max_shrink_iters: 0, ..by_chance(1) })]

    #[test]
    fn wherever_a_person_clicks_types_and_pastes_the_window_goes_on(
        pokes in prop::collection::vec(poke(), 120)
    ) {
        let folder = ground();
        let mut start = Start::on(document(DEMO_UNIT));
        start.beginning = Some(Beginning::with_sheet(&folder.path().join(GREENS)).unwrap());
        start.preferences.shop.folder = Some(folder.path().to_owned());
        let mut window = start.window();
        for poke in pokes {
            poke_at(&mut window, poke);
        }
        // Show, and what a card holds, are left; then all rests.
        escape(&mut window);
        let steps = 4 * 120;
        for area in [Key::Num1, Key::Num5, Key::Num7] {
            let redo_all = |window: &mut Window| {
                fields_of(window, area);
                (0..steps).for_each(|_| {
                    window.harness.key_press_modifiers(REDO.0, REDO.1);
                    window.step();
                });
                fields_of(window, area)
            };
            let last = redo_all(&mut window);
            (0..steps).for_each(|_| {
                window.harness.key_press_modifiers(UNDO.0, UNDO.1);
                window.step();
            });
            fields_of(&mut window, area);
            prop_assert_eq!(redo_all(&mut window), last, "{:?}", area);
        }
    }
}
