//! The desk with the works that lie on it beside the units.

use std::path::Path;

use super::Desk;
use super::lesson_work::LessonWork;
use super::sheet_work::SheetWork;
use super::side_work::{DeskWork, WorkKind};
use super::works::InHand;
use crate::store::recovery::Work;
use crate::store::{FileProblem, OnDisk};
use crate::unit::{Remarks, TextProblem};

impl Desk {
    /// The work of a kind that is open.
    pub fn work(&self, kind: WorkKind) -> Option<&dyn DeskWork> {
        self.works.get(kind)
    }

    /// Takes the work of a kind away.
    pub fn drop_work(&mut self, kind: WorkKind) {
        match kind {
            WorkKind::Sheet => self.works.sheet = None,
            WorkKind::Lesson => self.works.lesson = None,
        }
    }

    /// Keeps the work of a kind in a file.
    ///
    /// # Errors
    /// When it cannot be written; what stood there before is whole.
    pub fn save_work_to(&mut self, kind: WorkKind, file: &Path) -> Result<Remarks, FileProblem> {
        if kind == WorkKind::Sheet {
            self.name_unit_of_sheet();
        }
        match self.works.get_mut(kind) {
            Some(work) => work.save_to(file),
            None => Ok(Remarks::InPlace),
        }
    }

    /// Whether dropping the work of a kind now would lose something.
    pub fn has_unsaved_work(&self, kind: WorkKind) -> bool {
        self.work(kind).is_some_and(DeskWork::has_unsaved)
    }

    /// The kinds of work that closing now would lose something of, and that nobody was asked about: what is
    /// to be kept for the next start is not lost, and what is given up may be.
    pub fn unsaved_works(&self) -> impl Iterator<Item = WorkKind> {
        let kinds = WorkKind::ALL.into_iter();
        kinds.filter(|kind| self.has_unsaved_work(*kind) && !self.works.is_answered(*kind))
    }

    /// Leaves the work of a kind kept as it is when the window closes, to be offered at the next start.
    pub fn keep_for_next_start(&mut self, kind: WorkKind) {
        self.works.keeping.push(kind);
    }

    /// Gives up the work of a kind when the window closes; until then it lies where it lies.
    pub fn discard_at_close(&mut self, kind: WorkKind) {
        self.works.discarding.push(kind);
    }

    /// Keeps no work for the next start and gives none up: the window stays open.
    pub fn stay_open(&mut self) {
        self.works.keeping.clear();
        self.works.discarding.clear();
    }

    /// Says what keys and menus work on: a work only while there is one of its kind.
    pub fn take_in_hand(&mut self, what: InHand) {
        self.in_hand = what;
    }

    /// What keys and menus work on.
    pub fn in_hand(&self) -> InHand {
        match self.in_hand {
            InHand::Work(kind) if self.work(kind).is_some() => InHand::Work(kind),
            _ => InHand::Unit,
        }
    }

    /// The work that keys and menus work on; none while it is the unit.
    pub(super) fn work_in_hand(&self) -> Option<&dyn DeskWork> {
        match self.in_hand() {
            InHand::Work(kind) => self.work(kind),
            InHand::Unit => None,
        }
    }

    /// Goes on with a work that a dead window left, and keeps it anew.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn recover_work(&mut self, kind: WorkKind, work: &Work) -> Result<(), TextProblem> {
        match kind {
            WorkKind::Sheet => self.lay_sheet(SheetWork::recovered(work)?),
            WorkKind::Lesson => self.lay_lesson(LessonWork::recovered(work)?),
        }
        self.find_unit_of_sheet();
        self.keep_work();
        Ok(())
    }

    /// Looks at the file of a work before the work is dropped: one that its file does not hold any more is
    /// something to lose.
    pub fn look_at_work_file(&mut self, kind: WorkKind) {
        let work = self.works.get_mut(kind);
        if let Some(work) = work.filter(|work| work.side().look_at_file() != OnDisk::Same) {
            work.side_mut().part_from_file();
        }
    }

    /// Goes on with a work as it is, as a person said on being asked about what something else did to its
    /// file: it is then in no file as it stands, and the next save goes over what was seen there.
    pub fn keep_my_work(&mut self, kind: WorkKind, seen: OnDisk) {
        if let Some(work) = self.works.get_mut(kind) {
            work.side_mut().keep_mine(seen);
        }
    }

    /// Takes back the last step of a work, and tells which it was.
    pub(super) fn undo_of_work(&mut self, kind: WorkKind) -> bool {
        let told = self.undone().map(|step| format!("Undone: {step}."));
        let work = self.works.get_mut(kind);
        let is_done = work.is_some_and(|work| work.side_mut().undo());
        self.tell_if(is_done, told)
    }

    /// Does again the step of a work that was taken back last, and tells which it was.
    pub(super) fn redo_of_work(&mut self, kind: WorkKind) -> bool {
        let told = self.redone().map(|step| format!("Redone: {step}."));
        let work = self.works.get_mut(kind);
        let is_done = work.is_some_and(|work| work.side_mut().redo());
        self.tell_if(is_done, told)
    }

    fn tell_if(&mut self, is_done: bool, told: Option<String>) -> bool {
        if let Some(told) = told.filter(|_| is_done) {
            self.tell(told);
        }
        is_done
    }
}
