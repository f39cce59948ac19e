//! Printing or saving the sheets of all units of a folder, bound into one document: which folder, which
//! sheet, and then how far it is.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use egui::{TextEdit, Ui};

use super::sheet_choices::sheet_choices_ui;
use super::work_card::{WorkCard, WorkWords};
use crate::app::desk::{Ask, Card, Desk, Next, PrintJob};
use crate::app::files::{Refusal, ask, ask_place_then, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::Teller;
use crate::printing::{FolderBook, Progress, SheetAsked, folder_book};
use crate::store;

/// The card on which a folder is chosen.
#[derive(Default)]
pub struct FolderCard {
    folder: String,
    asked: SheetAsked,
    chosen: Rc<RefCell<Option<PathBuf>>>,
    refusal: Refusal,
}

impl FolderCard {
    /// A card that begins with the folder of the unit in front.
    pub fn of(desk: &Desk) -> Self {
        let folder = desk.session().file().and_then(Path::parent);
        let folder = folder.map_or_else(String::new, |folder| folder.display().to_string());
        Self {
            folder,
            ..Self::default()
        }
    }

    fn folder_ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let chosen = self.chosen.take();
        if let Some(folder) = chosen {
            self.folder = folder.display().to_string();
            self.refusal.forget();
        }
        ui.label("Folder");
        ui.horizontal(|ui| {
            let field = TextEdit::singleline(&mut self.folder).desired_width(360.0);
            let field = ui.add(field).accessible_name("Folder");
            if field.changed() {
                self.refusal.forget();
            }
            if ui.button("Choose…").clicked() {
                let chosen = Rc::clone(&self.chosen);
                ask(desk, &Ask::FolderOfUnits, move |desk, folder| {
                    if desk.missed_dialog().is_some() {
                        desk.warn("The desktop showed no dialog: write the folder's path.");
                    }
                    *chosen.borrow_mut() = folder;
                    // The card comes back.
                    false
                });
            }
        });
    }

    /// The folder, if units stand in it; or why it is not taken.
    fn looked_into(&self) -> Result<PathBuf, String> {
        let folder =
            store::whole_path(self.folder.trim()).map_err(|problem| problem.to_string())?;
        match store::units_in(&folder) {
            Ok(units) if units.is_empty() => Err(format!(
                "no unit file is in this folder: their names end in .ron. Folder: {}",
                folder.display()
            )),
            Ok(_) => Ok(folder),
            Err(problem) => Err(problem.to_string()),
        }
    }

    /// Has the sheets printed or saved; whether the card stays.
    fn take(&self, desk: &mut Desk, is_printed: bool) -> Next {
        let folder = match self.looked_into() {
            Ok(folder) => folder,
            Err(why) => {
                let done = if is_printed { "printed" } else { "saved" };
                desk.warn(format!("Not {done}: {why}"));
                return Next::Stay;
            }
        };
        let asked = self.asked;
        if is_printed {
            desk.open_card(printing(folder, asked));
            return Next::Close;
        }
        let stem = file_stem_for(&name_of(&folder));
        let place = Ask::PlaceForSheet(format!("{stem}-{}.pdf", asked.kind.id()));
        ask_place_then(desk, &place, &["pdf"], move |desk, out| {
            desk.open_card(saving(folder.clone(), out.to_owned(), asked));
            Ok(())
        })
    }
}

impl Card for FolderCard {
    fn name(&self) -> &'static str {
        "folder"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Print or save sheets of a folder"));
        ui.label("All units of a folder, bound into one PDF with an outline.");
        self.refusal.hear(desk);
        ui.add_space(6.0);
        self.folder_ui(ui, desk);
        ui.add_space(6.0);
        sheet_choices_ui(ui, &mut self.asked);
        ui.label("Print at 100 %, not fitted to the page.");
        ui.add_space(6.0);
        let mut next = Next::Stay;
        ui.horizontal(|ui| {
            if ui.button("Print…").clicked() {
                next = self.take(desk, true);
            }
            if ui.button("Save PDF…").clicked() {
                next = self.take(desk, false);
            }
            if ui.button("Close").clicked() {
                next = Next::Close;
            }
        });
        self.refusal.show(ui);
        next
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }
}

