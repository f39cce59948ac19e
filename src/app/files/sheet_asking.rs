//! The question before a plate sheet's entries are lost.

use egui::{Button, Ui};

use super::asking::ask;
use super::sheet_files::{PLATE_AREA, SHEET_ENDING, SheetAsking, go_on, is_sheet_file};
use super::sheet_outside::save_sheet;
use crate::app::desk::{Ask, Beneath, Card, Desk, Next, SheetWork};
use crate::app::widgets::lettering::Lettering;

/// Does something that drops the sheet, once nothing is lost by it. Whether it is done; if not, it failed,
/// or the question is open.
pub fn ask_sheet_first(desk: &mut Desk, what: SheetAsking) -> bool {
    desk.look_at_sheet_file();
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
