//! A sitting with one document: where it is kept, whether it is saved, what is being typed into it,
//! and what follows from it.

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use super::grip::Hands;
use super::history::{History, State, StepId};
use super::left_session::LeftSession;
use super::{Change, DEMO_UNITS, Drafts, Slot, Ticked};
use crate::analysis::{Solved, Unsolved};
use crate::store::recovery::WrongText;
use crate::store::{self, FileProblem, Saved, Stamp};
use crate::unit::{Document, Remarks};

/// Why there is no drawing and no number of a document that could never be solved.
pub const NO_SOLUTION: &str = "This unit has no solution yet.";

/// Which session of this run of the program; no two have the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SessionId(u64);

impl SessionId {
    /// Its number.
    pub(super) fn number(self) -> u64 {
        self.0
    }

    /// The next one.
    pub(super) fn next() -> Self {
        static BEGUN: AtomicU64 = AtomicU64::new(0);
        Self(BEGUN.fetch_add(1, Ordering::Relaxed))
    }
}

/// A document being edited.
#[derive(Debug)]
pub struct Session {
    id: SessionId,
    document: Document,
    /// Where it is kept; none for one that was never saved.
    file: Option<PathBuf>,
    /// As it was last saved or opened; none when no file holds it so any more.
    saved: Option<Document>,
    /// What stood in the file then.
    on_disk: Option<Stamp>,
    /// The digest of what it was last opened or saved as; none while no file holds it so.
    digest: Option<String>,
    /// The session that it was in a window that died.
    pub(super) was: Option<LeftSession>,
    /// Whether something else was seen to stand in the file since, or the file to be gone.
    is_parted: bool,
    /// The document that what follows was worked out from: that before an edit, while it is made.
    settled: Arc<Document>,
    drafts: Drafts,
    pub(super) ticked: Ticked,
    history: History,
    hands: Hands,
    last_change: Option<Change>,
    good: Option<Rc<Solved>>,
    trouble: Option<Unsolved>,
    solutions: u64,
    solves: u64,
}

impl Session {
    /// Begins with a document.
    #[must_use]
    pub fn new(document: Document, file: Option<PathBuf>) -> Self {
        let mut session = Self {
            id: SessionId::next(),
            saved: Some(document.clone()),
            on_disk: None,
            digest: None,
            was: None,
            is_parted: false,
            settled: Arc::new(document.clone()),
            history: History::new(&document, &Drafts::default()),
            hands: Hands::default(),
            document,
            file,
            drafts: Drafts::default(),
            ticked: Ticked::default(),
            last_change: None,
            good: None,
            trouble: None,
            solutions: 0,
            solves: 0,
        };
        let document = Arc::clone(&session.settled);
        let solved = session.worked_out(&document);
        session.take(solved);
        session
    }

    /// Begins with the demo unit.
    ///
    /// # Errors
    /// Never with the unit that is built in; a test sees to it.
    pub fn demo() -> Result<Self, FileProblem> {
        Ok(Self::new(DEMO_UNITS[0].document()?, None))
    }

    /// Opens a unit file.
    ///
    /// # Errors
    /// When it cannot be read or is no unit file.
    pub fn open(file: &Path) -> Result<Self, FileProblem> {
        // Looked at before it is read: a change between the two is then found later.
        let on_disk = Stamp::of(file);
        let (document, digest) = store::open_with_digest(file)?;
        let session = Self::new(document, Some(file.to_owned()));
        Ok(Self {
            on_disk,
            digest: Some(digest),
            ..session
        })
    }

    /// Which session it is.
    #[must_use]
    pub fn id(&self) -> SessionId {
        self.id
    }

    /// What is edited.
    #[must_use]
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// Where it is kept; none for one that was never saved.
    #[must_use]
    pub fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// Whether there is anything to save: a change, or a document that its file does not hold any more.
    #[must_use]
    pub fn is_changed(&self) -> bool {
        self.is_parted || self.is_edited()
    }

    /// Whether it differs from what was last saved or opened.
    fn is_edited(&self) -> bool {
        self.saved.as_ref() != Some(&self.document)
    }

    /// Whether dropping it now would lose something: a change, a text that is not right yet, or a
    /// document that its file does not hold any more.
    pub(super) fn has_unsaved(&self) -> bool {
        self.is_parted || self.has_own_changes()
    }

