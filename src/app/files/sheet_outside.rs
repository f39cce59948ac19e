//! A plate sheet saved, and its file that something else changed or removed.

use std::path::{Path, PathBuf};

use egui::Ui;

use super::asking::ask;
use super::sheet_files::{
    PLATE_AREA, offered_name, open_sheet, put, put_in_chosen, with_sheet_ending,
};
use crate::app::desk::{Ask, Card, Desk, Next, SheetWork};
use crate::app::widgets::lettering::Lettering;
use crate::store::{OnDisk, is_same_file};

/// What follows a save: told whether it was saved.
type Then = Box<dyn FnOnce(&mut Desk, bool) -> bool>;

/// Asks about the sheet's file where it was found changed or gone, once no other card is open.
pub(super) fn watch_sheet(desk: &mut Desk) {
    if desk.has_card() {
        return;
    }
    let Some(seen) = desk.take_change_of_sheet() else {
        return;
    };
    let file = desk.sheet().and_then(SheetWork::file).map(Path::to_owned);
    if let Some(file) = file {
        desk.want_area(PLATE_AREA);
        desk.open_card(SheetOutside {
            file,
            seen,
            why: Why::Found,
            then: None,
        });
    }
}

/// Saves the sheet where it is kept, or asks where. What follows is told whether it was saved.
pub fn save_sheet(desk: &mut Desk, then: impl FnOnce(&mut Desk, bool) -> bool + 'static) {
    let Some(sheet) = desk.sheet() else {
        then(desk, false);
        return;
    };
    let Some(file) = sheet.file().map(Path::to_owned) else {
        save_sheet_as(desk, then);
        return;
    };
    if let Some(question) = question_before_saving(desk, &file) {
        desk.open_card(SheetOutside {
            then: Some(Box::new(then)),
            ..question
        });
        return;
    }
    let is_saved = put(desk, &file);
    then(desk, is_saved);
}

/// Asks where to save the sheet. What follows is told whether it was saved, and waits where the save has
/// to wait for an answer.
pub fn save_sheet_as(desk: &mut Desk, then: impl FnOnce(&mut Desk, bool) -> bool + 'static) {
    let Some(sheet) = desk.sheet() else {
        then(desk, false);
        return;
    };
    if let Some(why_not) = sheet.why_not_savable() {
        desk.warn(format!("Not saved. {why_not}"));
        then(desk, false);
        return;
    }
    let id = sheet.id();
    let name = offered_name(desk);
    ask(desk, &Ask::PlaceForWorksheet(name), move |desk, file| {
        let is_same = desk.sheet().is_some_and(|sheet| sheet.id() == id);
        let Some(file) = file.filter(|_| is_same) else {
            desk.tell("Not saved: no file was chosen.");
            return then(desk, false);
        };
        if let Some(question) = question_before_saving(desk, &with_sheet_ending(&file)) {
            desk.open_card(SheetOutside {
                then: Some(Box::new(then)),
                ..question
            });
            return false;
        }
        let is_saved = put_in_chosen(desk, &file);
        then(desk, is_saved)
    });
}

/// Whether a save to a file has to wait for an answer, which is then asked for.
pub(super) fn holds_sheet_back(desk: &mut Desk, file: &Path) -> bool {
    let question = question_before_saving(desk, file);
    let holds = question.is_some();
    if let Some(question) = question {
        desk.open_card(question);
    }
    holds
}

/// What has to be answered before the sheet is saved to a file: something else stands in its own than was
/// opened. One that is gone is put back by the save, and nobody loses by it.
fn question_before_saving(desk: &Desk, file: &Path) -> Option<SheetOutside> {
    let sheet = desk.sheet()?;
    let own = sheet.file()?;
    if own != file && !is_same_file(own, file) {
        return None;
    }
    let seen = sheet.look_at_file();
    matches!(seen, OnDisk::Changed(_)).then(|| SheetOutside {
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

/// The question what to do about it. Until it is answered the sheet counts as not saved.
struct SheetOutside {
    file: PathBuf,
    seen: OnDisk,
    why: Why,
    then: Option<Then>,
}

impl SheetOutside {
    /// Goes on with what waited; whether the sheet is in its file.
    fn answered(&mut self, desk: &mut Desk, is_in_file: bool) -> Next {
        if let Some(then) = self.then.take() {
            then(desk, is_in_file);
        }
        Next::Close
    }

    /// Keeps what is here. What was written to the file since it was asked about is asked about first.
    fn keep_mine(&mut self, desk: &mut Desk) -> Next {
        if self.why == Why::Found {
            desk.keep_my_sheet(self.seen);
            return Next::Close;
        }
        let now = desk.sheet().map(SheetWork::look_at_file);
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
        let is_saved = put(desk, &file);
        self.answered(desk, is_saved)
    }
}

impl Card for SheetOutside {
    fn name(&self) -> &'static str {
        "sheet changed outside"
    }

    fn width(&self) -> f32 {
        480.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let own = desk.sheet().and_then(SheetWork::file);
        if own != Some(&*self.file) {
            return self.answered(desk, false);
        }
        let is_gone = self.seen == OnDisk::Gone;
        let file = self.file.display();
        let (title, told) = if is_gone {
            (
                "The file is gone",
                format!(
                    "{file} is gone. The plate sheet that is open here is no longer in any file."
                ),
            )
        } else {
            (
                "Changed outside",
                format!(
                    "{file} was changed by something else since the sheet was opened or saved here."
                ),
            )
        };
        ui.label(Lettering::CardTitle.of(title));
        ui.add_space(6.0);
        ui.label(told);
        if !is_gone {
            ui.label("Reload discards the entries made here.");
        }
        ui.add_space(10.0);
        let keeping = match self.why {
            Why::Found => "Keep mine",
            Why::Saving => "Save mine over it",
        };
        ui.horizontal(|ui| {
            if !is_gone && ui.button("Reload").clicked() {
                let file = self.file.clone();
                let is_reloaded = open_sheet(desk, &file);
                return self.answered(desk, is_reloaded);
            }
            if ui.button(keeping).clicked() {
                return self.keep_mine(desk);
            }
            if ui.button("Save as…").clicked() {
                let then = self.then.take();
                save_sheet_as(desk, move |desk, is_saved| match then {
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
