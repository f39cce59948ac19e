//! The question before a work beside the units is lost.

use egui::{Button, Ui};

use super::asking::ask;
use super::work_files::{WorkAsking, go_on, kind_of_file};
use super::work_outside::save_work;
use super::work_words::words_of;
use crate::app::desk::{Beneath, Card, Desk, DeskWork, Next, WorkKind};
use crate::app::widgets::lettering::Lettering;

/// Does something that drops the work of a kind, once none of it is lost. Whether it is done; if not, it
/// failed, or the question is open.
pub fn ask_work_first(desk: &mut Desk, kind: WorkKind, what: WorkAsking) -> bool {
    desk.look_at_work_file(kind);
    if desk.has_unsaved_work(kind) {
        return ask_about(desk, kind, what);
    }
    go_on(desk, kind, what)
}

/// Closes the window, once no work beside the units is lost by it.
pub(super) fn close_window(desk: &mut Desk) -> bool {
    for kind in WorkKind::ALL {
        desk.look_at_work_file(kind);
    }
    let unsaved = desk.unsaved_works().next();
    if let Some(kind) = unsaved {
        return ask_about(desk, kind, WorkAsking::CloseWindow);
    }
    desk.close();
    true
}

fn ask_about(desk: &mut Desk, kind: WorkKind, what: WorkAsking) -> bool {
    desk.want_area(words_of(kind).area);
    let beneath = Beneath::unless_question(desk);
    desk.open_card(WorkQuestion {
        kind,
        what,
        beneath,
        has_begun: false,
    });
    false
}

/// Asks for a work to open, and opens it once no other is lost by it.
pub fn choose_work(desk: &mut Desk, kind: WorkKind) -> bool {
    ask(desk, &words_of(kind).to_open, move |desk, file| {
        let Some(file) = file else {
            desk.tell("Not opened: no file was chosen. Where no dialog appears, use File, Open a path, or drop a file on the window.");
            return false;
        };
        if kind_of_file(&file) == Some(kind) {
            return ask_work_first(desk, kind, WorkAsking::Open(file));
        }
        let words = words_of(kind);
        desk.warn(format!(
            "Not opened: the name of a {} ends in {}. File: {}",
            words.name,
            words.ending,
            file.display()
        ));
        false
    })
}

/// The question before a work's unsaved changes are lost.
struct WorkQuestion {
    kind: WorkKind,
    what: WorkAsking,
    /// The card that was open before, which comes back when nothing is to be lost.
    beneath: Beneath,
    /// Whether the answer that loses nothing was given the keys.
    has_begun: bool,
}

#[derive(Clone, Copy)]
enum Reply {
    Save,
    Discard,
    /// The window closes, and the next start offers the work as it is.
    Keep,
    Stay,
}

impl Card for WorkQuestion {
    fn name(&self) -> &'static str {
        "unsaved work"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let kind = self.kind;
        let words = words_of(kind);
        let why_not = desk.work(kind).map(DeskWork::why_not_savable);
        let Some(why_not) = why_not else {
            return self.put_away(desk);
        };
        ui.label(Lettering::CardTitle.of(format!("Unsaved {}", words.name)));
        ui.add_space(6.0);
        ui.label(format!(
            "The {} has {} that are not saved.",
            words.name, words.entries
        ));
        if let Some(why_not) = &why_not {
            ui.label(format!("It cannot be saved yet. {why_not}"));
        }
        let left_out = desk.work(kind).map(DeskWork::left_out_of_a_save);
        let left_out = left_out.unwrap_or_default();
        let is_whole = left_out.is_empty();
        if why_not.is_none() && !is_whole {
            let left_out = left_out.join("; ");
            ui.label(format!(
                "Not complete yet or entered another way, and left out of the file: {left_out}."
            ));
        }
        let is_closing = self.what == WorkAsking::CloseWindow;
        let can_keep = is_closing && desk.keeps_work() && (why_not.is_some() || !is_whole);
        ui.add_space(10.0);
        let mut answer = None;
        ui.horizontal(|ui| {
            for (word, reply) in [
                ("Save", Reply::Save),
                ("Discard changes", Reply::Discard),
                ("Keep for the next start", Reply::Keep),
                ("Keep editing", Reply::Stay),
            ] {
                if matches!(reply, Reply::Keep) && !can_keep {
                    continue;
                }
                let is_offered = why_not.is_none() || !matches!(reply, Reply::Save);
                let button = ui.add_enabled(is_offered, Button::new(word));
                if matches!(reply, Reply::Stay) && !std::mem::replace(&mut self.has_begun, true) {
                    button.request_focus();
                }
                if button.clicked() {
                    answer = Some(reply);
                }
            }
        });
        match answer {
            None => Next::Stay,
            Some(Reply::Stay) => self.put_away(desk),
            Some(Reply::Discard) => {
                match self.what {
                    // One to open takes its place, and one that is refused leaves it where it lies.
                    WorkAsking::Open(_) => {}
                    // Another question may still be answered so that the window stays open.
                    WorkAsking::CloseWindow => desk.discard_at_close(kind),
                    WorkAsking::New | WorkAsking::Close | WorkAsking::MakeRoom => {
                        desk.drop_work(kind);
                    }
                }
                go_on_or_ask(desk, kind, self.what.clone());
                if self.what == WorkAsking::MakeRoom {
                    self.beneath.put_back(desk);
                }
                Next::Close
            }
            Some(Reply::Keep) => {
                desk.keep_for_next_start(kind);
                go_on_or_ask(desk, kind, self.what.clone());
                Next::Close
            }
            Some(Reply::Save) => {
                let (what, mut beneath) = (self.what.clone(), std::mem::take(&mut self.beneath));
                save_work(desk, kind, move |desk, is_saved| {
                    // What the file does not hold yet would be lost with it.
                    let is_whole = is_saved && !desk.has_unsaved_work(kind);
                    if !is_whole {
                        desk.stay_open();
                    }
                    let has_waiting = what == WorkAsking::MakeRoom;
                    let is_done = is_whole && go_on_or_ask(desk, kind, what);
                    if !is_done || has_waiting {
                        beneath.put_back(desk);
                    }
                    is_done
                });
                Next::Close
            }
        }
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        // The window stays open, and so does what was to be kept as it closes.
        desk.stay_open();
        self.beneath.put_back(desk);
        Next::Close
    }

    fn beneath(&mut self) -> Option<&mut Beneath> {
        Some(&mut self.beneath)
    }

    fn is_question(&self) -> bool {
        true
    }
}

/// Goes on with what waited for an answer. A window closes once every kind of work was asked about.
fn go_on_or_ask(desk: &mut Desk, kind: WorkKind, what: WorkAsking) -> bool {
    match what {
        WorkAsking::CloseWindow => close_window(desk),
        what => go_on(desk, kind, what),
    }
}
