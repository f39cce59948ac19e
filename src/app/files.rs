//! Files as a person opens and saves them: dialogs, the question before changes are lost, dropping.

use std::path::{Path, PathBuf};

use egui::{Key, KeyboardShortcut, Modifiers, RichText};

use super::card::card;
use super::look::strong;
use super::{App, Session};

/// Asks a person for a file. The native dialogs in the program; something else in tests.
pub trait Dialogs {
    /// A unit file to open; nothing when the person thought better of it.
    fn file_to_open(&self) -> Option<PathBuf>;
    /// Where to save, beginning with a name.
    fn file_to_save(&self, name: &str) -> Option<PathBuf>;
    /// A CSV file of knives to read; nothing when the person thought better of it.
    fn rows_to_read(&self) -> Option<PathBuf> {
        None
    }
    /// Where to write the knives as CSV, beginning with a name.
    fn rows_to_write(&self, _name: &str) -> Option<PathBuf> {
        None
    }
}

/// Dialogs that are put away at once: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoDialogs;

impl Dialogs for NoDialogs {
    fn file_to_open(&self) -> Option<PathBuf> {
        None
    }
    fn file_to_save(&self, _: &str) -> Option<PathBuf> {
        None
    }
}

/// The desktop's own dialogs.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct NativeDialogs;

impl NativeDialogs {
    fn dialog() -> rfd::FileDialog {
        rfd::FileDialog::new().add_filter("Unit file", &["ron"])
    }

    fn rows_dialog() -> rfd::FileDialog {
        rfd::FileDialog::new().add_filter("Rows of knives, CSV", &["csv", "tsv", "txt"])
    }
}

impl Dialogs for NativeDialogs {
    fn file_to_open(&self) -> Option<PathBuf> {
        Self::dialog().set_title("Open a unit").pick_file()
    }
    fn file_to_save(&self, name: &str) -> Option<PathBuf> {
        Self::dialog()
            .set_title("Save the unit")
            .set_file_name(name)
            .save_file()
    }
    fn rows_to_read(&self) -> Option<PathBuf> {
        Self::rows_dialog().set_title("Read knives").pick_file()
    }
    fn rows_to_write(&self, name: &str) -> Option<PathBuf> {
        Self::rows_dialog()
            .set_title("Write the knives")
            .set_file_name(name)
            .save_file()
    }
}

/// What waits until unsaved changes are saved or given up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Asking {
    /// A new document.
    New,
    /// A file still to be chosen.
    Choose,
    /// A file.
    Open(PathBuf),
    /// The window closes.
    Close,
}

const COMMAND: Modifiers = Modifiers::COMMAND;
pub(super) const NEW: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::N);
pub(super) const OPEN: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::O);
pub(super) const SAVE: KeyboardShortcut = KeyboardShortcut::new(COMMAND, Key::S);
pub(super) const SAVE_AS: KeyboardShortcut =
    KeyboardShortcut::new(COMMAND.plus(Modifiers::SHIFT), Key::S);

impl App {
    /// Shortcuts for files.
    pub(super) fn keys(&mut self, ctx: &egui::Context) {
        if self.asking.is_some()
            || self.path_card.is_some()
            || self.behind_card.is_some()
            || self.knives.is_pasting()
        {
            return;
        }
        // The longer one first: it holds the shorter one.
        if ctx.input_mut(|input| input.consume_shortcut(&SAVE_AS)) {
            self.save_as();
        } else if ctx.input_mut(|input| input.consume_shortcut(&SAVE)) {
            self.save_file();
        } else if ctx.input_mut(|input| input.consume_shortcut(&OPEN)) {
            self.ask_first(Asking::Choose);
        } else if ctx.input_mut(|input| input.consume_shortcut(&NEW)) {
            self.ask_first(Asking::New);
        }
    }

    /// Does something that drops the document, once nothing is lost by it.
    pub(super) fn ask_first(&mut self, what: Asking) {
        if self.has_unsaved() {
            self.asking = Some(what);
        } else {
            self.go_on(what);
        }
    }

    /// Whether closing now would lose something: a change, or a text that is not right yet.
    pub(super) fn has_unsaved(&self) -> bool {
        self.session.is_changed() || self.drafts.first_wrong().is_some()
    }

    fn go_on(&mut self, what: Asking) {
        match what {
            Asking::New => match Session::demo() {
                Ok(demo) => {
                    self.show_document(Session::new(demo.document.as_new(), None));
                    self.tell("A new unit. Its readings are examples only: type your own over every one of them.");
                }
                Err(problem) => self.warn(problem.to_string()),
            },
            Asking::Choose => {
                match self.dialogs.file_to_open() {
                    Some(file) => self.open(&file),
                    None => self.tell("Nothing opened: no file was chosen. Where no dialog appears, use File, Open a path, or drop a file on the window."),
                }
            }
            Asking::Open(file) => self.open(&file),
            Asking::Close => self.may_close = true,
        }
    }

    /// Opens a file in place of the document; one that is refused leaves it as it was.
    pub(super) fn open(&mut self, file: &Path) {
        match Session::open(file) {
            Ok(session) => {
                self.show_document(session);
                self.preferences.remember(file);
                self.tell(format!("Opened {}", file.display()));
            }
            Err(problem) => {
                if !file.exists() {
                    self.preferences.forget(file);
                }
                self.warn(format!("Not opened. {problem}"));
            }
        }
    }

    /// Saves where the document is kept. Whether it was saved.
    pub(super) fn save_file(&mut self) -> bool {
        match self.session.file.clone() {
            Some(file) => self.save_to(&file),
            None => self.save_as(),
        }
    }

