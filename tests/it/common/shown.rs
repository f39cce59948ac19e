//! A window to test with: the whole program as a person meets it, without a display.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use egui::accesskit::Role;
use egui::{
    Event, Key, Modifiers, OutputCommand, Pos2, Vec2, ViewportCommand, ViewportEvent, ViewportId,
};
use egui_kittest::kittest::{AccessKitNode, NodeT as _};
use egui_kittest::{Harness, Node};
use sweepgauge::app::{
    App, Ask, Beginning, Choosing, DEMO_UNIT, Dialogs, NoDialogs, NoOpener, NoPrinter, Opener,
    Preferences, Printer, Session, chosen, dress,
};
use sweepgauge::command::OpenLesson;
use sweepgauge::unit::{self, Document};

/// The parts of the first step that are folded at first.
const FOLDED: [&str; 7] = [
    "Reel-to-knife adjustment",
    "Hardware under the knife",
    "Ground",
    "Wear",
    "Mowing",
    "Limits",
    "Knives to compare",
];

/// The steps of the form: where a reading stands, and where what is wanted does.
pub const MEASURED: &str = "1 As measured";
pub const WANTED: &str = "2 As wanted";

/// More steps than anything in the window takes to come to rest.
const STEPS_TO_SETTLE: usize = 60;

/// Tall enough for the whole form with every group open.
const SIZE: Vec2 = Vec2::new(1440.0, 4200.0);

/// A document from the text of a unit file.
pub fn document(text: &str) -> Document {
    unit::read_text(text).expect("a right unit file")
}

/// The demo unit with something of its own written into its setting.
pub fn demo_set(setting: &str) -> Document {
    let places = DEMO_UNIT.matches("    mowing:").count();
    assert_eq!(places, 1, "the demo unit has one place for a setting");
    document(&DEMO_UNIT.replace(
        "    mowing:",
        &format!("    setting: ({setting}),\n    mowing:"),
    ))
}

/// What a person would answer in the desktop's own dialogs.
#[derive(Clone, Debug, Default)]
pub struct Answers(Rc<RefCell<Answer>>);

#[derive(Debug, Default)]
struct Answer {
    open: Option<PathBuf>,
    folder: Option<PathBuf>,
    save: Option<PathBuf>,
    read_rows: Option<PathBuf>,
    write_rows: Option<PathBuf>,
    offered: Vec<String>,
}

impl Answers {
    /// The file chosen when asked which to open.
    pub fn open(&self, file: &Path) {
        self.0.borrow_mut().open = Some(file.to_owned());
    }

    /// The folder chosen when asked for one.
    pub fn folder(&self, folder: &Path) {
        self.0.borrow_mut().folder = Some(folder.to_owned());
    }

    /// The file chosen when asked where to save.
    pub fn save(&self, file: &Path) {
        self.0.borrow_mut().save = Some(file.to_owned());
    }

    /// The file chosen when asked for rows of knives.
    pub fn read_rows(&self, file: &Path) {
        self.0.borrow_mut().read_rows = Some(file.to_owned());
    }

    /// The file chosen when asked where to write rows of knives.
    pub fn write_rows(&self, file: &Path) {
        self.0.borrow_mut().write_rows = Some(file.to_owned());
    }

    /// The names that were offered to save under.
    pub fn offered(&self) -> Vec<String> {
        self.0.borrow().offered.clone()
    }
}

/// A desktop without file dialogs.
#[derive(Debug)]
pub struct NoFileDialogs;

impl Dialogs for NoFileDialogs {
    fn ask(&self, _: &Ask) -> Choosing {
        std::sync::mpsc::channel().1
    }
}

