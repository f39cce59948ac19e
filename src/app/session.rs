//! A sitting with one document: where it is kept, whether it is saved, and what follows from it.

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use crate::analysis::{Solved, Unsolved};
use crate::store::{self, FileProblem};
use crate::unit::{self, Document};

/// The unit that is shown when no file is given.
pub const DEMO_UNIT: &str = include_str!("../../demo-units/fairway-trailed.ron");

/// A document being edited.
#[derive(Clone, Debug)]
pub struct Session {
    /// What is edited.
    pub document: Document,
    /// Where it is kept; nothing for one that was never saved.
    pub file: Option<PathBuf>,
    /// As it was last saved or opened.
    saved: Document,
    /// The document that what follows was worked out from.
    settled: Arc<Document>,
    good: Option<Rc<Solved>>,
    solutions: u64,
    trouble: Option<Unsolved>,
}

impl Session {
    /// Begins with a document.
    #[must_use]
    pub fn new(document: Document, file: Option<PathBuf>) -> Self {
        let mut session = Self {
            saved: document.clone(),
            settled: Arc::new(document.clone()),
            document,
            file,
            good: None,
            solutions: 0,
            trouble: None,
        };
        session.solve();
        session
    }

    /// Begins with the demo unit.
    ///
    /// # Errors
    /// Never with the unit that is built in; a test sees to it.
    pub fn demo() -> Result<Self, FileProblem> {
        let document = unit::read_text(DEMO_UNIT)
            .map_err(|problem| FileProblem::wrong(Path::new("demo unit"), problem))?;
        Ok(Self::new(document, None))
    }

    /// Opens a unit file.
    ///
    /// # Errors
    /// When it cannot be read or is no unit file.
    pub fn open(file: &Path) -> Result<Self, FileProblem> {
        Ok(Self::new(store::open_unit(file)?, Some(file.to_owned())))
    }

    /// Saves to a file, which is then where the document is kept.
    ///
    /// # Errors
    /// When it cannot be written; what stood there before is whole.
    pub fn save_to(&mut self, file: &Path) -> Result<(), FileProblem> {
        store::save_unit(&self.document, file)?;
        self.saved = self.document.clone();
        self.file = Some(file.to_owned());
        Ok(())
    }

    /// Whether there is anything to save.
    #[must_use]
    pub fn is_changed(&self) -> bool {
        self.document != self.saved
    }

    /// Works out what follows, if the document changed since it was last done. Whether it did.
    pub fn settle(&mut self) -> bool {
        let is_changed = self.document != *self.settled;
        if is_changed {
            self.settled = Arc::new(self.document.clone());
            self.solve();
        }
        is_changed
    }

    /// The last solution there was; of an earlier document while [`Session::trouble`] says why the
    /// present one has none.
    #[must_use]
    pub fn good(&self) -> Option<&Rc<Solved>> {
        self.good.as_ref()
    }

    /// How many solutions there were, one after the other.
    #[must_use]
    pub fn solutions(&self) -> u64 {
        self.solutions
    }

    /// Why the document as it stands has no solution.
    #[must_use]
    pub fn trouble(&self) -> Option<&Unsolved> {
        self.trouble.as_ref()
    }

    fn solve(&mut self) {
        match Solved::of_shared(Arc::clone(&self.settled)) {
            Ok(solved) => {
                self.good = Some(Rc::new(solved));
                self.solutions += 1;
                self.trouble = None;
            }
            Err(unsolved) => self.trouble = Some(unsolved),
        }
    }
}
