//! Opening and closing, and the question before changes are lost.

use std::path::PathBuf;

use egui::{Button, Context, Ui, ViewportCommand};

use super::asking::ask;
use super::open_file::open;
use super::outside::save;
use super::saving::why_not_savable_there;
use super::work_asking::{ask_work_first, close_window};
use super::work_files::{WorkAsking, kind_of_file};
use crate::app::desk::{Ask, Beneath, Card, DemoUnit, Desk, Next, Session, SessionId};
use crate::app::widgets::lettering::Lettering;
use crate::store::FileProblem;
use crate::unit::Document;

/// What waits until unsaved changes are saved or given up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asking {
    /// A new document.
    New,
    /// A demo unit.
    Demo(&'static DemoUnit),
    /// A file still to be chosen.
    Choose,
    /// A file.
    Open(PathBuf),
    /// The window closes.
    Close,
}

/// Does something that drops the document, once nothing is lost by it. Whether it is done; if not,
/// it failed, or the question is open.
pub fn ask_first(desk: &mut Desk, what: Asking) -> bool {
    ask_besides(desk, what, Vec::new())
}

/// The same, where the changes of some sessions may be lost. A session that is asked about comes to
/// the front, so that the person sees what the question is of.
fn ask_besides(desk: &mut Desk, what: Asking, given_up: Vec<SessionId>) -> bool {
    if let Asking::Open(file) = &what
        && let Some(kind) = kind_of_file(file)
    {
        // A work beside the units takes none of them away.
        return ask_work_first(desk, kind, WorkAsking::Open(file.clone()));
    }
    desk.look_at_files();
    let in_front = desk.session().id();
    let unsaved = desk.any_unsaved().find(|id| {
        let is_dropped = what == Asking::Close || *id == in_front;
        is_dropped && !given_up.contains(id)
    });
    let Some(unsaved) = unsaved else {
        return go_on(desk, what, given_up);
    };
    desk.bring_to_front(unsaved);
    let beneath = Beneath::unless_question(desk);
    desk.open_card(Question {
        of: unsaved,
        what,
        beneath,
        given_up,
        has_begun: false,
    });
    false
}

fn go_on(desk: &mut Desk, what: Asking, given_up: Vec<SessionId>) -> bool {
    match what {
        Asking::New => {
            let is_begun = begin(
                desk,
                Session::demo().map(|demo| demo.document().as_new()),
                "A new unit. Its readings are examples only: type your own over every one of them.",
            );
            if is_begun {
                desk.begin_with_first_field();
            }
            is_begun
        }
        Asking::Demo(demo) => begin(
            desk,
            demo.document(),
            "A demo unit. Change what you like: its file stays as it is.",
        ),
        Asking::Choose => ask(desk, &Ask::UnitToOpen, |desk, file| {
            if let Some(file) = file {
                // The file in front may have been changed while the dialog was open.
                return ask_besides(desk, Asking::Open(file), given_up);
            }
            desk.tell("Not opened: no file was chosen. Where no dialog appears, use File, Open a path, or drop a file on the window.");
            false
        }),
        Asking::Open(file) => open(desk, &file),
        Asking::Close => close_window(desk),
    }
}

/// Begins with a document that is in no file. Whether it did.
fn begin(desk: &mut Desk, document: Result<Document, FileProblem>, told: &str) -> bool {
    match document {
        Ok(document) => {
            desk.replace(Session::new(document, None));
            desk.preferences_mut().last_open = None;
            desk.tell(told);
            true
        }
        Err(problem) => {
            desk.warn(problem.to_string());
            false
        }
    }
}

/// The question before unsaved changes are lost.
struct Question {
    /// The session that would be lost.
    of: SessionId,
    what: Asking,
    /// The card that was open before, which comes back when nothing is to be lost.
    beneath: Beneath,
    /// The sessions whose changes may be lost.
    given_up: Vec<SessionId>,
    /// Whether the answer that loses nothing was given the keys.
    has_begun: bool,
}

#[derive(Clone, Copy)]
enum Reply {
    Save,
    Discard,
    Stay,
}

