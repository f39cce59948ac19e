//! Where a plate sheet is saved, by its path, for where the desktop has no file dialog.

use egui::Ui;

use super::sheet_files::{offered_name, put_in_chosen};
use super::sheet_outside::holds_sheet_back;
use super::typed_path::{Typed, TypedPath};
use crate::app::desk::{Card, Desk, Next, SheetWork};
use crate::store::{is_same_file, whole_path};

/// A path being typed.
pub struct SheetPathCard {
    path: TypedPath,
}

impl SheetPathCard {
    /// Beginning with where the sheet is kept, or beside its unit.
    pub fn to_save(desk: &Desk) -> Self {
        let sheet = desk.sheet();
        let kept = sheet.and_then(SheetWork::file).map(ToOwned::to_owned);
        let offered = offered_name(desk);
        let beside = || {
            let unit = sheet.and_then(SheetWork::unit_file)?;
            Some(unit.with_file_name(&offered))
        };
        let path = kept.or_else(beside);
        let path = path.or_else(|| whole_path(&offered).ok());
        let text = path.map_or(offered.clone(), |path| path.display().to_string());
        Self {
            path: TypedPath::beginning_with(text),
        }
    }

    fn take(&self, desk: &mut Desk) -> Result<(), String> {
        let path = whole_path(self.path.text()).map_err(|problem| problem.to_string())?;
        let own = desk.sheet().and_then(SheetWork::file);
        let is_own = own.is_some_and(|own| own == path || is_same_file(own, &path));
        // There is no dialog that would have asked before another file is replaced.
        if path.exists() && !is_own {
            let path = path.display();
            return Err(format!("Not saved: a file is there already: {path}"));
        }
        // What something else wrote there is asked about on a card of its own.
        if (is_own && holds_sheet_back(desk, &path)) || put_in_chosen(desk, &path) {
            Ok(())
        } else {
            Err("Not saved: see the notice at the foot of the window.".to_owned())
        }
    }
}

impl Card for SheetPathCard {
    fn name(&self) -> &'static str {
        "path of the sheet"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let what = "The path of the plate sheet, best in the folder of its unit; .plate.ron is added where it is missing, and ~/ is your home folder.";
        match self
            .path
            .show(ui, "Save the plate sheet to a path", what, "Save here")
        {
            Typed::Taken => match self.take(desk) {
                Ok(()) => Next::Close,
                Err(why) => {
                    self.path.tell(&why);
                    self.path.begin_anew(ui);
                    Next::Stay
                }
            },
            Typed::PutAway => Next::Close,
            Typed::Going => Next::Stay,
        }
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }
}
