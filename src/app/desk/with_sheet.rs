//! The desk with a plate sheet.

use std::rc::Rc;

use egui::Id;

use super::Desk;
use super::sheet_work::SheetWork;
use crate::analysis::Solved;
use crate::plate::{Entries, SheetField, Worksheet};

impl Desk {
    /// The plate sheet that is open.
    pub fn sheet(&self) -> Option<&SheetWork> {
        self.works.sheet.as_ref()
    }

    /// Lays a plate sheet in the place of the one that was open.
    pub fn lay_sheet(&mut self, sheet: SheetWork) {
        self.works.sheet = Some(sheet);
    }

    /// Has the sheet, just begun, take what belongs to the unit from the unit's last one; what was taken. It
    /// is one step to take back, and nobody's work yet.
    pub fn begin_sheet_from(&mut self, last: &Worksheet) -> Vec<SheetField> {
        let system = self.system();
        let sheet = self.works.sheet.as_mut();
        sheet.map_or_else(Vec::new, |sheet| sheet.begin_from(last, system))
    }

    /// Changes the sheet, as one named step to take back; whether it was a change. `holder` is the text
    /// field it is typed into.
    pub fn edit_sheet(
        &mut self,
        name: &str,
        holder: Option<Id>,
        edit: impl FnOnce(&mut Entries),
    ) -> bool {
        let sheet = self.works.sheet.as_mut();
        sheet.is_some_and(|sheet| sheet.edit(name, holder, edit))
    }

    /// Writes the name of the unit that the sheet was begun for into it, once that is in a file.
    pub(super) fn name_unit_of_sheet(&mut self) {
        let Some(sheet) = &mut self.works.sheet else {
            return;
        };
        for session in &self.sessions {
            if let Some(file) = session.file() {
                sheet.name_unit(session, file);
            }
        }
    }

    /// Has a sheet that came back find its unit, once that came back too.
    pub(super) fn find_unit_of_sheet(&mut self) {
        if let Some(sheet) = &mut self.works.sheet {
            for session in &self.sessions {
                sheet.find_unit(session);
            }
        }
    }

    /// Says that the sheet is of the unit in front, from here on.
    pub fn give_sheet_this_unit(&mut self) {
        let session = &self.sessions[self.front];
        if let Some(sheet) = &mut self.works.sheet {
            sheet.belong_to(session);
        }
    }

    /// The solution of the sheet's unit, where that is in front.
    pub fn unit_of_sheet(&self) -> Option<&Rc<Solved>> {
        let sheet = self.works.sheet.as_ref()?;
        self.good().filter(|_| sheet.is_of(self.session()))
    }
}
