//! What is still to be written to recovery files, or removed: tried until it is done.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::time::{Duration, Instant};
use std::{fmt, ptr};

use super::mark::{WindowMark, remove_if_there};
use super::news::{Flushed, News};
use super::work::Work;
use crate::plate::{self, Entries};
use crate::store::whole::WriteProblem;
use crate::unit::{self, Document};

/// The least time between two writings. Work is on the disk so long after it changed, at the most, and
/// as long as writing takes.
const BETWEEN_WRITINGS: Duration = Duration::from_millis(500);
/// The time until it is tried again what could not be done.
const UNTIL_ANOTHER_TRY: Duration = Duration::from_secs(3);

/// What is kept as the text of the file that it would be.
pub trait KeptText: fmt::Debug + Send + Sync {
    /// That text.
    fn text(&self) -> String;
}

/// What a window keeps for recovery.
#[derive(Clone, Debug)]
pub enum Kept {
    /// A unit.
    Unit(Arc<Document>),
    /// A plate sheet.
    Sheet(Arc<Entries>),
    /// Something that this room does not know.
    Other(Arc<dyn KeptText>),
}

impl Kept {
    /// Whether it is the same, as it was shared.
    #[must_use]
    pub fn is_same_as(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Unit(one), Self::Unit(other)) => Arc::ptr_eq(one, other),
            (Self::Sheet(one), Self::Sheet(other)) => Arc::ptr_eq(one, other),
            (Self::Other(one), Self::Other(other)) => {
                ptr::addr_eq(Arc::as_ptr(one), Arc::as_ptr(other))
            }
            (Self::Unit(_) | Self::Sheet(_) | Self::Other(_), _) => false,
        }
    }

    /// The text of the file that it would be.
    fn text(&self) -> String {
        match self {
            Self::Unit(document) => unit::write_text(document),
            Self::Sheet(entries) => plate::write_sheet(&entries.sheet).text,
            Self::Other(other) => other.text(),
        }
    }
}

/// Work, with the document that is still to be written as text.
pub struct Unwritten {
    pub document: Kept,
    pub work: Work,
}

/// What is to be done to the recovery file of a session.
enum Task {
    Write(Box<Unwritten>),
    Remove {
        /// Whether it could not be done once already.
        is_again: bool,
    },
}

/// What is still to be done, and what stands on the disk.
#[derive(Default)]
pub struct Pending {
    /// By session.
    tasks: BTreeMap<u64, Task>,
    /// The sessions whose last work is on the disk.
    kept: BTreeSet<u64>,
    last_try: Option<Instant>,
    /// Whether it was told that work cannot be written, or removed.
    is_unkept_told: bool,
    is_unremoved_told: bool,
}

impl Pending {
    /// Has work written in place of what was kept of a session.
    pub fn write(&mut self, session: u64, work: Box<Unwritten>) {
        self.tasks.insert(session, Task::Write(work));
    }

    /// Has what was kept of a session removed.
    pub fn remove(&mut self, session: u64) {
        let task = Task::Remove { is_again: false };
        self.tasks.insert(session, task);
    }

    /// How long until something is to be done; none where all is done.
    pub fn rest(&self) -> Option<Duration> {
        if self.tasks.is_empty() {
            return None;
        }
        let is_again = |task: &Task| matches!(task, Task::Remove { is_again: true });
        // Work waits for no removal.
        let is_in_trouble = self.is_unkept_told || self.tasks.values().all(is_again);
        let pause = if is_in_trouble {
            UNTIL_ANOTHER_TRY
        } else {
            BETWEEN_WRITINGS
        };
        let rest = |last: Instant| pause.saturating_sub(last.elapsed());
        Some(self.last_try.map_or(Duration::ZERO, rest))
    }

    /// Does what is to be done. What cannot be done is tried again.
    pub fn settle(&mut self, mark: &WindowMark) -> Vec<News> {
        if self.tasks.is_empty() {
            return Vec::new();
        }
        let (mut unkept, mut unremoved) = (None, None);
        let mut is_unremoved = false;
        for (session, task) in std::mem::take(&mut self.tasks) {
            self.kept.remove(&session);
            let file = mark.work_file(session);
            match task {
                Task::Write(mut unwritten) => {
                    unwritten.work.document = unwritten.document.text();
                    match unwritten.work.write(&file) {
                        Ok(()) => {
                            self.kept.insert(session);
                        }
                        Err(problem) => {
                            unkept = Some(problem.to_string());
                            self.tasks.insert(session, Task::Write(unwritten));
                        }
                    }
                }
                Task::Remove { is_again } => {
                    if let Err(error) = remove_if_there(&file) {
                        is_unremoved = true;
                        // What is done at the second try is no news.
                        if is_again {
                            unremoved = Some(WriteProblem::Other(error).to_string());
                        }
                        self.tasks.insert(session, Task::Remove { is_again: true });
                    }
                }
            }
        }
        self.last_try = Some(Instant::now());
        let was_unkept = std::mem::replace(&mut self.is_unkept_told, unkept.is_some());
        let was_unremoved = self.is_unremoved_told;
        self.is_unremoved_told = is_unremoved && (was_unremoved || unremoved.is_some());
        let unkept = unkept.filter(|_| !was_unkept).map(News::Unkept);
        let unremoved = unremoved.filter(|_| !was_unremoved).map(News::Unremoved);
        unkept.into_iter().chain(unremoved).collect()
    }

    /// What became of the work.
    pub fn flushed(&self) -> Flushed {
        let is_unwritten = |task: &Task| matches!(task, Task::Write(_));
        if self.tasks.values().any(is_unwritten) {
            Flushed::Unkept
        } else if self.kept.is_empty() {
            Flushed::NoneToKeep
        } else {
            Flushed::Kept
        }
    }
}
