//! Printing or saving the record: its paper, and where it goes.

use std::path::Path;

use egui::Ui;

use crate::app::desk::{Ask, Card, Desk, Next};
use crate::app::files::{ask_place, ask_place_and_open, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::drawing::{Page, SheetOf, record_sheet};
use crate::plate::Record;
use crate::printing::{bound, origin_of};
use crate::store;

/// The card.
pub struct RecordPrintCard {
    record: Record,
    page: Page,
}

impl RecordPrintCard {
    /// For a record.
    pub fn of(record: Record) -> Self {
        Self {
            record,
            page: Page::default(),
        }
    }

    /// The PDF of the unit in front.
    fn document(&self, desk: &Desk) -> Result<Vec<u8>, String> {
        let Some(good) = desk.good() else {
            return Err("This unit has no solution yet that a sheet could show.".to_owned());
        };
        if let Some(why) = desk.why_not_current() {
            return Err(format!("Not current. {why}"));
        }
        let session = desk.session();
        let origin = origin_of(session.file(), session.digest(), session.is_changed());
        let of = SheetOf {
            solved: good,
            origin: &origin,
            page: self.page,
            system: desk.system(),
        };
        bound(&good.document.name, &record_sheet(of, &self.record))
    }

    fn save(&self, desk: &mut Desk, is_opened: bool) -> Next {
        let bytes = match self.document(desk) {
            Ok(bytes) => bytes,
            Err(why) => {
                desk.warn(format!("Not saved. {why}"));
                return Next::Stay;
            }
        };
        let name = format!("{}-record.pdf", file_stem_for(&desk.document().name));
        let write = move |file: &Path| {
            let shown = file.display();
            match store::write_whole(file, &bytes) {
                Ok(()) => Ok(format!("Saved the sheet: {shown}")),
                Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
            }
        };
        let place = Ask::PlaceForSheet(name);
        if is_opened {
            ask_place_and_open(desk, &place, &["pdf"], write);
        } else {
            ask_place(desk, &place, &["pdf"], write);
        }
        Next::Close
    }
}

impl Card for RecordPrintCard {
    fn name(&self) -> &'static str {
        "print the record"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Print or save the record"));
        ui.label("One page: the wear of the reel, what comes if the rollers are left alone, and what was done, the newest first.");
        ui.horizontal(|ui| {
            ui.label("Paper");
            for page in Page::ALL {
                ui.radio_value(&mut self.page, page, page.name());
            }
        });
        ui.label("Print the saved PDF at 100 %, not fitted to the page.");
        ui.add_space(6.0);
        let mut next = Next::Stay;
        ui.horizontal_wrapped(|ui| {
            if ui.button("Save PDF…").clicked() {
                next = self.save(desk, false);
            }
            let open = ui.button("Save PDF and open it…");
            let open = open
                .on_hover_text("Opens it in this system's PDF viewer, to be printed from there.");
            if open.clicked() {
                next = self.save(desk, true);
            }
            if ui.button("Close").clicked() {
                next = Next::Close;
            }
        });
        next
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}