impl Dialogs for Answers {
    fn ask(&self, ask: &Ask) -> Choosing {
        let mut answer = self.0.borrow_mut();
        if let Ask::PlaceForUnit(name)
        | Ask::PlaceForRows(name)
        | Ask::PlaceForSheet(name)
        | Ask::PlaceForWorksheet(name)
        | Ask::PlaceForLesson(name)
        | Ask::PlaceForPicture(name) = ask
        {
            answer.offered.push(name.clone());
        }
        chosen(match ask {
            Ask::UnitToOpen | Ask::WorksheetToOpen | Ask::LessonToOpen => answer.open.clone(),
            Ask::PlaceForUnit(_)
            | Ask::PlaceForSheet(_)
            | Ask::PlaceForWorksheet(_)
            | Ask::PlaceForLesson(_)
            | Ask::PlaceForPicture(_) => answer.save.clone(),
            Ask::FolderOfUnits => answer.folder.clone(),
            Ask::RowsToRead => answer.read_rows.clone(),
            Ask::PlaceForRows(_) => answer.write_rows.clone(),
        })
    }
}

/// A file in the hand that drops it.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// How a window is started.
pub struct Start {
    pub session: Session,
    pub preferences: Preferences,
    pub dialogs: Box<dyn Dialogs>,
    /// What opens files that were written.
    pub opener: Box<dyn Opener>,
    /// What prints.
    pub printer: Box<dyn Printer>,
    pub theme: egui::Theme,
    /// Seconds between two frames.
    pub pace: f32,
    /// What it begins with in place of the session.
    pub beginning: Option<Beginning>,
    /// Where preferences are kept; none for a window that keeps none.
    pub preferences_file: Option<PathBuf>,
    /// Where work is kept for recovery; none for a window that keeps none.
    pub recovery: Option<PathBuf>,
    /// The lesson that is shown to a room from the first frame on, its reel standing still.
    pub show: Option<OpenLesson>,
    pub size: Vec2,
}

impl Start {
    /// On a document, with nothing else remembered.
    pub fn on(document: Document) -> Self {
        Self {
            session: Session::new(document, None),
            preferences: Preferences::default(),
            dialogs: Box::new(NoDialogs),
            opener: Box::new(NoOpener),
            printer: Box::new(NoPrinter),
            theme: egui::Theme::Light,
            pace: 1.0 / 60.0,
            beginning: None,
            preferences_file: None,
            recovery: None,
            show: None,
            size: SIZE,
        }
    }

    /// On a unit file.
    pub fn on_file(file: &Path) -> Self {
        let mut start = Self::on(document(DEMO_UNIT));
        start.session = Session::open(file).expect("a right unit file");
        start
    }

    pub fn asking(mut self, answers: &Answers) -> Self {
        self.dialogs = Box::new(answers.clone());
        self
    }

    /// With work kept for recovery in a folder.
    pub fn keeping_in(mut self, folder: &Path) -> Self {
        self.recovery = Some(folder.to_owned());
        self
    }

    pub fn window(self) -> Window {
        let read = self.preferences.clone();
        let beginning = self.beginning.unwrap_or_else(|| self.session.into());
        let mut app = App::new(beginning, self.preferences, self.dialogs);
        app.open_files_with(self.opener);
        app.print_with(self.printer);
        if let Some(file) = &self.preferences_file {
            app.keep_preferences_in(file, read);
        }
        if let Some(folder) = &self.recovery {
            app.keep_work_in(folder, &egui::Context::default());
        }
        let is_shown = self.show.is_some();
        if let Some(lesson) = self.show {
            app.show_lesson(&egui::Context::default(), lesson, 0);
        }
        let harness = Harness::builder()
            .with_size(self.size)
            .with_theme(self.theme)
            .with_step_dt(self.pace)
            .with_max_steps(STEPS_TO_SETTLE as u64)
            .with_context_setup(dress)
            .build_ui_state(|ui, app: &mut App| app.window_ui(ui), app);
        let mut window = Window {
            harness,
            commands: Vec::new(),
            copied: Vec::new(),
        };
        if is_shown {
            window.harness.key_press(Key::Space);
        }
        window.settle();
        window
    }
}

/// A window, and what it asked of the desktop.
pub struct Window {
    pub harness: Harness<'static, App>,
    commands: Vec<ViewportCommand>,
    copied: Vec<OutputCommand>,
}

impl Window {
    /// On the demo unit.
    pub fn demo() -> Self {
        Start::on(document(DEMO_UNIT)).window()
    }

    /// On the demo unit, with the form at what is wanted.
    pub fn demo_as_wanted() -> Self {
        let mut window = Self::demo();
        window.click(WANTED);
        window
    }

