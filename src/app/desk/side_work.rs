//! A work beside the units on the desk: what stands in it, where it is kept, whether it is saved, and its
//! own steps to take back.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Context, Id};

use super::SessionId;
use super::grip::Hands;
use super::work_history::WorkHistory;
use crate::store::recovery::{Kept, Work, WrongText};
use crate::store::{FileProblem, OnDisk, Saved, Stamp, Watched};
use crate::unit::Remarks;

/// A kind of work that lies on the desk beside the units, one of each kind at the most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WorkKind {
    /// A plate sheet.
    Sheet,
    /// A lesson.
    Lesson,
}

impl WorkKind {
    /// Every one of them.
    pub const ALL: [Self; 2] = [Self::Sheet, Self::Lesson];
}

/// What of a work does not depend on what it holds.
pub trait SideState {
    /// What tells it from every session of this run of the program.
    fn id(&self) -> SessionId;

    /// Where it is kept; none for one that was never saved.
    fn file(&self) -> Option<&Path>;

    /// A number that grows with every change of what stands in it.
    fn revision(&self) -> u64;

    /// Whether dropping it now would lose something.
    fn has_unsaved(&self) -> bool;

    /// How its file stands now beside what was last read from it or written to it.
    fn look_at_file(&self) -> OnDisk;

    /// What stood in its file when it was last opened or saved.
    fn on_disk(&self) -> Option<Stamp>;

    /// What undo would take back.
    fn undone(&self) -> Option<&str>;

    /// What redo would do again.
    fn redone(&self) -> Option<&str>;

    /// Looks at what a person holds, so that what is done in one grip is one step.
    fn look_at_hands(&mut self, ctx: &Context);

    /// Takes back the last step; whether there was one.
    fn undo(&mut self) -> bool;

    /// Does again the step that was taken back last; whether there was one.
    fn redo(&mut self) -> bool;

    /// Takes note that its file does not hold it any more.
    fn part_from_file(&mut self);

    /// Goes on as it is, over what was seen in its file: it is then in no file as it stands.
    fn keep_mine(&mut self, seen: OnDisk);
}

/// What files and recovery ask of a work, of whatever kind.
pub trait DeskWork {
    /// What of it does not depend on what it holds.
    fn side(&self) -> &dyn SideState;

    /// The same, to be changed.
    fn side_mut(&mut self) -> &mut dyn SideState;

    /// Why it cannot be saved; none while it can. A file that could not be opened again must not be
    /// written.
    fn why_not_savable(&self) -> Option<String>;

    /// What a save leaves out, since it waits for what the file holds only together with it.
    fn left_out_of_a_save(&self) -> Vec<String> {
        Vec::new()
    }

    /// Saves to a file, which is then where it is kept.
    ///
    /// # Errors
    /// When it cannot be written; what stood there before is whole.
    fn save_to(&mut self, file: &Path) -> Result<Remarks, FileProblem>;

    /// What is kept of it for recovery.
    fn kept(&self) -> Kept;

    /// The texts that stand beside it, for whoever keeps it.
    fn wrong_texts(&self) -> Vec<WrongText> {
        Vec::new()
    }

    /// The session of the unit that it was begun for.
    fn session_of_unit(&self) -> Option<SessionId> {
        None
    }

    /// The file of the unit that a work in no file goes with.
    fn unit_while_in_no_file(&self) -> Option<PathBuf>;

    /// What tells it from every session of this run of the program.
    fn id(&self) -> SessionId {
        self.side().id()
    }

    /// Where it is kept; none for one that was never saved.
    fn file(&self) -> Option<&Path> {
        self.side().file()
    }

    /// A number that grows with every change of what stands in it.
    fn revision(&self) -> u64 {
        self.side().revision()
    }

    /// Whether dropping it now would lose something.
    fn has_unsaved(&self) -> bool {
        self.side().has_unsaved()
    }
}

/// A work of some kind: a document of its own, with all that does not depend on what it holds.
#[derive(Debug)]
pub struct SideWork<T> {
    id: SessionId,
    content: Arc<T>,
    file: Option<PathBuf>,
    /// As it was last saved, opened or begun with nobody's work in it yet; none when no file holds it so any
    /// more.
    saved: Option<Arc<T>>,
    /// As it was begun before it was filled in by nobody's hand; none once it was in a file.
    begun: Option<Arc<T>>,
    /// What stood in the file then.
    on_disk: Option<Stamp>,
    /// The digest of that; none while no file holds it so.
    digest: Option<String>,
    history: WorkHistory<T>,
    hands: Hands,
    revision: u64,
}

