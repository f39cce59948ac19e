//! Printing or saving a sheet: the sheet itself on the screen, its kind, its paper, and where it goes.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Button, Context, Ui, Vec2};

use super::preview::{Preview, blank_page_ui};
use super::sheet_choices::sheet_choices_ui;
use crate::analysis::SolvedId;
use crate::app::desk::{Ask, Card, Desk, Next, PrintJob};
use crate::app::files::{Refusal, ask_place, ask_place_and_open, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{KeptMade, MadeState, Making};
use crate::drawing::{Origin, Sheet, SheetKind};
use crate::printing::{SheetAsked, bound_sheet, origin_of, with_record};
use crate::store;
use crate::unit::Document;
use crate::units::System;

/// What the sheets of the card depend on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    asked: SheetAsked,
    system: System,
    origin: Origin,
    file: Option<PathBuf>,
}

/// A sheet as it is shown, with the PDF that is printed and saved.
struct Shown {
    sheets: Vec<Sheet>,
    pdf: Arc<Vec<u8>>,
}

/// The card.
#[derive(Default)]
pub struct PrintCard {
    asked: SheetAsked,
    page: usize,
    shown: KeptMade<Key, Result<Shown, String>>,
    preview: Preview,
    refusal: Refusal,
}

/// How large a page is shown at the most.
const LARGEST: Vec2 = Vec2::new(430.0, 470.0);

/// Makes a sheet on a thread of its own.
fn making(ctx: &Context, document: Arc<Document>, key: &Key) -> Making<Result<Shown, String>> {
    let key = key.clone();
    Making::begin(ctx, "sheet", move |teller| {
        let tell = |progress: crate::printing::Progress| teller.tell(progress.done, progress.of);
        let origin = with_record(key.origin, &key.asked, key.file.as_deref());
        let bound = match origin {
            Ok(origin) => bound_sheet(document, &key.asked, &origin, key.system, tell),
            Err(problem) => Err(problem.to_string()),
        };
        let shown = bound.transpose()?.map(|bound| Shown {
            sheets: bound.sheets,
            pdf: Arc::new(bound.bytes),
        });
        Some(shown)
    })
}

/// What is done with a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wanted {
    Printed,
    Saved,
    SavedAndOpened,
}

impl PrintCard {
    /// With a kind of sheet chosen.
    pub fn of(kind: SheetKind) -> Self {
        Self {
            asked: SheetAsked {
                kind,
                ..SheetAsked::default()
            },
            ..Self::default()
        }
    }

    fn pages_ui(&mut self, ui: &mut Ui, count: usize) {
        self.page = self.page.min(count.saturating_sub(1));
        if count < 2 {
            return;
        }
        ui.horizontal(|ui| {
            let back = ui.add_enabled(self.page > 0, Button::new("Previous page"));
            if back.clicked() {
                self.page -= 1;
            }
            ui.label(format!("{} of {count}", self.page + 1));
            let on = self.page + 1 < count;
            let on = ui.add_enabled(on, Button::new("Next page"));
            if on.clicked() {
                self.page += 1;
            }
        });
    }

    /// How far the sheet is, once that takes a while; it can be broken off, and begun again.
    fn progress_ui(&mut self, ui: &mut Ui) {
        let is_cancelled = match self.shown.state() {
            MadeState::Going(making) => making.progress_ui(ui, "Making the sheet"),
            MadeState::Made(Ok(_)) => false,
            MadeState::Made(Err(why)) => {
                ui.label(format!("This sheet cannot be made. {why}"));
                false
            }
            MadeState::Ended => {
                ui.label("The sheet is not made.");
                if ui.button("Make the sheet").clicked() {
                    self.shown.forget();
                }
                false
            }
        };
        if is_cancelled {
            self.shown.give_up();
        }
    }

    fn buttons_ui(&self, ui: &mut Ui) -> Option<Wanted> {
        let is_made = matches!(self.shown.made(), Some(Ok(_)));
        let mut wanted = None;
        for (one, name, help) in [
            (
                Wanted::Printed,
                "Print…",
                "Opens the print dialog of this desktop; without one, the PDF in its viewer.",
            ),
            (Wanted::Saved, "Save PDF…", "Asks where to save it."),
            (
                Wanted::SavedAndOpened,
                "Save PDF and open it…",
                "Opens it in this system's PDF viewer, to be printed from there.",
            ),
        ] {
            let button = ui.add_enabled(is_made, Button::new(name));
            if button.on_hover_text(help).clicked() {
                wanted = Some(one);
            }
        }
        wanted
    }

