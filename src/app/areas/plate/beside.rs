//! The other sheets of the unit in front: those beside its file that name it.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use egui::{Button, Context, Ui};

use crate::app::desk::{Desk, DeskWork as _, SheetWork, WorkKind};
use crate::app::files::{WorkAsking, ask_work_first};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{KeptMade, Making};
use crate::store::{self, SheetBeside};
use crate::units::clipped;

/// Letters of a name that a button shows.
const LONGEST_NAME: usize = 40;

/// A unit's file, and when its folder changed last.
type OfUnit = (PathBuf, Option<SystemTime>);

/// The sheets, looked for on a thread of their own whenever the folder changes.
#[derive(Debug, Default)]
pub struct SheetsBeside {
    found: KeptMade<OfUnit, Vec<SheetBeside>>,
}

impl SheetsBeside {
    /// Those of the unit in front but for the one that is open; none while they are looked for.
    pub fn look(&mut self, ctx: &Context, desk: &Desk) -> Vec<SheetBeside> {
        let Some(unit) = desk.session().file() else {
            return Vec::new();
        };
        let changed = unit.parent().and_then(store::folder_changed);
        self.found.get((unit.to_owned(), changed), |(unit, _)| {
            let unit = unit.clone();
            Making::begin(ctx, "sheets", move |_| Some(store::sheets_of(&unit)))
        });
        let open = desk.sheet().and_then(SheetWork::file);
        let others = self.found.made().into_iter().flatten();
        let others = others.filter(|sheet| open != Some(&*sheet.file));
        others.cloned().collect()
    }
}

/// A button for each, under a heading of their own.
pub fn sheets_ui(ui: &mut Ui, desk: &mut Desk, sheets: &[SheetBeside]) {
    if sheets.is_empty() {
        return;
    }
    ui.add_space(14.0);
    ui.label(Lettering::Heading.of("Sheets of this unit"));
    if let Some(file) = buttons_ui(ui, sheets) {
        ask_work_first(desk, WorkKind::Sheet, WorkAsking::Open(file));
    }
}

/// The same in a menu.
pub fn sheets_menu_ui(ui: &mut Ui, desk: &mut Desk, sheets: &[SheetBeside]) {
    if sheets.is_empty() {
        return;
    }
    let mut taken = None;
    ui.menu_button("Sheets of this unit", |ui| {
        taken = buttons_ui(ui, sheets);
        if taken.is_some() {
            ui.close();
        }
    });
    if let Some(file) = taken {
        ask_work_first(desk, WorkKind::Sheet, WorkAsking::Open(file));
    }
}

fn buttons_ui(ui: &mut Ui, sheets: &[SheetBeside]) -> Option<PathBuf> {
    let mut taken = None;
    for sheet in sheets {
        if ui.add(Button::new(told(sheet))).clicked() {
            taken = Some(sheet.file.clone());
        }
    }
    taken
}

/// A sheet in a line.
fn told(sheet: &SheetBeside) -> String {
    let name = sheet.file.file_name().map_or(&*sheet.file, Path::new);
    let name = name.to_string_lossy();
    let parts = [&*name, &*sheet.date, &*sheet.by];
    let parts = parts.into_iter().filter(|part| !part.is_empty());
    let parts: Vec<_> = parts
        .map(|part| clipped(part, LONGEST_NAME).to_string())
        .collect();
    parts.join(", ")
}
