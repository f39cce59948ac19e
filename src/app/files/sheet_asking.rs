//! Questions about a plate sheet: before it is lost, and before something else's work is.

use std::path::{Path, PathBuf};

use egui::{Button, Ui};

use super::asking::ask;
use super::sheet_files::{
    PLATE_AREA, SHEET_ENDING, SheetAsking, go_on, is_sheet_file, open_sheet, put, save_sheet_as,
};
use crate::app::desk::{Ask, Beneath, Card, Desk, Next, SheetWork};
use crate::app::widgets::lettering::Lettering;
use crate::store::OnDisk;

/// What follows a save: told whether it was saved.
type Then = Box<dyn FnOnce(&mut Desk, bool) -> bool>;

/// Does something that drops the sheet, once nothing is lost by it. Whether it is done; if not, it failed,
/// or the question is open.
pub fn ask_sheet_first(desk: &mut Desk, what: SheetAsking) -> bool {
    if desk.has_unsaved_sheet() {
        desk.want_area(PLATE_AREA);
        let beneath = Beneath::unless_question(desk);
        desk.open_card(SheetQuestion::new(what, beneath));
        return false;
    }
    go_on(desk, what)
}

/// Asks for a sheet to open, and opens it once nothing is lost by it.
pub fn choose_sheet(desk: &mut Desk) -> bool {
    ask(desk, &Ask::WorksheetToOpen, |desk, file| {
        let Some(file) = file else {
            desk.tell("Not opened: no file was chosen. Where no dialog appears, use File, Open a path, or drop a file on the window.");
            return false;
        };
        if is_sheet_file(&file) {
            return ask_sheet_first(desk, SheetAsking::Open(file));
        }
        let file = file.display();
        desk.warn(format!(
            "Not opened: the name of a plate sheet ends in {SHEET_ENDING}. File: {file}"
        ));
        false
    })
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
    // A file that is gone is put back by the save, and nobody loses by it.
    let seen = sheet.look_at_file();
    if matches!(seen, OnDisk::Changed(_)) {
        desk.open_card(SheetOutside::new(file, seen, Box::new(then)));
        return;
    }
    let is_saved = put(desk, &file);
    then(desk, is_saved);
}

/// Whether a save to the sheet's own file has to wait for an answer, which is then asked for.
pub(super) fn holds_sheet_back(desk: &mut Desk) -> bool {
    let own = desk.sheet().and_then(|sheet| {
        let file = sheet.file()?.to_owned();
        Some((file, sheet.look_at_file()))
    });
    match own {
        Some((file, seen @ OnDisk::Changed(_))) => {
            desk.open_card(SheetOutside::new(file, seen, Box::new(|_, saved| saved)));
            true
        }
        _ => false,
    }
}

/// The question before a sheet's unsaved changes are lost.
pub struct SheetQuestion {
    what: SheetAsking,
    /// The card that was open before, which comes back when nothing is to be lost.
    beneath: Beneath,
    /// Whether the answer that loses nothing was given the keys.
    has_begun: bool,
}

impl SheetQuestion {
    /// Before something that drops the sheet.
    pub fn new(what: SheetAsking, beneath: Beneath) -> Self {
        Self {
            what,
            beneath,
            has_begun: false,
        }
    }
}

#[derive(Clone, Copy)]
enum Reply {
    Save,
    Discard,
    /// The window closes, and the next start offers the sheet as it is.
    Keep,
    Stay,
}

impl Card for SheetQuestion {
    fn name(&self) -> &'static str {
        "unsaved sheet"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let why_not = desk.sheet().map(SheetWork::why_not_savable);
        let Some(why_not) = why_not else {
            return self.put_away(desk);
        };
        ui.label(Lettering::CardTitle.of("Unsaved plate sheet"));
        ui.add_space(6.0);
        ui.label("The plate sheet has entries that are not saved.");
        if let Some(why_not) = &why_not {
            ui.label(format!("It cannot be saved yet. {why_not}"));
        }
        let left_out = desk.sheet().map(SheetWork::left_out_of_a_save);
        let left_out = left_out.unwrap_or_default();
        let is_whole = left_out.is_empty();
        if why_not.is_none() && !is_whole {
            let left_out = left_out.join("; ");
            ui.label(format!(
                "Not complete yet, and left out of the file: {left_out}."
            ));
        }
        let is_closing = self.what == SheetAsking::CloseWindow;
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
                // A sheet to open takes its place, and one that is refused leaves it where it lies.
                if !matches!(self.what, SheetAsking::Open(_)) {
                    desk.drop_sheet();
                }
                go_on(desk, self.what.clone());
                Next::Close
            }
            Some(Reply::Keep) => {
                desk.close_keeping_sheet();
                Next::Close
            }
            Some(Reply::Save) => {
                let (what, mut beneath) = (self.what.clone(), std::mem::take(&mut self.beneath));
                save_sheet(desk, move |desk, is_saved| {
                    // What the file does not hold yet would be lost with the sheet.
                    let is_done = is_saved && !desk.has_unsaved_sheet() && go_on(desk, what);
                    if !is_done {
                        beneath.put_back(desk);
                    }
                    is_done
                });
                Next::Close
            }
        }
    }

    fn beneath(&mut self) -> Option<&mut Beneath> {
        Some(&mut self.beneath)
    }

    fn is_question(&self) -> bool {
        true
    }
}

/// The question before a sheet is saved over what something else wrote to its file.
pub struct SheetOutside {
    file: PathBuf,
    seen: OnDisk,
    then: Option<Then>,
}

impl SheetOutside {
    /// Of a file that was changed since the sheet was opened or saved.
    pub fn new(file: PathBuf, seen: OnDisk, then: Then) -> Self {
        Self {
            file,
            seen,
            then: Some(then),
        }
    }

    fn answered(&mut self, desk: &mut Desk, is_saved: bool) -> Next {
        if let Some(then) = self.then.take() {
            then(desk, is_saved);
        }
        Next::Close
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
        ui.label(Lettering::CardTitle.of("Changed outside"));
        ui.add_space(6.0);
        let file = self.file.display();
        ui.label(format!(
            "{file} was changed by something else since the sheet was opened or saved here."
        ));
        ui.label("Reload discards the entries made here.");
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            if ui.button("Reload").clicked() {
                let file = self.file.clone();
                let is_reloaded = open_sheet(desk, &file);
                return self.answered(desk, is_reloaded);
            }
            if ui.button("Save mine over it").clicked() {
                let now = desk.sheet().map(SheetWork::look_at_file);
                // Once more while this was asked: what it is now, nobody has said yes to.
                if now.is_some_and(|now| matches!(now, OnDisk::Changed(_)) && now != self.seen) {
                    self.seen = now.unwrap_or(self.seen);
                    desk.warn("The file was changed again while you were being asked.");
                    return Next::Stay;
                }
                let file = self.file.clone();
                let is_saved = put(desk, &file);
                return self.answered(desk, is_saved);
            }
            if ui.button("Cancel").clicked() {
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