    /// Whether reading its file again would lose something that was done here: a change, or a text that
    /// is not right yet.
    pub(in crate::app) fn has_own_changes(&self) -> bool {
        self.is_edited() || self.drafts.first_wrong().is_some()
    }

    /// Whether its file does not hold it any more: something else was seen there, or the file was seen
    /// to be gone.
    pub(in crate::app) fn is_parted(&self) -> bool {
        self.is_parted
    }

    /// Takes note that its file does not hold it any more. What stood there stays what it is compared
    /// with: no save goes over something else before a person says so.
    pub(super) fn part_from_file(&mut self) {
        self.is_parted = true;
    }

    /// The change that was made last.
    #[must_use]
    pub fn last_change(&self) -> Option<&Change> {
        self.last_change.as_ref()
    }

    /// The last solution there was; of an earlier document while [`Session::trouble`] says why the
    /// present one has none.
    #[must_use]
    pub fn good(&self) -> Option<&Rc<Solved>> {
        self.good.as_ref()
    }

    /// Why the document as it stands has no solution.
    #[must_use]
    pub fn trouble(&self) -> Option<&Unsolved> {
        self.trouble.as_ref()
    }

    /// How many solutions there were, one after the other.
    #[must_use]
    pub fn solutions(&self) -> u64 {
        self.solutions
    }

    /// How often a document was solved in this session, or found to have no solution.
    #[must_use]
    pub fn solves(&self) -> u64 {
        self.solves
    }

    /// What is being typed.
    pub(in crate::app) fn drafts(&self) -> &Drafts {
        &self.drafts
    }

    /// The knives ticked for drawing over the fitted one.
    pub(in crate::app) fn ticked(&self) -> &Ticked {
        &self.ticked
    }

    /// Saves to a file, which is then where the document is kept.
    pub(super) fn save_to(&mut self, file: &Path) -> Result<Remarks, FileProblem> {
        let Saved {
            remarks,
            stamp,
            digest,
        } = store::save_unit(&self.document, file)?;
        self.saved = Some(self.document.clone());
        self.file = Some(file.to_owned());
        self.on_disk = Some(stamp);
        self.digest = Some(digest);
        self.is_parted = false;
        Ok(remarks)
    }

    /// What stood in the file when it was last opened or saved; none while it is in no file.
    pub(super) fn on_disk(&self) -> Option<Stamp> {
        self.on_disk
    }

    /// The first eight digits of the SHA-256 of what it was last opened or saved as (FIPS 180-4); none
    /// while no file holds it so.
    pub(in crate::app) fn digest(&self) -> Option<&str> {
        self.digest.as_deref()
    }

    /// Takes note that no file holds the document as it is, and what stands in its file instead; none
    /// when that is gone.
    pub(super) fn is_elsewhere(&mut self, on_disk: Option<Stamp>) {
        self.saved = None;
        self.on_disk = on_disk;
        self.digest = None;
    }

    /// The document as it is, shared.
    pub(super) fn settled(&self) -> &Arc<Document> {
        &self.settled
    }

    /// The texts that stand wrong in fields.
    pub(super) fn wrong_texts(&self) -> Vec<WrongText> {
        self.drafts.wrong_texts()
    }

    /// Puts wrong texts back into their fields, before anything else is done.
    pub(super) fn begin_with(&mut self, wrong: &[WrongText]) {
        for wrong in wrong {
            if let Some(slot) = Slot::at_path(&wrong.field) {
                self.drafts.put_wrong_text(slot, wrong, &self.document);
            }
        }
        self.history = History::new(&self.document, &self.drafts);
    }

    /// Makes a change and works out what follows, if it was one.
    pub(super) fn edit<R>(
        &mut self,
        edit: impl FnOnce(&mut Document, &mut Drafts) -> (R, Option<Change>),
    ) -> R {
        let (done, change) = edit(&mut self.document, &mut self.drafts);
        if self.document == *self.settled {
            self.note_texts(change);
        } else {
            debug_assert!(change.is_some(), "a change names itself");
            let change = change.unwrap_or_else(|| Change::new("Entry"));
            let document = Arc::new(self.document.clone());
            let solved = self.worked_out(&document);
            self.settle(document, solved, change, Made::Anew);
        }
        done
    }

