//! A file by its path, for where the desktop has no file dialog.

use std::path::Path;

use egui::Ui;

use super::opening::{Asking, ask_first};
use super::outside::holds_save_back;
use super::refusal::Refusal;
use super::saving::{file_name_for, is_open_file, save_to_chosen, taken_by_another, with_ending};
use super::typed_path::{Typed, TypedPath};
use super::work_path_card::WorkPathCard;
use crate::app::desk::{Ask, Card, Desk, InHand, Next, WorkKind};
use crate::store::whole_path;

/// A path being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PathCard {
    path: TypedPath,
    is_saving: bool,
    refusal: Refusal,
}

impl PathCard {
    /// For opening a file.
    pub fn to_open() -> Self {
        Self::beginning_with(String::new(), false)
    }

    /// For saving, beginning with where the document is kept.
    pub fn to_save(desk: &Desk) -> Self {
        let file = desk.session().file();
        let offered = || file_name_for(&desk.document().name);
        // With its folder: a person sees where it goes.
        let whole =
            || whole_path(&offered()).map_or_else(|_| offered(), |path| path.display().to_string());
        let text = file.map_or_else(whole, |file| file.display().to_string());
        Self::beginning_with(text, true)
    }

    /// For saving over a file that is there, if a person says so.
    fn over(file: &Path) -> Self {
        Self {
            path: TypedPath::over(file, &taken_by_another(file)),
            is_saving: true,
            refusal: Refusal::default(),
        }
    }

    fn beginning_with(text: String, is_saving: bool) -> Self {
        Self {
            path: TypedPath::beginning_with(text),
            is_saving,
            refusal: Refusal::default(),
        }
    }

    /// Takes over what was told of a path that was refused: the notice stands under the card.
    fn hear(&mut self, desk: &Desk) {
        if self.refusal.hear(desk)
            && let Some(why) = self.refusal.why()
        {
            self.path.tell(why);
        }
    }

    /// Takes the path; whether the card stays open.
    fn take(&mut self, desk: &mut Desk) -> Next {
        let path = match whole_path(self.path.text()) {
            Ok(path) => path,
            Err(problem) => {
                desk.warn(problem.to_string());
                return Next::Stay;
            }
        };
        let path = if self.is_saving && !is_open_file(desk, &path) {
            with_ending(path, "ron")
        } else {
            path
        };
        if !self.is_saving {
            // A path that is refused stays, to be put right.
            return if ask_first(desk, Asking::Open(path)) {
                Next::Close
            } else {
                Next::Stay
            };
        }
        let is_another = !is_open_file(desk, &path);
        // There is no dialog that would have asked before another file is replaced.
        if is_another && path.exists() {
            desk.warn(taken_by_another(&path));
            self.path.offer_to_replace(&path);
            Next::Stay
        } else if holds_save_back(desk, &path) {
            // Asked about on a card of its own.
            Next::Close
        } else if save_to_chosen(desk, &path) {
            Next::Close
        } else {
            Next::Stay
        }
    }
}

impl Card for PathCard {
    fn name(&self) -> &'static str {
        "path"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        self.hear(desk);
        let (title, verb) = if self.is_saving {
            ("Save to a path", "Save here")
        } else {
            ("Open a path", "Open it")
        };
        let what = if self.is_saving {
            "The path of the unit file; .ron is added where it is missing, and ~/ is your home folder."
        } else {
            "The path of the unit file, ending in .ron, the plate sheet, ending in .plate.ron, or the lesson, ending in .lesson.ron; ~/ is your home folder."
        };
        match self.path.show(ui, title, what, verb) {
            Typed::Taken => {
                let next = self.take(desk);
                if next != Next::Close {
                    self.path.begin_anew(ui);
                }
                next
            }
            Typed::Replaced => match self.path.taken() {
                Some(file) if save_to_chosen(desk, &file) => Next::Close,
                _ => Next::Stay,
            },
            Typed::PutAway => Next::Close,
            Typed::Going => Next::Stay,
        }
    }

    fn yields_to_a_click(&self) -> bool {
        self.path.text().is_empty()
    }

    fn works_on_unit(&self) -> bool {
        self.is_saving
    }
}

/// Opens the card by which a file is named, where the desktop showed no dialog to choose one in, or asked
/// about another name than the file gets.
pub fn name_without_dialog(desk: &mut Desk) {
    match desk.taken_name() {
        Some((InHand::Unit, file)) => desk.open_card(PathCard::over(&file)),
        Some((InHand::Work(kind), file)) => desk.open_card(WorkPathCard::over(kind, &file)),
        None => {}
    }
    let save_work = |desk: &mut Desk, kind| {
        let card = WorkPathCard::to_save(desk, kind);
        desk.open_card(card);
    };
    let card = match desk.missed_dialog() {
        Some(Ask::UnitToOpen | Ask::WorksheetToOpen | Ask::LessonToOpen) => PathCard::to_open(),
        Some(Ask::PlaceForWorksheet(_)) => return save_work(desk, WorkKind::Sheet),
        Some(Ask::PlaceForLesson(_)) => return save_work(desk, WorkKind::Lesson),
        Some(Ask::PlaceForUnit(_)) => PathCard::to_save(desk),
        Some(Ask::RowsToRead) => {
            desk.warn(
                "No knife was added: the desktop showed no file dialog. Copy the rows and use Paste rows.",
            );
            return;
        }
        // Taken by the card that asked for them.
        Some(
            Ask::FolderOfUnits
            | Ask::PlaceForRows(_)
            | Ask::PlaceForSheet(_)
            | Ask::PlaceForPicture(_),
        )
        | None => {
            return;
        }
    };
    desk.open_card(card);
}
