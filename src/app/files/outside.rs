//! A file that something else changed, removed or has open as well.

use std::path::Path;

use egui::{Context, Ui};

use super::open_file::open;
use super::saving::{is_open_file, save_as, save_to};
use super::work_outside::watch_works;
use crate::app::desk::{Card, Desk, Next, SessionId};
use crate::app::widgets::lettering::Lettering;
use crate::store::OnDisk;

/// Looks after the file in front: told by the keeper from time to time, asked for when the window is
/// gone to. A question about it waits until no other card is open.
pub fn watch_file(desk: &mut Desk, ctx: &Context) {
    let is_gone_to = ctx.input(|input| {
        let is_focus = |event: &egui::Event| matches!(event, egui::Event::WindowFocused(true));
        input.events.iter().any(is_focus)
    });
    if is_gone_to {
        desk.look_at_file();
    }
    desk.hear_news();
    if !desk.has_card()
        && let Some(seen) = desk.take_change_outside()
    {
        desk.open_card(Outside::new(desk, seen, Why::Found));
    }
    watch_works(desk);
}

/// What follows once it is answered: told whether the work here is in its file.
type Then = Box<dyn FnOnce(&mut Desk, bool) -> bool>;

/// Saves where the document is kept, or asks where. What follows is told whether it was saved, and
/// waits where the save has to wait for an answer.
pub fn save(desk: &mut Desk, then: impl FnOnce(&mut Desk, bool) -> bool + 'static) {
    let Some(file) = desk.session().file().map(Path::to_owned) else {
        save_as(desk, then);
        return;
    };
    if let Some(question) = question_before_saving(desk, &file) {
        desk.open_card(Outside {
            then: Some(Box::new(then)),
            ..question
        });
    } else {
        let is_saved = save_to(desk, &file);
        then(desk, is_saved);
    }
}

/// Whether a save has to wait for an answer, which is then asked for.
pub fn holds_save_back(desk: &mut Desk, file: &Path) -> bool {
    let question = question_before_saving(desk, file);
    let holds = question.is_some();
    if let Some(question) = question {
        desk.open_card(question);
    }
    holds
}

/// What has to be answered before a file is saved to: something else stands in it than was opened, or
/// another window has it open.
fn question_before_saving(desk: &mut Desk, file: &Path) -> Option<Outside> {
    if !is_open_file(desk, file) {
        return None;
    }
    let seen = desk.look_before_saving();
    let why = match seen {
        OnDisk::Changed(_) => Why::Saving,
        // A file that is gone is put back by the save, and nobody loses by it.
        OnDisk::Same | OnDisk::Gone if desk.others_on_file() > 0 => Why::Shared,
        OnDisk::Same | OnDisk::Gone => return None,
    };
    Some(Outside::new(desk, seen, why))
}

/// Why it is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Why {
    /// It was found changed or gone.
    Found,
    /// It is to be saved over, and was changed.
    Saving,
    /// It is to be saved, and another window has it open.
    Shared,
}

/// The question what to do about it. Until it is answered the work here counts as unsaved, and no
/// save goes over what something else wrote.
struct Outside {
    /// Whose file it is.
    of: SessionId,
    seen: OnDisk,
    why: Why,
    /// Whether the file changed once more while this was asked.
    is_again: bool,
    /// What waits for the answer.
    then: Option<Then>,
}

impl Outside {
    fn new(desk: &Desk, seen: OnDisk, why: Why) -> Self {
        Self {
            of: desk.session().id(),
            seen,
            why,
            is_again: false,
            then: None,
        }
    }

    /// Goes on with what waited; whether the work here is in its file.
    fn answered(&mut self, desk: &mut Desk, is_in_file: bool) -> Next {
        if let Some(then) = self.then.take() {
            then(desk, is_in_file);
        }
        Next::Close
    }

    /// Keeps what is here. What was written to the file since it was asked about is asked about first.
    fn keep_mine(&mut self, desk: &mut Desk, file: &Path) -> Next {
        if self.why == Why::Found {
            desk.keep_mine(self.seen);
            return Next::Close;
        }
        let now = desk.look_before_saving();
        if matches!(now, OnDisk::Changed(_)) && now != self.seen {
            self.seen = now;
            self.why = Why::Saving;
            self.is_again = true;
            return Next::Stay;
        }
        let is_saved = save_to(desk, file);
        self.answered(desk, is_saved)
    }

    fn told(&self, file: &Path) -> String {
        let file = file.display();
        match (self.why, self.seen) {
            (Why::Shared, _) => {
                format!("Another window has {file} open. Saving here replaces what it saved.")
            }
            (_, OnDisk::Gone) => {
                format!("{file} is gone. What is open here is no longer in any file.")
            }
            _ if self.is_again => {
                format!("{file} was changed again by something else while you were being asked.")
            }
            _ => format!("{file} was changed by something else since it was opened or saved here."),
        }
    }

    /// What keeping one's own is called.
    fn keeping(&self) -> &'static str {
        match self.why {
            Why::Found => "Keep mine",
            Why::Saving | Why::Shared => "Save mine over it",
        }
    }
}

impl Card for Outside {
    fn name(&self) -> &'static str {
        "changed outside"
    }

    fn width(&self) -> f32 {
        480.0
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let file = desk.session().file().map(Path::to_owned);
        let Some(file) = file.filter(|_| desk.session().id() == self.of) else {
            return self.answered(desk, false);
        };
        let is_gone = self.seen == OnDisk::Gone;
        let title = match self.why {
            Why::Shared => "Open in another window",
            _ if is_gone => "The file is gone",
            _ => "Changed outside",
        };
        ui.label(Lettering::CardTitle.of(title));
        ui.add_space(6.0);
        ui.label(self.told(&file));
        let can_reload = !is_gone && self.why != Why::Shared;
        if can_reload && desk.session().has_own_changes() {
            ui.label("Reload discards the changes made here.");
        }
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            if can_reload && ui.button("Reload").clicked() {
                // One that cannot be opened leaves the work here as it is, unsaved.
                let is_reloaded = open(desk, &file);
                return self.answered(desk, is_reloaded);
            }
            if ui.button(self.keeping()).clicked() {
                return self.keep_mine(desk, &file);
            }
            if ui.button("Save as…").clicked() {
                let then = self.then.take();
                save_as(desk, move |desk, is_saved| match then {
                    Some(then) => then(desk, is_saved),
                    None => is_saved,
                });
                return Next::Close;
            }
            Next::Stay
        })
        .inner
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        self.answered(desk, false)
    }

    fn is_question(&self) -> bool {
        true
    }
}
