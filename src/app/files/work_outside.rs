//! A work beside the units saved, and its file that something else changed or removed.

use std::path::{Path, PathBuf};

use egui::Ui;

use super::asking::ask;
use super::work_files::{offered_name, open_work, put, put_in_chosen, with_ending_of};
use super::work_words::words_of;
use crate::app::desk::{Card, Desk, DeskWork, Next, WorkKind};
use crate::app::widgets::lettering::Lettering;
use crate::store::{OnDisk, is_same_file};

/// What follows a save: told whether it was saved.
type Then = Box<dyn FnOnce(&mut Desk, bool) -> bool>;

/// Asks about the file of a work where it was found changed or gone, once no other card is open.
pub(super) fn watch_works(desk: &mut Desk) {
    if desk.has_card() {
        return;
    }
    let Some((kind, seen)) = desk.take_change_of_work() else {
        return;
    };
    let file = desk.work(kind).and_then(DeskWork::file);
    if let Some(file) = file.map(Path::to_owned) {
        desk.want_area(words_of(kind).area);
        desk.open_card(WorkOutside {
            kind,
            file,
            seen,
            why: Why::Found,
            then: None,
        });
    }
}

/// Saves the work of a kind where it is kept, or asks where. What follows is told whether it was saved.
pub fn save_work(
    desk: &mut Desk,
    kind: WorkKind,
    then: impl FnOnce(&mut Desk, bool) -> bool + 'static,
) {
    let Some(work) = desk.work(kind) else {
        then(desk, false);
        return;
    };
    let Some(file) = work.file().map(Path::to_owned) else {
        save_work_as(desk, kind, then);
        return;
    };
    if let Some(question) = question_before_saving(desk, kind, &file) {
        desk.open_card(WorkOutside {
            then: Some(Box::new(then)),
            ..question
        });
        return;
    }
    let is_saved = put(desk, kind, &file);
    then(desk, is_saved);
}

/// Asks where to save the work of a kind. What follows is told whether it was saved, and waits where the save has
/// to wait for an answer.
pub fn save_work_as(
    desk: &mut Desk,
    kind: WorkKind,
    then: impl FnOnce(&mut Desk, bool) -> bool + 'static,
) {
    let Some(work) = desk.work(kind) else {
        then(desk, false);
        return;
    };
    if let Some(why_not) = work.why_not_savable() {
        desk.warn(format!("Not saved. {why_not}"));
        then(desk, false);
        return;
    }
    let id = work.id();
    let name = offered_name(desk, kind);
    ask(desk, &(words_of(kind).place)(name), move |desk, file| {
        let is_same = desk.work(kind).is_some_and(|work| work.id() == id);
        let Some(file) = file.filter(|_| is_same) else {
            desk.tell("Not saved: no file was chosen.");
            return then(desk, false);
        };
        if let Some(question) = question_before_saving(desk, kind, &with_ending_of(kind, &file)) {
            desk.open_card(WorkOutside {
                then: Some(Box::new(then)),
                ..question
            });
            return false;
        }
        let is_saved = put_in_chosen(desk, kind, &file);
        then(desk, is_saved)
    });
}

/// Whether a save to a file has to wait for an answer, which is then asked for.
pub(super) fn holds_work_back(desk: &mut Desk, kind: WorkKind, file: &Path) -> bool {
    let question = question_before_saving(desk, kind, file);
    let holds = question.is_some();
    if let Some(question) = question {
        desk.open_card(question);
    }
    holds
}

/// What has to be answered before a work is saved to a file: something else stands in its own than was
/// opened. One that is gone is put back by the save, and nobody loses by it.
fn question_before_saving(desk: &Desk, kind: WorkKind, file: &Path) -> Option<WorkOutside> {
    let work = desk.work(kind)?;
    let own = work.file()?;
    if own != file && !is_same_file(own, file) {
        return None;
    }
    let seen = work.side().look_at_file();
    matches!(seen, OnDisk::Changed(_)).then(|| WorkOutside {
        kind,
        file: own.to_owned(),
        seen,
        why: Why::Saving,
        then: None,
    })
}

/// Why it is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Why {
    /// It was found changed or gone.
    Found,
    /// It is to be saved over.
    Saving,
}

/// The question what to do about it. Until it is answered the work counts as not saved.
struct WorkOutside {
    kind: WorkKind,
    file: PathBuf,
    seen: OnDisk,
    why: Why,
    then: Option<Then>,
}

impl WorkOutside {
    /// Goes on with what waited; whether the work is in its file.
    fn answered(&mut self, desk: &mut Desk, is_in_file: bool) -> Next {
        if let Some(then) = self.then.take() {
            then(desk, is_in_file);
        }
        Next::Close
    }

    /// Keeps what is here. What was written to the file since it was asked about is asked about first.
    fn keep_mine(&mut self, desk: &mut Desk) -> Next {
        if self.why == Why::Found {
            desk.keep_my_work(self.kind, self.seen);
            return Next::Close;
        }
        let now = desk.work(self.kind).map(|work| work.side().look_at_file());
        // Once more while this was asked: what it is now, nobody has said yes to.
        if let Some(now) = now
            && matches!(now, OnDisk::Changed(_))
            && now != self.seen
        {
            self.seen = now;
            desk.warn("The file was changed again while you were being asked.");
            return Next::Stay;
        }
        let file = self.file.clone();
        let is_saved = put(desk, self.kind, &file);
        self.answered(desk, is_saved)
    }
}

impl Card for WorkOutside {
    fn name(&self) -> &'static str {
        "work changed outside"
    }

    fn width(&self) -> f32 {
        480.0
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let (kind, words) = (self.kind, words_of(self.kind));
        let own = desk.work(kind).and_then(DeskWork::file);
        if own != Some(&*self.file) {
            return self.answered(desk, false);
        }
        let is_gone = self.seen == OnDisk::Gone;
        let file = self.file.display();
        let (title, told) = if is_gone {
            (
                "The file is gone",
                format!(
                    "{file} is gone. The {} that is open here is no longer in any file.",
                    words.name
                ),
            )
        } else {
            (
                "Changed outside",
                format!(
                    "{file} was changed by something else since the {} was opened or saved here.",
                    words.holds
                ),
            )
        };
        ui.label(Lettering::CardTitle.of(title));
        ui.add_space(6.0);
        ui.label(told);
        if !is_gone {
            ui.label(format!("Reload discards the {} made here.", words.entries));
        }
        ui.add_space(10.0);
        let keeping = match self.why {
            Why::Found => "Keep mine",
            Why::Saving => "Save mine over it",
        };
        ui.horizontal(|ui| {
            if !is_gone && ui.button("Reload").clicked() {
                let file = self.file.clone();
                let is_reloaded = open_work(desk, kind, &file);
                return self.answered(desk, is_reloaded);
            }
            if ui.button(keeping).clicked() {
                return self.keep_mine(desk);
            }
            if ui.button("Save as…").clicked() {
                let then = self.then.take();
                save_work_as(desk, kind, move |desk, is_saved| match then {
                    Some(then) => then(desk, is_saved),
                    None => is_saved,
                });
                return Next::Close;
            }
            if self.why == Why::Saving && ui.button("Cancel").clicked() {
                return self.answered(desk, false);
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