    pub fn app(&self) -> &App {
        self.harness.state()
    }

    pub fn document(&self) -> &Document {
        self.app().session().document()
    }

    /// Counts how often the document was solved.
    pub fn generation(&self) -> u64 {
        self.app().session().solutions()
    }

    /// One frame, and how long the window would then rest.
    pub fn step(&mut self) -> Duration {
        self.harness.step();
        let output = &self.harness.output().viewport_output[&ViewportId::ROOT];
        self.commands.extend(output.commands.iter().cloned());
        let rest = output.repaint_delay;
        let output = &self.harness.output().platform_output;
        let copied = output.commands.iter().filter(|command| {
            matches!(
                command,
                OutputCommand::CopyText(_) | OutputCommand::CopyImage(_)
            )
        });
        self.copied.extend(copied.cloned());
        rest
    }

    /// Frames until nothing moves, with every widget's name looked after.
    #[track_caller]
    pub fn settle(&mut self) {
        let is_at_rest = (0..STEPS_TO_SETTLE).any(|_| self.step() != Duration::ZERO);
        assert!(
            is_at_rest,
            "never at rest: {:?}",
            self.harness.ctx.repaint_causes()
        );
        self.harness.check_accessibility();
    }

    /// Frames until the window says something: what a thread of its own has to tell comes late.
    #[track_caller]
    pub fn wait_until_it_says(&mut self, text: &str) {
        for _ in 0..500 {
            if self.says(text) {
                return self.settle();
            }
            std::thread::sleep(Duration::from_millis(10));
            self.step();
        }
        self.assert_says(text);
    }

    /// What the window asked of the desktop since this was last taken.
    pub fn take_commands(&mut self) -> Vec<ViewportCommand> {
        std::mem::take(&mut self.commands)
    }

    /// What was copied since this was last taken.
    pub fn take_copied(&mut self) -> Vec<OutputCommand> {
        std::mem::take(&mut self.copied)
    }

    /// Frames until there is a button: what a thread of its own takes long over shows one late.
    #[track_caller]
    pub fn wait_for_button(&mut self, name: &str) {
        for _ in 0..500 {
            if self.has_button(name) {
                // A card stands in the middle again a frame after it grew.
                self.step();
                self.step();
                return;
            }
            std::thread::sleep(Duration::from_millis(10));
            self.step();
        }
        panic!("no button \"{name}\" in {:#?}", self.texts());
    }

