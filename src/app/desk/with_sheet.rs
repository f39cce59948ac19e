//! The desk with a plate sheet: one lies on it at the most, beside the units.

use std::path::Path;
use std::rc::Rc;

use egui::Id;

use super::Desk;
use super::sheet_work::SheetWork;
use crate::analysis::Solved;
use crate::plate::Entries;
use crate::store::recovery::Work;
use crate::store::{FileProblem, OnDisk};
use crate::unit::{Remarks, TextProblem};

/// What keys and menus work on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InHand {
    /// The unit in front.
    #[default]
    Unit,
    /// The plate sheet.
    Sheet,
}

impl Desk {
    /// The plate sheet that is open.
    pub fn sheet(&self) -> Option<&SheetWork> {
        self.sheet.as_ref()
    }

    /// Lays a plate sheet in the place of the one that was open.
    pub fn lay_sheet(&mut self, sheet: SheetWork) {
        self.sheet = Some(sheet);
    }

    /// Takes the plate sheet away.
    pub fn drop_sheet(&mut self) {
        self.sheet = None;
    }

    /// Changes the sheet, as one named step to take back; whether it was a change. `holder` is the text
    /// field it is typed into.
    pub fn edit_sheet(
        &mut self,
        name: &str,
        holder: Option<Id>,
        edit: impl FnOnce(&mut Entries),
    ) -> bool {
        let sheet = self.sheet.as_mut();
        sheet.is_some_and(|sheet| sheet.edit(name, holder, edit))
    }

    /// Keeps the sheet in a file.
    ///
    /// # Errors
    /// When it cannot be written; what stood there before is whole.
    pub fn save_sheet_to(&mut self, file: &Path) -> Result<Remarks, FileProblem> {
        self.name_unit_of_sheet();
        match &mut self.sheet {
            Some(sheet) => sheet.save_to(file),
            None => Ok(Remarks::InPlace),
        }
    }

    /// Writes the name of the unit that the sheet was begun for into it, once that is in a file.
    pub(super) fn name_unit_of_sheet(&mut self) {
        let Some(sheet) = &mut self.sheet else {
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
        if let Some(sheet) = &mut self.sheet {
            for session in &self.sessions {
                sheet.find_unit(session);
            }
        }
    }

    /// Whether dropping the sheet now would lose something.
    pub fn has_unsaved_sheet(&self) -> bool {
        self.sheet.as_ref().is_some_and(SheetWork::has_unsaved)
    }

    /// Says that the sheet is of the unit in front, from here on.
    pub fn give_sheet_this_unit(&mut self) {
        let session = &self.sessions[self.front];
        if let Some(sheet) = &mut self.sheet {
            sheet.belong_to(session);
        }
    }

    /// Looks at the sheet's file before the sheet is dropped: one that its file does not hold any more is
    /// something to lose.
    pub fn look_at_sheet_file(&mut self) {
        let sheet = self.sheet.as_mut();
        if let Some(sheet) = sheet.filter(|sheet| sheet.look_at_file() != OnDisk::Same) {
            sheet.part_from_file();
        }
    }

    /// Goes on with the sheet as it is, as a person said on being asked about what something else did to
    /// its file: it is then in no file as it stands, and the next save goes over what was seen there.
    pub fn keep_my_sheet(&mut self, seen: OnDisk) {
        if let Some(sheet) = &mut self.sheet {
            sheet.keep_mine(seen);
        }
    }

    /// The solution of the sheet's unit, where that is in front.
    pub fn unit_of_sheet(&self) -> Option<&Rc<Solved>> {
        let sheet = self.sheet.as_ref()?;
        self.good().filter(|_| sheet.is_of(self.session()))
    }

    /// Says what keys and menus work on: the sheet only while there is one.
    pub fn take_in_hand(&mut self, what: InHand) {
        self.in_hand = what;
    }

    /// What keys and menus work on.
    pub fn in_hand(&self) -> InHand {
        match self.in_hand {
            InHand::Sheet if self.sheet.is_some() => InHand::Sheet,
            _ => InHand::Unit,
        }
    }

    /// Goes on with a sheet that a dead window left, and keeps it anew.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn recover_sheet(&mut self, work: &Work) -> Result<(), TextProblem> {
        self.lay_sheet(SheetWork::recovered(work)?);
        self.find_unit_of_sheet();
        self.keep_work();
        Ok(())
    }

    /// Takes back the last step of the sheet, and tells which it was.
    pub(super) fn undo_of_sheet(&mut self) -> bool {
        let told = self.undone().map(|step| format!("Undone: {step}."));
        let is_done = self.sheet.as_mut().is_some_and(SheetWork::undo);
        self.tell_if(is_done, told)
    }

    /// Does again the step of the sheet that was taken back last, and tells which it was.
    pub(super) fn redo_of_sheet(&mut self) -> bool {
        let told = self.redone().map(|step| format!("Redone: {step}."));
        let is_done = self.sheet.as_mut().is_some_and(SheetWork::redo);
        self.tell_if(is_done, told)
    }

    fn tell_if(&mut self, is_done: bool, told: Option<String>) -> bool {
        if let Some(told) = told.filter(|_| is_done) {
            self.tell(told);
        }
        is_done
    }
}
