//! The works beside the units, one of each kind at the most: a plate sheet, a lesson.

use super::lesson_work::LessonWork;
use super::sheet_work::SheetWork;
use super::side_work::{DeskWork, WorkKind};

/// What keys and menus work on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InHand {
    /// The unit in front.
    #[default]
    Unit,
    /// A work beside it.
    Work(WorkKind),
}

/// The works that lie on the desk.
#[derive(Debug, Default)]
pub struct Works {
    pub(super) sheet: Option<SheetWork>,
    pub(super) lesson: Option<LessonWork>,
    /// Those that stay kept for the next start when the window closes.
    pub(super) keeping: Vec<WorkKind>,
    /// Those that may be lost when the window closes.
    pub(super) discarding: Vec<WorkKind>,
}

impl Works {
    pub(super) fn get(&self, kind: WorkKind) -> Option<&dyn DeskWork> {
        match kind {
            WorkKind::Sheet => self.sheet.as_ref().map(|sheet| sheet as _),
            WorkKind::Lesson => self.lesson.as_ref().map(|lesson| lesson as _),
        }
    }

    pub(super) fn get_mut(&mut self, kind: WorkKind) -> Option<&mut dyn DeskWork> {
        match kind {
            WorkKind::Sheet => self.sheet.as_mut().map(|sheet| sheet as _),
            WorkKind::Lesson => self.lesson.as_mut().map(|lesson| lesson as _),
        }
    }

    /// Whether it is answered what becomes of the work of a kind when the window closes.
    pub(super) fn is_answered(&self, kind: WorkKind) -> bool {
        self.keeping.contains(&kind) || self.discarding.contains(&kind)
    }

    /// Those that have something to lose; while all may be lost, those of them that are to be kept.
    pub(super) fn to_keep(&self, may_be_lost: bool) -> impl Iterator<Item = &dyn DeskWork> {
        let kinds = WorkKind::ALL.into_iter();
        let kinds = kinds.filter(move |kind| !may_be_lost || self.keeping.contains(kind));
        let works = kinds.filter_map(|kind| self.get(kind));
        works.filter(|work| work.has_unsaved())
    }
}
