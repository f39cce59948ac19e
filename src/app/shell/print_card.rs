//! Printing or saving a sheet: the sheet itself on the screen, its kind, its paper, and where it goes.

use std::path::Path;

use egui::{ComboBox, Ui, Vec2};

use super::preview::Preview;
use crate::analysis::SolvedId;
use crate::analysis::why::Complaint;
use crate::app::desk::{Ask, Card, Desk, Next};
use crate::app::files::{Refusal, ask_place, ask_place_and_open, file_stem_for};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::list::list_ui;
use crate::drawing::{Origin, Page, Sheet, SheetKind};
use crate::printing::{SheetAsked, bound, origin_of};
use crate::store;
use crate::units::System;

/// What the sheets of the card depend on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    asked: SheetAsked,
    system: System,
    origin: Origin,
}

/// The card.
#[derive(Default)]
pub struct PrintCard {
    asked: SheetAsked,
    page: usize,
    sheets: Kept<Key, Vec<Sheet>>,
    preview: Preview,
    refusal: Refusal,
}

/// How large a page is shown at the most.
const LARGEST: Vec2 = Vec2::new(430.0, 470.0);

impl PrintCard {
    fn choices_ui(&mut self, ui: &mut Ui) {
        let asked = &mut self.asked;
        ui.label("What for");
        for kind in SheetKind::ALL {
            ui.radio_value(&mut asked.kind, kind, kind.name())
                .on_hover_text(kind.meaning());
        }
        if asked.kind == SheetKind::Why {
            let complaint = asked.complained.complaint;
            let shown = complaint.map_or("to be written in by hand", Complaint::name);
            let list = ComboBox::from_id_salt("sheet complaint")
                .width(200.0)
                .selected_text(shown);
            list_ui(ui, list, |ui, list| {
                if list.offer(ui, complaint.is_none(), "to be written in by hand") {
                    asked.complained.complaint = None;
                }
                for one in Complaint::ALL {
                    if list.offer(ui, complaint == Some(one), one.name()) {
                        asked.complained.complaint = Some(one);
                    }
                }
            })
            .accessible_name("What is seen on the turf");
        }
        ui.add_space(6.0);
        ui.label("Paper");
        for page in Page::ALL {
            ui.radio_value(&mut asked.page, page, page.name());
        }
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
                self.choices_ui(ui);
                if self.asked != before {
                    self.page = 0;
                    self.preview.forget();
                    self.refusal.forget();
                }
                let session = desk.session();
                let (file, digest) = (session.file(), session.digest());
                let key = Key {
                    solved: good.id,
                    asked: self.asked,
                    system: desk.system(),
                    origin: origin_of(file, digest, session.is_changed()),
                };
                let sheets = self
                    .sheets
                    .get(key, |key| key.asked.sheets(&good, &key.origin, key.system));
                ui.add_space(10.0);
                let count = sheets.len();
                self.page = self.page.min(count.saturating_sub(1));
                if count > 1 {
                    ui.horizontal(|ui| {
                        let back = ui.add_enabled(self.page > 0, egui::Button::new("Page before"));
                        if back.clicked() {
                            self.page -= 1;
                        }
                        ui.label(format!("{} of {count}", self.page + 1));
                        let on = self.page + 1 < count;
                        let on = ui.add_enabled(on, egui::Button::new("Next page"));
                        if on.clicked() {
                            self.page += 1;
                        }
                    });
                }
                ui.label("Print the saved PDF at 100 %, not fitted to the page.");
                ui.add_space(6.0);
                let is_saving = ui.button("Save PDF…").clicked();
                let is_opening = ui
                    .button("Save PDF and open it…")
                    .on_hover_text(
                        "Opens it in this system's PDF viewer, to be printed from there.",
                    )
                    .clicked();
                let is_closing = ui.button("Close").clicked();
                if is_saving || is_opening {
                    let kind = self.asked.kind;
                    next = save(desk, kind, &good.document.name, sheets, is_opening);
                }
                if is_closing {
                    next = Next::Close;
                }
                self.refusal.show(ui);
            });
            let sheets = self.sheets.last();
            if let Some(sheet) = sheets.and_then(|sheets| sheets.get(self.page)) {
                self.preview.show(ui, sheet, self.page, LARGEST);
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

fn save(desk: &mut Desk, kind: SheetKind, name: &str, sheets: &[Sheet], is_opened: bool) -> Next {
    let bytes = match bound(name, sheets) {
        Ok(bytes) => bytes,
        Err(why) => {
            desk.warn(format!("Not saved. {why}"));
            return Next::Stay;
        }
    };
    let name = format!("{}-{}.pdf", file_stem_for(name), kind.id());
    let write = move |file: &Path| {
        let shown = file.display();
        match store::write_whole(file, &bytes) {
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