/// A folder's name.
fn name_of(folder: &Path) -> String {
    let name = folder.file_name().unwrap_or(folder.as_os_str());
    name.to_string_lossy().into_owned()
}

/// Binds the sheets of a folder; none when it is broken off.
fn bind(folder: &Path, asked: &SheetAsked, teller: &Teller) -> Option<Result<FolderBook, String>> {
    let tell = |progress: Progress| teller.tell(progress.done, progress.of);
    let book = match folder_book(folder, asked, tell) {
        Ok(book) => book?,
        Err(problem) => return Some(Err(problem.to_string())),
    };
    if book.units > 0 {
        return Some(Ok(book));
    }
    let reasons: Vec<String> = book.refused.into_iter().map(|(_, why)| why).collect();
    let reasons = reasons.join("; ");
    Some(Err(format!(
        "no unit of this folder gave a sheet. {reasons}"
    )))
}

fn words(folder: &Path, cancelled: &'static str, failed: &'static str) -> WorkWords {
    WorkWords {
        title: "Sheets of a folder",
        about: folder.display().to_string(),
        counted: "Units done",
        cancelled,
        failed,
    }
}

/// The card that is open while the sheets of a folder are made and saved.
fn saving(
    folder: PathBuf,
    out: PathBuf,
    asked: SheetAsked,
) -> WorkCard<Result<FolderBook, String>> {
    let words = words(
        &folder,
        "Cancelled: no sheet was saved.",
        "Not saved: the sheets could not be made.",
    );
    let place = out.clone();
    let make = move |teller: &Teller| {
        let book = match bind(&folder, &asked, teller)? {
            Ok(book) => book,
            Err(why) => return Some(Err(why)),
        };
        if teller.go_past().is_break() {
            return None;
        }
        let written = store::write_whole(&out, &book.bytes);
        let told = |error| format!("{error}. File: {}", out.display());
        Some(written.map(|()| book).map_err(told))
    };
    WorkCard::new(words, make, move |desk, book| match book {
        Ok(book) => {
            let saved = format!(
                "Saved the sheets of {}: {}",
                units_told(book.units),
                place.display()
            );
            tell(desk, saved, book.refused);
        }
        Err(why) => desk.warn(format!("Not saved: {why}")),
    })
}

/// The card that is open while the sheets of a folder are made, to be printed.
fn printing(folder: PathBuf, asked: SheetAsked) -> WorkCard<Result<FolderBook, String>> {
    let words = words(
        &folder,
        "Cancelled: no sheet was printed.",
        "Not printed: the sheets could not be made.",
    );
    let name = name_of(&folder);
    let make = move |teller: &Teller| bind(&folder, &asked, teller);
    WorkCard::new(words, make, move |desk, book| match book {
        Ok(book) => {
            desk.print(PrintJob {
                title: format!("{}, {}: {name}", asked.kind.name(), units_told(book.units)),
                page: asked.page,
                is_lying: book.is_lying,
                pdf: Arc::new(book.bytes),
            });
            if !book.refused.is_empty() {
                tell(desk, "The print dialog opens".to_owned(), book.refused);
            }
        }
        Err(why) => desk.warn(format!("Not printed: {why}")),
    })
}

fn units_told(units: usize) -> String {
    match units {
        1 => "1 unit".to_owned(),
        units => format!("{units} units"),
    }
}

/// Tells what was done, and what was left out.
fn tell(desk: &mut Desk, done: String, refused: Vec<(String, String)>) {
    if refused.is_empty() {
        desk.tell(done);
        return;
    }
    let names: Vec<_> = refused.into_iter().map(|(name, _)| name).collect();
    desk.warn(format!(
        "{done}. Left out, with the reasons on the last page: {}",
        names.join(", ")
    ));
}