    /// Everything in the window.
    pub fn nodes(&self) -> Vec<Node<'_>> {
        self.harness.root().children_recursive().collect()
    }

    /// Every text shown, in order: labels, names and what fields hold.
    pub fn texts(&self) -> Vec<String> {
        self.nodes()
            .iter()
            .filter_map(|node| text_of(&node.accesskit_node()))
            .collect()
    }

    /// Whether some text of the window has this in it.
    pub fn says(&self, text: &str) -> bool {
        self.texts().iter().any(|shown| shown.contains(text))
    }

    #[track_caller]
    pub fn assert_says(&self, text: &str) {
        assert!(
            self.says(text),
            "\"{text}\" is not in the window: {:#?}",
            self.texts()
        );
    }

    #[track_caller]
    pub fn assert_silent(&self, text: &str) {
        assert!(!self.says(text), "\"{text}\" is in the window");
    }

    /// The text that stands after a name: a key number after its own.
    #[track_caller]
    pub fn number(&self, name: &str) -> String {
        let labels: Vec<_> = self
            .nodes()
            .iter()
            .filter(|node| node.accesskit_node().role() == Role::Label)
            .filter_map(Node::value)
            .collect();
        let place = labels.iter().rposition(|label| label == name);
        let place = place.unwrap_or_else(|| panic!("no number is called \"{name}\": {labels:#?}"));
        labels[place + 1].clone()
    }

    /// Goes to the step of the form in which something of this name stands, as a person looks for it.
    fn look_for(&mut self, name: &str) {
        for step in [MEASURED, WANTED] {
            let is_there = self.nodes().iter().any(|node| {
                let node = node.accesskit_node();
                node.role() != Role::Label && node.label().as_deref() == Some(name)
            });
            if is_there || !self.has_button(step) {
                return;
            }
            self.button(step).click();
            self.settle();
        }
    }

    /// The one widget of these roles with this name.
    #[track_caller]
    fn widget(&self, is_meant: impl Fn(Role) -> bool, name: &str) -> Node<'_> {
        let mut found = self.nodes();
        found.retain(|node| {
            let node = node.accesskit_node();
            is_meant(node.role()) && node.label().as_deref() == Some(name)
        });
        assert_eq!(
            found.len(),
            1,
            "widgets called \"{name}\" in {:#?}",
            self.texts()
        );
        found.remove(0)
    }

    /// A field, by the name a screen reader gives it.
    #[track_caller]
    pub fn field(&self, name: &str) -> Node<'_> {
        let is_field = |role| matches!(role, Role::TextInput | Role::MultilineTextInput);
        self.widget(is_field, name)
    }

    /// What stands in a field.
    #[track_caller]
    pub fn entry(&self, name: &str) -> String {
        self.field(name).value().unwrap_or_default()
    }

    /// What stands in a field that is left out.
    #[track_caller]
    pub fn placeholder(&self, name: &str) -> String {
        let field = self.field(name);
        assert_eq!(field.value().unwrap_or_default(), "", "{name} is filled in");
        let node = field.accesskit_node();
        node.data().placeholder().unwrap_or_default().to_owned()
    }

    #[track_caller]
    pub fn slider(&self, name: &str) -> Node<'_> {
        self.widget(|role| role == Role::Slider, name)
    }

    #[track_caller]
    pub fn choice(&self, name: &str) -> Node<'_> {
        self.widget(|role| role == Role::ComboBox, name)
    }

    /// Something to click: a button, a tick box, a heading that unfolds.
    #[track_caller]
    pub fn button(&self, name: &str) -> Node<'_> {
        let is_button = |role| {
            !matches!(
                role,
                Role::TextInput
                    | Role::MultilineTextInput
                    | Role::ComboBox
                    | Role::Slider
                    | Role::Label
            )
        };
        self.widget(is_button, name)
    }

    pub fn has_button(&self, name: &str) -> bool {
        self.nodes().iter().any(|node| {
            let node = node.accesskit_node();
            node.role() == Role::Button && node.label().as_deref() == Some(name)
        })
    }

    #[track_caller]
    pub fn click(&mut self, name: &str) {
        self.look_for(name);
        self.button(name).click();
        self.settle();
        self.harness.remove_cursor();
        self.settle();
    }

    /// That something to click is greyed, and that the pointer on it is told why.
    #[track_caller]
    pub fn assert_greyed(&mut self, name: &str, why: &str) {
        let button = self.button(name);
        let place = button.rect().center();
        assert!(button.accesskit_node().is_disabled(), "{name}");
        self.harness.hover_at(place);
        self.wait_until_it_says(why);
        self.harness.remove_cursor();
        self.settle();
    }

    /// Chooses from a list that opens under its name.
    #[track_caller]
    pub fn choose(&mut self, name: &str, what: &str) {
        self.look_for(name);
        self.choice(name).click();
        self.settle();
        self.click(what);
    }

    /// Puts the cursor into a field and takes all of it into hand.
    #[track_caller]
    fn enter(&mut self, name: &str) {
        self.look_for(name);
        self.field(name).focus();
        self.settle();
        self.harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        self.settle();
    }

    /// Types over what stands in a field, and stays in it.
    #[track_caller]
    pub fn type_over(&mut self, name: &str, text: &str) {
        self.enter(name);
        if text.is_empty() {
            self.press(Key::Delete);
        } else {
            self.harness.event(Event::Text(text.to_owned()));
            self.settle();
        }
    }

    /// Where the text stands that one asks for; `what` is said where there is none.
    #[track_caller]
    pub fn label_place(&self, what: &str, is_it: impl Fn(&str) -> bool) -> egui::Rect {
        let nodes = self.nodes().into_iter();
        let mut labels = nodes.filter(|node| node.accesskit_node().role() == Role::Label);
        let found = labels.find(|node| {
            let node = node.accesskit_node();
            let text = node.value().or_else(|| node.label());
            text.is_some_and(|text| is_it(&text))
        });
        let found = found.unwrap_or_else(|| panic!("no text of {what}"));
        found.rect()
    }

    /// Types into whatever has the keys.
    pub fn type_text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.settle();
    }

    /// Types over what stands in a field, and leaves it.
    #[track_caller]
    pub fn enter_text(&mut self, name: &str, text: &str) {
        self.type_over(name, text);
        self.press(Key::Enter);
    }

    /// Presses and lets go, with a rest between, so that nothing asked of the desktop is missed.
    #[track_caller]
    pub fn press(&mut self, key: Key) {
        self.harness.key_down(key);
        self.settle();
        self.harness.key_up(key);
        self.settle();
    }

    #[track_caller]
    pub fn press_with(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.settle();
    }

    /// Drags from one place to another, a little at a time.
    #[track_caller]
    pub fn drag(&mut self, from: Pos2, by: Vec2) {
        self.harness.hover_at(from);
        self.harness.drag_at(from);
        for part in 1_u8..=8 {
            self.harness.hover_at(from + by * f32::from(part) / 8.0);
        }
        self.settle();
        self.harness.drop_at(from + by);
        self.settle();
    }

    /// Two clicks in one place, a while after any other.
    #[track_caller]
    pub fn double_click(&mut self, at: Pos2) {
        (0..60).for_each(|_| {
            self.step();
        });
        self.harness.hover_at(at);
        for is_pressed in [true, false, true, false] {
            self.harness.event(Event::PointerButton {
                pos: at,
                button: egui::PointerButton::Primary,
                pressed: is_pressed,
                modifiers: Modifiers::NONE,
            });
        }
        self.harness.remove_cursor();
        self.settle();
    }

    /// Unfolds every group of the form.
    pub fn unfold(&mut self) {
        self.click(MEASURED);
        for group in FOLDED {
            self.unfold_one(group);
        }
    }

    /// Unfolds a group, or folds it.
    #[track_caller]
    pub fn unfold_one(&mut self, group: &str) {
        self.look_for(group);
        let was_open = self.is_open(group);
        self.heading(group).click();
        self.settle();
        self.harness.remove_cursor();
        self.settle();
        assert_eq!(self.is_open(group), !was_open, "the group {group}");
    }

    #[track_caller]
    fn is_open(&self, group: &str) -> bool {
        let heading = self.heading(group);
        heading.accesskit_node().data().is_expanded() == Some(true)
    }

    #[track_caller]
    fn heading(&self, group: &str) -> Node<'_> {
        let mut headings = self.nodes();
        headings.retain(|node| {
            let node = node.accesskit_node();
            node.label().as_deref() == Some(group)
                && node.role() != Role::ComboBox
                && node.data().is_expanded().is_some()
        });
        assert_eq!(headings.len(), 1, "headings called \"{group}\"");
        headings.remove(0)
    }

    /// Drops a file on the window.
    pub fn drop_file(&mut self, file: &Path) {
        let dropped = Arc::new(Dropped(file.to_owned()));
        self.harness.input_mut().dropped_files.push(dropped);
        self.settle();
    }

    /// Asks the window to close, as the desktop does; whether it would.
    pub fn would_close(&mut self) -> bool {
        let viewports = &mut self.harness.input_mut().viewports;
        let root = viewports.get_mut(&ViewportId::ROOT).expect("a window");
        root.events.push(ViewportEvent::Close);
        self.take_commands();
        self.settle();
        !self.take_commands().contains(&ViewportCommand::CancelClose)
    }

    /// Whether it asked the desktop to close it since commands were last taken.
    pub fn has_closed(&mut self) -> bool {
        // A window that closes asks for it until it is gone, and is never at rest.
        (0..3).for_each(|_| {
            self.step();
        });
        self.take_commands().contains(&ViewportCommand::Close)
    }
}

/// A node's text: what it holds where it is a label, its name where it is a widget.
fn text_of(node: &AccessKitNode<'_>) -> Option<String> {
    if node.role() == Role::Label {
        node.value()
    } else {
        node.label()
    }
}
