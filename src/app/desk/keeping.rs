//! Work that is in no unit file yet, kept for recovery while it is done; and the file that is open,
//! looked after for changes from outside.

use std::path::PathBuf;
use std::sync::Arc;

use super::{Desk, Session, Slot};
use crate::store::recovery::{Flusher, Keeper, News, Work, WrongText};
use crate::store::{self, OnDisk, Stamp, Watched};
use crate::unit::{self, Document, TextProblem};

/// What keeps the work of the desk.
#[derive(Debug, Default)]
pub struct Keeping {
    keeper: Option<Keeper>,
    /// What was last kept; none when it was let go.
    kept: Option<Stand>,
    /// The file that is looked after, and what stood in it.
    watched: Option<(PathBuf, Option<Stamp>)>,
    /// How the file stands, as long as nobody has answered to it.
    unanswered: Option<OnDisk>,
    /// How many other windows have the file open.
    others: usize,
}

/// What there is to keep.
#[derive(Debug)]
struct Stand {
    document: Arc<Document>,
    wrong: Vec<WrongText>,
    file: Option<(PathBuf, Option<Stamp>)>,
}

impl Stand {
    fn is_same_as(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.document, &other.document)
            && self.wrong == other.wrong
            && self.file == other.file
    }
}

impl Desk {
    /// Has the work kept from here on.
    pub fn keep_with(&mut self, keeper: Keeper) {
        self.keeping = Keeping {
            keeper: Some(keeper),
            ..Keeping::default()
        };
    }

    /// What has the work written before the program ends; none while it is not kept.
    pub fn flusher(&self) -> Option<Flusher> {
        self.keeping.keeper.as_ref().map(Keeper::flusher)
    }

    /// Keeps the work as it is now, once a frame; lets it go when it is saved or may be lost. It is
    /// written by a thread of its own, so that no frame waits for a disk.
    pub fn keep_work(&mut self) {
        let stand = self.stand();
        let keeping = &mut self.keeping;
        let Some(keeper) = &keeping.keeper else {
            return;
        };
        let session = &self.sessions[self.front];
        let opened = session.file().map(|file| (file, session.on_disk()));
        let watched = keeping.watched.as_ref();
        if opened != watched.map(|(file, stamp)| (file.as_path(), *stamp)) {
            keeping.watched = opened.map(|(file, stamp)| (file.to_owned(), stamp));
            keeping.unanswered = None;
            keeping.others = 0;
            let file = keeping.watched.clone();
            keeper.watch(file.map(|(file, stamp)| Watched::new(file, stamp)));
        }
        match (stand, &keeping.kept) {
            (None, None) => {}
            (None, Some(_)) => {
                keeper.let_go();
                keeping.kept = None;
            }
            (Some(stand), Some(kept)) if stand.is_same_as(kept) => {}
            (Some(stand), _) => {
                let (document, wrong) = (Arc::clone(&stand.document), stand.wrong.clone());
                let file = stand.file.as_ref();
                let stamp = file.and_then(|(_, stamp)| *stamp);
                let file = file.map(|(file, _)| file.as_path());
                keeper.keep(document, wrong, file, stamp);
                keeping.kept = Some(stand);
            }
        }
    }

    /// What there is to keep; none when all is saved or may be lost.
    fn stand(&self) -> Option<Stand> {
        if self.keeping.keeper.is_none() || self.may_close() || !self.has_unsaved() {
            return None;
        }
        let session = self.session();
        let file = session.file();
        Some(Stand {
            document: Arc::clone(session.settled()),
            wrong: session.wrong_texts(),
            file: file.map(|file| (file.to_owned(), session.on_disk())),
        })
    }

    /// Looks at the file now, as when the window is gone to.
    pub fn look_at_file(&self) {
        if let Some(keeper) = &self.keeping.keeper {
            keeper.look();
        }
    }

    /// Takes what the keeper has to tell.
    pub fn hear_news(&mut self) {
        let Some(keeper) = &self.keeping.keeper else {
            return;
        };
        let news: Vec<_> = keeper.news().collect();
        for news in news {
            match news {
                News::Unkept(why) => self.warn(format!(
                    "What is not saved cannot be kept for recovery: {why}. Save often; it is tried again."
                )),
                News::OnDisk(seen) => self.keeping.unanswered = Some(seen),
                News::Others(others) => {
                    if others > self.keeping.others {
                        self.warn("This unit file is open in another window too. Each saves over what the other saved; it is told before that.");
                    }
                    self.keeping.others = others;
                }
            }
        }
    }

    /// How the file in front was found changed, once; none when it was not, or was answered to.
    pub fn take_change_outside(&mut self) -> Option<OnDisk> {
        self.keeping.unanswered.take()
    }

    /// How many other windows have the file in front open.
    pub fn others_on_file(&self) -> usize {
        self.keeping.others
    }

    /// Goes on with the work as it is, whatever something else did to its file: it is then in no file
    /// as it stands.
    pub fn keep_mine(&mut self, seen: OnDisk) {
        self.session_mut().keep_mine(seen);
    }

    /// Hands over work that a dead window left. It is kept anew before the old copy is removed.
    ///
    /// # Errors
    /// When its document cannot be read.
    pub fn recover(&mut self, work: &Work) -> Result<(), TextProblem> {
        let session = Session::recovered(work)?;
        self.replace(session);
        self.keep_work();
        Ok(())
    }
}

impl Session {
    /// Goes on with work that a dead window left.
    ///
    /// # Errors
    /// When its document cannot be read.
    pub fn recovered(work: &Work) -> Result<Self, TextProblem> {
        let document = unit::parse_text(&work.document)?;
        let mut session = Self::new(document, work.file.clone());
        session.is_elsewhere(work.stamp);
        for wrong in &work.wrong {
            if let Some(slot) = Slot::at_path(&wrong.field) {
                session.put_wrong_text(slot, wrong);
            }
        }
        Ok(session)
    }

    /// How the file stands now beside what was last read from it or written to it.
    #[must_use]
    pub fn look_at_file(&self) -> OnDisk {
        match self.file() {
            Some(file) => Watched::new(file.to_owned(), self.on_disk()).look(),
            None => OnDisk::Same,
        }
    }

    fn keep_mine(&mut self, seen: OnDisk) {
        match seen {
            OnDisk::Same => {}
            OnDisk::Changed(stamp) => self.is_elsewhere(Some(stamp)),
            OnDisk::Gone => self.is_elsewhere(None),
        }
    }
}

/// What stands in a file that work belongs to, for the side by side; none when it cannot be read.
pub fn document_in(work: &Work) -> Option<Document> {
    store::reopen_unit(work.file.as_deref()?).ok()
}