    /// Does with the sheet what is wanted; whether the card stays.
    fn take(&self, desk: &mut Desk, wanted: Wanted, name: &str) -> Next {
        let Some(Ok(shown)) = self.shown.made() else {
            return Next::Stay;
        };
        if wanted != Wanted::Printed {
            let is_opened = wanted == Wanted::SavedAndOpened;
            return save(desk, self.asked.kind, name, &shown.pdf, is_opened);
        }
        let is_lying = |sheet: &Sheet| sheet.window.width() > sheet.window.height();
        desk.print(PrintJob {
            title: format!("{}: {name}", self.asked.kind.name()),
            page: self.asked.page,
            is_lying: shown.sheets.first().is_some_and(is_lying),
            pdf: Arc::clone(&shown.pdf),
        });
        Next::Close
    }
}

impl Card for PrintCard {
    fn name(&self) -> &'static str {
        "print"
    }

    fn width(&self) -> f32 {
        700.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Print or save a sheet"));
        let Some(good) = desk.good().cloned() else {
            ui.label("This unit has no solution yet that a sheet could show.");
            return close_ui(ui);
        };
        if let Some(why) = desk.why_not_current() {
            ui.label(format!("Not current. {why}"));
            return close_ui(ui);
        }
        self.refusal.hear(desk);
        let before = self.asked;
        let mut next = Next::Stay;
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(230.0);
                sheet_choices_ui(ui, &mut self.asked);
                if self.asked != before {
                    self.page = 0;
                    self.refusal.forget();
                }
                let session = desk.session();
                let (file, digest) = (session.file(), session.digest());
                let key = Key {
                    solved: good.id,
                    asked: self.asked,
                    system: desk.system(),
                    origin: origin_of(file, digest, session.is_changed()),
                    file: file.map(Path::to_owned),
                };
                let (ctx, preview) = (ui.ctx().clone(), &mut self.preview);
                self.shown.get(key, |key| {
                    preview.forget();
                    making(&ctx, Arc::clone(&good.document), key)
                });
                ui.add_space(10.0);
                let pages = match self.shown.made() {
                    Some(Ok(shown)) => shown.sheets.len(),
                    _ => 0,
                };
                self.pages_ui(ui, pages);
                self.progress_ui(ui);
                ui.label("Print at 100 %, not fitted to the page.");
                ui.add_space(6.0);
                if let Some(wanted) = self.buttons_ui(ui) {
                    next = self.take(desk, wanted, &good.document.name);
                }
                if ui.button("Close").clicked() {
                    next = Next::Close;
                }
                self.refusal.show(ui);
            });
            if let Some(Ok(shown)) = self.shown.made()
                && let Some(sheet) = shown.sheets.get(self.page)
            {
                self.preview.show(ui, sheet, self.page, LARGEST);
            } else {
                // As much room as the sheet will take, so that the card stays where it is.
                blank_page_ui(ui, self.asked.page.upright(), LARGEST);
            }
        });
        next
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

fn close_ui(ui: &mut Ui) -> Next {
    if ui.button("Close").clicked() {
        Next::Close
    } else {
        Next::Stay
    }
}

fn save(desk: &mut Desk, kind: SheetKind, name: &str, pdf: &Arc<Vec<u8>>, is_opened: bool) -> Next {
    let name = format!("{}-{}.pdf", file_stem_for(name), kind.id());
    let pdf = Arc::clone(pdf);
    let write = move |file: &Path| {
        let shown = file.display();
        match store::write_whole(file, &pdf) {
            Ok(()) => Ok(format!("Saved the sheet: {shown}")),
            Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
        }
    };
    let place = Ask::PlaceForSheet(name);
    if is_opened {
        ask_place_and_open(desk, &place, &["pdf"], write)
    } else {
        ask_place(desk, &place, &["pdf"], write)
    }
}
