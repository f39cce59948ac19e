//! Printing or saving the sheets of all units of a folder, bound into one document: which folder, which
//! sheet, and then how far it is.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use egui::{TextEdit, Ui};

use super::sheet_choices::sheet_choices_ui;
use crate::app::desk::{Ask, Card, Desk, Next};
use crate::app::files::{Refusal, ask, ask_place_then, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{Making, Stage};
use crate::printing::{Progress, SheetAsked, folder_book};
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

    /// Looks into the folder, and asks where its sheets go; whether the card stays.
    fn take(&self, desk: &mut Desk) -> Next {
        let folder = store::whole_path(self.folder.trim()).map_err(|problem| problem.to_string());
        let looked = folder.and_then(|folder| match store::units_in(&folder) {
            Ok(units) if units.is_empty() => Err(format!(
                "no unit file is in this folder: their names end in .ron. Folder: {}",
                folder.display()
            )),
            Ok(_) => Ok(folder),
            Err(problem) => Err(problem.to_string()),
        });
        let folder = match looked {
            Ok(folder) => folder,
            Err(why) => {
                desk.warn(format!("Not saved: {why}"));
                return Next::Stay;
            }
        };
        let name = folder.file_name().unwrap_or(folder.as_os_str());
        let stem = file_stem_for(&name.to_string_lossy());
        let place = Ask::PlaceForSheet(format!("{stem}-{}.pdf", self.asked.kind.id()));
        let asked = self.asked;
        ask_place_then(desk, &place, &["pdf"], move |desk, out| {
            desk.open_card(BindingCard::begin_later(&folder, out, asked));
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
            if ui.button("Save PDF…").clicked() {
                next = self.take(desk);
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

/// What came of a folder: how many units are in the document, and what was left out.
type Bound = Result<(usize, Vec<(String, String)>), String>;

/// The card that is open while the sheets of a folder are made.
struct BindingCard {
    folder: PathBuf,
    out: PathBuf,
    asked: SheetAsked,
    making: Option<Making<Bound>>,
}

impl BindingCard {
    /// A card that begins when it is shown first.
    fn begin_later(folder: &Path, out: &Path, asked: SheetAsked) -> Self {
        Self {
            folder: folder.to_owned(),
            out: out.to_owned(),
            asked,
            making: None,
        }
    }

    fn begin(&self, ui: &Ui) -> Making<Bound> {
        let (folder, out, asked) = (self.folder.clone(), self.out.clone(), self.asked);
        Making::begin(ui.ctx(), "folder", move |teller| {
            let tell = |progress: Progress| teller.tell(progress.done, progress.of);
            let book = match folder_book(&folder, &asked, tell) {
                Ok(book) => book?,
                Err(problem) => return Some(Err(problem.to_string())),
            };
            if book.units == 0 {
                let reasons = book.refused.into_iter().map(|(_, why)| why);
                let reasons = reasons.collect::<Vec<_>>().join("; ");
                return Some(Err(format!(
                    "no unit of this folder gave a sheet. {reasons}"
                )));
            }
            if teller.go_past().is_break() {
                return None;
            }
            let written = store::write_whole(&out, &book.bytes);
            Some(match written {
                Ok(()) => Ok((book.units, book.refused)),
                Err(error) => Err(format!("{error}. File: {}", out.display())),
            })
        })
    }

    fn tell(&self, desk: &mut Desk, bound: Bound) {
        match bound {
            Ok((units, refused)) => {
                let units = match units {
                    1 => "1 unit".to_owned(),
                    units => format!("{units} units"),
                };
                let saved = format!("Saved the sheets of {units}: {}", self.out.display());
                if refused.is_empty() {
                    desk.tell(saved);
                } else {
                    let names: Vec<_> = refused.into_iter().map(|(name, _)| name).collect();
                    desk.warn(format!(
                        "{saved}. Left out, with the reasons on the last page: {}",
                        names.join(", ")
                    ));
                }
            }
            Err(why) => desk.warn(format!("Not saved: {why}")),
        }
    }

    /// Cancels, unless the file is being written already: then its end is waited for.
    fn give_up(&self, desk: &mut Desk) -> Next {
        let is_past = |making: &Making<Bound>| !making.give_up();
        if self.making.as_ref().is_some_and(is_past) {
            return Next::Stay;
        }
        desk.tell("Cancelled: no sheet was saved.");
        Next::Close
    }
}

impl Card for BindingCard {
    fn name(&self) -> &'static str {
        "binding"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Sheets of a folder"));
        ui.label(self.folder.display().to_string());
        let making = self.making.take().unwrap_or_else(|| self.begin(ui));
        match making.take() {
            Stage::Going => {
                let is_cancelled = making.progress_ui(ui, "Units done");
                self.making = Some(making);
                if is_cancelled {
                    // What is told then is shown next.
                    ui.ctx().request_repaint();
                    self.give_up(desk)
                } else {
                    Next::Stay
                }
            }
            Stage::Made(bound) => {
                self.tell(desk, bound);
                Next::Close
            }
            Stage::Ended => {
                desk.warn("Not saved: the sheets could not be made.");
                Next::Close
            }
        }
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        self.give_up(desk)
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }
}