impl<T: Clone + PartialEq> SideWork<T> {
    /// Begins one that is in no file.
    pub fn begun(content: T) -> Self {
        let content = Arc::new(content);
        Self {
            id: SessionId::next(),
            history: WorkHistory::new(Arc::clone(&content)),
            saved: Some(Arc::clone(&content)),
            content,
            begun: None,
            file: None,
            on_disk: None,
            digest: None,
            hands: Hands::default(),
            revision: 0,
        }
    }

    /// Opens one from a file in which this stood.
    pub fn opened(content: T, digest: String, file: &Path, on_disk: Option<Stamp>) -> Self {
        Self {
            file: Some(file.to_owned()),
            on_disk,
            digest: Some(digest),
            ..Self::begun(content)
        }
    }

    /// Goes on with one that a dead window left.
    pub fn recovered(content: T, work: &Work) -> Self {
        Self {
            saved: None,
            file: work.file.clone(),
            on_disk: work.stamp,
            ..Self::begun(content)
        }
    }

    /// What stands in it.
    pub fn content(&self) -> &T {
        &self.content
    }

    /// The same, shared.
    pub fn shared(&self) -> &Arc<T> {
        &self.content
    }

    /// The first eight digits of the SHA-256 of what it was last opened or saved as (FIPS 180-4); none
    /// while no file holds it so.
    pub fn digest(&self) -> Option<&str> {
        self.digest.as_deref()
    }

    /// Counts as saved from here on, as it stands now: nobody typed it.
    pub fn count_as_saved(&mut self) {
        let before = self.saved.replace(Arc::clone(&self.content));
        if self.file.is_none() && self.begun.is_none() {
            self.begun = before;
        }
    }

    /// Was saved to a file, all of it or a part.
    pub fn was_saved(&mut self, file: &Path, saved: Saved, is_whole: bool) -> Remarks {
        self.saved = is_whole.then(|| Arc::clone(&self.content));
        self.begun = None;
        self.file = Some(file.to_owned());
        self.on_disk = Some(saved.stamp);
        self.digest = Some(saved.digest);
        saved.remarks
    }

    /// Makes a change; whether it was one.
    pub fn edit(&mut self, name: &str, holder: Option<Id>, edit: impl FnOnce(&mut T)) -> bool {
        let mut content = T::clone(&self.content);
        edit(&mut content);
        if content == *self.content {
            return false;
        }
        self.content = Arc::new(content);
        self.revision += 1;
        self.history.note(name, holder, &self.content, &self.hands);
        true
    }

    fn put_back(&mut self, content: Option<Arc<T>>) -> bool {
        let is_step = content.is_some();
        if let Some(content) = content {
            self.content = content;
            self.revision += 1;
        }
        is_step
    }
}

impl<T: Clone + PartialEq> SideState for SideWork<T> {
    fn id(&self) -> SessionId {
        self.id
    }

    fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    fn on_disk(&self) -> Option<Stamp> {
        self.on_disk
    }

    fn revision(&self) -> u64 {
        self.revision
    }

    fn has_unsaved(&self) -> bool {
        let untouched = [&self.saved, &self.begun].into_iter().flatten();
        !untouched
            .into_iter()
            .any(|untouched| **untouched == *self.content)
    }

    fn part_from_file(&mut self) {
        self.saved = None;
        self.begun = None;
        self.digest = None;
    }

    fn keep_mine(&mut self, seen: OnDisk) {
        match seen {
            OnDisk::Same => return,
            OnDisk::Changed(stamp) => self.on_disk = Some(stamp),
            OnDisk::Gone => self.on_disk = None,
        }
        self.part_from_file();
    }

    fn look_at_file(&self) -> OnDisk {
        match self.file() {
            Some(file) => Watched::new(file.to_owned(), self.on_disk).look(),
            None => OnDisk::Same,
        }
    }

    fn look_at_hands(&mut self, ctx: &Context) {
        self.hands.look(ctx);
        self.history.look(&self.hands);
    }

    fn undo(&mut self) -> bool {
        let step = self.history.undo();
        self.put_back(step)
    }

    fn redo(&mut self) -> bool {
        let step = self.history.redo();
        self.put_back(step)
    }

    fn undone(&self) -> Option<&str> {
        self.history.undone()
    }

    fn redone(&self) -> Option<&str> {
        self.history.redone()
    }
}