impl Card for Question {
    fn name(&self) -> &'static str {
        "unsaved changes"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        if !desk.bring_to_front(self.of) {
            return self.put_away(desk);
        }
        ui.label(Lettering::CardTitle.of("Unsaved changes"));
        ui.add_space(6.0);
        for told in told(desk) {
            ui.label(told);
        }
        if let Some(why_not) = why_not_savable_there(ui, desk) {
            ui.label(format!("It cannot be saved yet. {why_not}"));
        }
        ui.add_space(10.0);
        let mut answer = None;
        let is_savable = why_not_savable_there(ui, desk).is_none();
        ui.horizontal(|ui| {
            for (word, reply) in [
                ("Save", Reply::Save),
                ("Discard changes", Reply::Discard),
                ("Keep editing", Reply::Stay),
            ] {
                let is_offered = is_savable || !matches!(reply, Reply::Save);
                let button = ui.add_enabled(is_offered, Button::new(word));
                if matches!(reply, Reply::Stay) && !std::mem::replace(&mut self.has_begun, true) {
                    button.request_focus();
                }
                if button.clicked() {
                    answer = Some(reply);
                }
            }
        });
        let is_done = match answer {
            None => return Next::Stay,
            Some(Reply::Stay) => false,
            Some(Reply::Discard) => {
                self.given_up.push(self.of);
                ask_besides(desk, self.what.clone(), std::mem::take(&mut self.given_up))
            }
            Some(Reply::Save) => {
                let (what, mut beneath) = (self.what.clone(), std::mem::take(&mut self.beneath));
                let given_up = std::mem::take(&mut self.given_up);
                save(desk, move |desk, is_saved| {
                    let is_done = is_saved && ask_besides(desk, what, given_up);
                    if !is_done {
                        beneath.put_back(desk);
                    }
                    is_done
                });
                true
            }
        };
        if is_done {
            Next::Close
        } else {
            self.put_away(desk)
        }
    }

    fn beneath(&mut self) -> Option<&mut Beneath> {
        Some(&mut self.beneath)
    }

    fn is_question(&self) -> bool {
        true
    }
}

/// What the session in front would lose.
fn told(desk: &Desk) -> Vec<String> {
    let session = desk.session();
    let name = &session.document().name;
    let changes = session
        .has_own_changes()
        .then(|| format!("\"{name}\" has changes that are not saved."));
    let parted = session.file().filter(|_| session.is_parted()).map(|file| {
        format!(
            "{} was changed or removed by something else. What is open here is no longer in any file.",
            file.display()
        )
    });
    changes.into_iter().chain(parted).collect()
}

/// Closes the window, once nothing is lost by it.
pub fn quit_asked(desk: &mut Desk) {
    desk.stay_open();
    ask_first(desk, Asking::Close);
}

/// Holds the window open while there is something to lose.
pub fn close_asked(desk: &mut Desk, ctx: &Context) {
    if desk.may_close() {
        ctx.send_viewport_cmd(ViewportCommand::Close);
    } else if ctx.input(|input| input.viewport().close_requested()) {
        // What was answered when it was asked before is asked again.
        desk.stay_open();
        desk.look_at_files();
        if desk.any_unsaved().next().is_some() || desk.unsaved_works().next().is_some() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            ask_first(desk, Asking::Close);
        }
    }
}

/// Opens a file dropped on the window, unless a card about what is open waits for its answer.
pub fn dropped_files(desk: &mut Desk, ctx: &Context) {
    let dropped = ctx.input(|input| {
        input
            .raw
            .dropped_files
            .first()
            .map(|file| file.path().to_owned())
    });
    if dropped.is_some() && desk.is_unit_held() {
        desk.warn(if desk.is_asking() {
            "Not opened: a question is open. Answer it first, then drop the file on the window again."
        } else {
            "Not opened: a card about this unit is open. Close it first, then drop the file on the window again."
        });
    } else if let Some(file) = dropped {
        ask_first(desk, Asking::Open(file));
    }
}