    /// Asks where to save. Whether it was saved.
    pub(super) fn save_as(&mut self) -> bool {
        if !self.is_savable() {
            return false;
        }
        let name = self
            .session
            .file
            .as_ref()
            .and_then(|file| file.file_name())
            .map_or_else(
                || file_name_for(&self.session.document.name),
                |name| name.to_string_lossy().into_owned(),
            );
        if let Some(file) = self.dialogs.file_to_save(&name) {
            return self.save_to_chosen(&file);
        }
        self.tell(
            "Not saved: no file was chosen. Where no dialog appears, use File, Save to a path.",
        );
        false
    }

    /// Saves to a file a person chose.
    pub(super) fn save_to_chosen(&mut self, file: &Path) -> bool {
        match self.whole_name(file, "ron") {
            Some(file) => self.save_to(&file),
            None => false,
        }
    }

    /// The file that a person's choice means: a name without an ending gets one, unless that would
    /// replace a file nobody chose.
    pub(super) fn whole_name(&mut self, file: &Path, ending: &str) -> Option<PathBuf> {
        if file.extension().is_some() {
            return Some(file.to_owned());
        }
        let whole = file.with_extension(ending);
        if whole.exists() {
            self.warn_of_another(&whole);
            return None;
        }
        Some(whole)
    }

    pub(super) fn warn_of_another(&mut self, file: &Path) {
        let file = file.display();
        self.warn(format!(
            "Not saved: {file} is there already, and it is not the file that is open."
        ));
    }

    /// A file that could not be opened again must not be written.
    fn is_savable(&mut self) -> bool {
        if let Some(draft) = self.drafts.first_wrong() {
            let told = draft.told();
            self.warn(format!("Not saved. {told}"));
            return false;
        }
        if let Err(flaw) = self.session.document.checked() {
            let name = flaw.field.name();
            self.warn(format!("Not saved: {name}: {}", flaw.kind));
            return false;
        }
        true
    }

    fn save_to(&mut self, file: &Path) -> bool {
        if !self.is_savable() {
            return false;
        }
        match self.session.save_to(file) {
            Ok(()) => {
                self.preferences.remember(file);
                self.tell(format!("Saved {}", file.display()));
                true
            }
            Err(problem) => {
                self.warn(problem.to_string());
                false
            }
        }
    }

    /// The question before unsaved changes are lost.
    pub(super) fn question_ui(&mut self, ctx: &egui::Context) {
        let Some(what) = self.asking.clone() else {
            return;
        };
        let name = self.session.document.name.clone();
        let mut answer = None;
        let modal = card(ctx, "unsaved changes", 420.0, |ui| {
            ui.label(RichText::new("Unsaved changes").family(strong()).size(18.0));
            ui.add_space(6.0);
            ui.label(format!("\"{name}\" has changes that are not saved."));
            if let Some(draft) = self.drafts.first_wrong() {
                ui.label(format!("It cannot be saved yet. {}", draft.told()));
            }
            ui.add_space(10.0);
            ui.horizontal(|ui| {
                for (word, reply) in [
                    ("Save", Reply::Save),
                    ("Lose the changes", Reply::Lose),
                    ("Keep editing", Reply::Stay),
                ] {
                    if ui.button(word).clicked() {
                        answer = Some(reply);
                    }
                }
            });
        });
        if modal.should_close() {
            answer = Some(Reply::Stay);
        }
        match answer {
            None => {}
            Some(Reply::Stay) => self.asking = None,
            Some(Reply::Lose) => {
                self.asking = None;
                self.go_on(what);
            }
            Some(Reply::Save) => {
                self.asking = None;
                if self.save_file() {
                    self.go_on(what);
                }
            }
        }
    }

    /// Holds the window open while there is something to lose.
    pub(super) fn close_asked(&mut self, ctx: &egui::Context) {
        if self.may_close {
            ctx.send_viewport_cmd(egui::ViewportCommand::Close);
        } else if ctx.input(|input| input.viewport().close_requested()) && self.has_unsaved() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.asking = Some(Asking::Close);
        }
    }

    /// Opens a file dropped on the window.
    pub(super) fn dropped_files(&mut self, ctx: &egui::Context) {
        let dropped = ctx.input(|input| {
            input
                .raw
                .dropped_files
                .first()
                .map(|file| file.path().to_owned())
        });
        if let Some(file) = dropped {
            self.ask_first(Asking::Open(file));
        }
    }

    /// The window's title: the unit, with a mark for unsaved changes.
    ///
    /// Not every windowing system tells which title it shows, so the one last sent is remembered;
    /// sending it again and again would never let the window rest.
    pub(super) fn window_title(&mut self, ctx: &egui::Context) {
        let mark = if self.has_unsaved() { "• " } else { "" };
        let title = format!("{mark}{} - Sweepgauge", self.session.document.name);
        if self.title_sent != title {
            self.title_sent.clone_from(&title);
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title));
        }
    }
}

#[derive(Clone, Copy)]
enum Reply {
    Save,
    Lose,
    Stay,
}

/// A file name from a unit's name.
fn file_name_for(name: &str) -> String {
    format!("{}.ron", file_stem_for(name))
}

/// A file name from a unit's name, without its ending.
pub(super) fn file_stem_for(name: &str) -> String {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<_> = plain.split('-').filter(|word| !word.is_empty()).collect();
    if words.is_empty() {
        "unit".to_owned()
    } else {
        words.join("-")
    }
}