    /// Makes a change if what comes out can be solved; whether it can. What is being typed into the
    /// part it names is dropped then, and stays otherwise.
    pub(super) fn edit_if_solved(
        &mut self,
        change: Change,
        edit: impl FnOnce(&mut Document),
    ) -> bool {
        let mut tried = self.document.clone();
        edit(&mut tried);
        if tried == self.document {
            let is_solved = self.trouble.is_none();
            if is_solved {
                self.drafts.follow(&change);
                self.note_texts(Some(change));
            }
            return is_solved;
        }
        let tried = Arc::new(tried);
        let solved = self.worked_out(&tried);
        let is_solved = solved.is_ok();
        if is_solved {
            self.drafts.follow(&change);
            self.document = Document::clone(&tried);
            self.settle(tried, solved, change, Made::Anew);
        }
        is_solved
    }

    /// Looks at what a person holds, so that what is done in one grip is one step.
    pub(super) fn look_at_hands(&mut self, ctx: &egui::Context) {
        self.hands.look(ctx);
        self.history.look(&self.hands);
    }

    /// The changes that can be taken back and done again.
    pub(super) fn history(&self) -> &History {
        &self.history
    }

    /// Takes back the last step: the change that was one; none where there was no step.
    pub(super) fn undo(&mut self) -> Option<Change> {
        let step = self.history.undo();
        self.put_back(step)
    }

    /// Does again the step that was taken back last: the change that is one; none where there was none.
    pub(super) fn redo(&mut self) -> Option<Change> {
        let step = self.history.redo();
        self.put_back(step)
    }

    /// The step that undo would take back.
    pub(super) fn newest_step(&self) -> Option<StepId> {
        self.history.newest()
    }

    /// The last step done that changed the document.
    pub(super) fn newest_step_of_document(&self) -> Option<StepId> {
        self.history.newest_of_document()
    }

    /// Puts a whole document in place of the one that is edited, with the texts that stood wrong beside
    /// it. What else is being typed would go over it, and is dropped.
    fn put_back(&mut self, step: Option<(State, Change)>) -> Option<Change> {
        let (state, change) = step?;
        self.drafts.clone_from(state.wrong());
        let document = state.document();
        if document == self.document {
            // Only a wrong text came or went: what follows from the document is what it was.
            return Some(change);
        }
        let after = Arc::new(document.clone());
        self.document = document;
        let solved = self.worked_out(&after);
        self.settle(after, solved, change.clone(), Made::ByStep);
        Some(change)
    }

    /// Notes what came of a change that left the document as it is: a wrong text, or that one is gone.
    fn note_texts(&mut self, change: Option<Change>) {
        let Some(typed) = self.drafts.typed_wrong_since(self.history.wrong()) else {
            return;
        };
        let change = change.unwrap_or(typed);
        self.history
            .note(&change, &self.document, &self.drafts, &self.hands);
    }

    /// The one door that every change of the document goes through, whoever made it: from here on
    /// the changed document is the settled one, with what was worked out from it, and all that hangs
    /// on it follows.
    fn settle(
        &mut self,
        document: Arc<Document>,
        solved: Result<Solved, Unsolved>,
        change: Change,
        made: Made,
    ) {
        let before = std::mem::replace(&mut self.settled, document);
        self.take(solved);
        self.ticked.follow(&before, &self.document);
        match made {
            Made::Anew => {
                self.drafts.drop_stale(&change, &before, &self.document);
                self.history
                    .note(&change, &self.document, &self.drafts, &self.hands);
            }
            // The history moved along itself.
            Made::ByStep => {}
        }
        self.last_change = Some(change);
    }

    /// What follows from a document.
    fn worked_out(&mut self, document: &Arc<Document>) -> Result<Solved, Unsolved> {
        self.solves += 1;
        Solved::of_shared(Arc::clone(document))
    }

    fn take(&mut self, solved: Result<Solved, Unsolved>) {
        match solved {
            Ok(solved) => {
                self.good = Some(Rc::new(solved));
                self.solutions += 1;
                self.trouble = None;
            }
            Err(unsolved) => self.trouble = Some(unsolved),
        }
    }
}

/// How a change of the document came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Made {
    /// It is a new one, to be noted in the history.
    Anew,
    /// It is a step of the history, taken back or done again.
    ByStep,
}
