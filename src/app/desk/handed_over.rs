//! What was handed over to the keeper: work that is in no unit file yet, so that only what differs is
//! handed over again, and the file that it looks after.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::left_session::LeftSession;
use super::{DeskWork, Session, SessionId, WorkKind};
use crate::store::recovery::{Flushed, Flusher, Keeper, Kept, News, OfUnit, Work, WrongText};
use crate::store::{OnDisk, Stamp, Watched};
use crate::unit::{self, TextProblem};

/// What keeps the work of the desk.
#[derive(Debug, Default)]
pub struct HandedOver {
    keeper: Option<Keeper>,
    /// Whether some session has something to lose, for whoever ends the program.
    has_unsaved: Arc<AtomicBool>,
    /// What was last kept of each session that has something to lose.
    kept: BTreeMap<SessionId, Stand>,
    /// The file that is looked after, and what stood in it.
    watched: Option<(PathBuf, Option<Stamp>)>,
    /// The files of works that are looked after, and what stood in them.
    watched_works: BTreeMap<WorkKind, (PathBuf, Option<Stamp>)>,
    /// How the file stands, as long as nobody has answered to it.
    pub(super) unanswered: Option<OnDisk>,
    /// The same of the files of works.
    pub(super) unanswered_works: BTreeMap<WorkKind, OnDisk>,
    /// How many other windows have the file open.
    pub(super) others: usize,
}

/// Has the last work of the desk written before the program ends, from whatever thread.
#[derive(Clone, Debug)]
pub struct LastWork {
    /// None where the work is not kept.
    flusher: Option<Flusher>,
    has_unsaved: Arc<AtomicBool>,
}

impl LastWork {
    /// Waits until it is written; whether it is.
    pub fn flush(&self) -> Flushed {
        let flushed = self.flusher.as_ref().map(Flusher::flush);
        if self.has_unsaved.load(Ordering::Relaxed) {
            flushed.unwrap_or(Flushed::Unkept)
        } else {
            Flushed::NoneToKeep
        }
    }
}

/// What there is to keep.
#[derive(Debug)]
struct Stand {
    document: Kept,
    wrong: Vec<WrongText>,
    file: Option<(PathBuf, Option<Stamp>)>,
    /// The unit that a work in no file goes with.
    unit: Option<PathBuf>,
    /// The session of a sheet's unit.
    begun_for: Option<SessionId>,
}

impl Stand {
    fn of(session: &Session) -> Self {
        let file = session.file();
        Self {
            document: Kept::Unit(Arc::clone(session.settled())),
            wrong: session.wrong_texts(),
            file: file.map(|file| (file.to_owned(), session.on_disk())),
            unit: None,
            begun_for: None,
        }
    }

    fn of_work(work: &dyn DeskWork) -> Self {
        let file = work.file();
        Self {
            document: work.kept(),
            wrong: work.wrong_texts(),
            file: file.map(|file| (file.to_owned(), work.side().on_disk())),
            unit: work.unit_while_in_no_file(),
            begun_for: work.session_of_unit(),
        }
    }

    fn is_same_as(&self, other: &Self) -> bool {
        self.document.is_same_as(&other.document)
            && self.wrong == other.wrong
            && self.file == other.file
            && self.unit == other.unit
            && self.begun_for == other.begun_for
    }
}

impl HandedOver {
    /// By a keeper from here on.
    pub fn with(keeper: Keeper) -> Self {
        Self {
            keeper: Some(keeper),
            ..Self::default()
        }
    }

    /// What has the last work written before the program ends.
    pub fn last_work(&self) -> LastWork {
        LastWork {
            flusher: self.keeper.as_ref().map(Keeper::flusher),
            has_unsaved: Arc::clone(&self.has_unsaved),
        }
    }

    /// Whether work is kept at all.
    pub fn is_keeping(&self) -> bool {
        self.keeper.is_some()
    }

    /// Looks at the file now.
    pub fn look(&self) {
        if let Some(keeper) = &self.keeper {
            keeper.look();
        }
    }

    /// What there is to tell. A keeper that failed is handed no more.
    pub fn news(&mut self) -> Vec<News> {
        let keeper = self.keeper.as_ref();
        let news = keeper.map_or_else(Vec::new, |keeper| keeper.news().collect());
        if news.contains(&News::Stopped) {
            self.keeper = None;
        }
        news
    }

    /// Looks after the file of the session in front from here on.
    pub fn watch(&mut self, front: &Session) {
        let Some(keeper) = &self.keeper else {
            return;
        };
        let opened = front.file().map(|file| (file, front.on_disk()));
        let watched = self.watched.as_ref();
        if opened != watched.map(|(file, stamp)| (file.as_path(), *stamp)) {
            self.watched = opened.map(|(file, stamp)| (file.to_owned(), stamp));
            self.unanswered = None;
            self.others = 0;
            let file = self.watched.clone();
            keeper.watch(file.map(|(file, stamp)| Watched::new(file, stamp)));
        }
    }

    /// Looks after the file of the work of a kind from here on.
    pub fn watch_work(&mut self, kind: WorkKind, work: Option<&dyn DeskWork>) {
        let Some(keeper) = &self.keeper else {
            return;
        };
        let opened = work.and_then(|work| Some((work.file()?, work.side().on_disk())));
        let watched = self.watched_works.get(&kind);
        if opened != watched.map(|(file, stamp)| (file.as_path(), *stamp)) {
            self.unanswered_works.remove(&kind);
            self.watched_works.remove(&kind);
            if let Some((file, stamp)) = opened {
                self.watched_works.insert(kind, (file.to_owned(), stamp));
            }
            let opened = opened.map(|(file, stamp)| Watched::new(file.to_owned(), stamp));
            keeper.watch_besides(kind as u8, opened);
        }
    }

    /// Keeps the work of the sessions that have something to lose as it is now, and the works beside them
    /// that have, and lets go of that of all others. It is written by a thread of its own, so that no frame waits
    /// for a disk.
    pub fn keep<'s>(
        &mut self,
        unsaved: impl Iterator<Item = &'s Session>,
        works: impl Iterator<Item = &'s dyn DeskWork>,
    ) {
        let units = unsaved.map(|session| (session.id(), Stand::of(session)));
        let works = works.map(|work| (work.id(), Stand::of_work(work)));
        let mut unsaved = units.chain(works).peekable();
        let has_unsaved = unsaved.peek().is_some();
        self.has_unsaved.store(has_unsaved, Ordering::Relaxed);
        let Some(keeper) = &self.keeper else {
            return;
        };
        let mut kept = std::mem::take(&mut self.kept);
        for (id, stand) in unsaved {
            let before = kept.remove(&id);
            if !before.is_some_and(|before| stand.is_same_as(&before)) {
                let (document, wrong) = (stand.document.clone(), stand.wrong.clone());
                let file = stand.file.as_ref();
                let stamp = file.and_then(|(_, stamp)| *stamp);
                let file = file.map(|(file, _)| file.as_path());
                let unit = OfUnit {
                    file: stand.unit.as_deref(),
                    session: stand.begun_for.map(SessionId::number),
                };
                keeper.keep_of_unit(id.number(), document, wrong, file, stamp, unit);
            }
            self.kept.insert(id, stand);
        }
        for given_up in kept.keys() {
            keeper.let_go(given_up.number());
        }
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
        session.begin_with(&work.wrong);
        session.was = Some(LeftSession::of(work.session, work));
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

    pub(super) fn keep_mine(&mut self, seen: OnDisk) {
        match seen {
            OnDisk::Same => {}
            OnDisk::Changed(stamp) => self.is_elsewhere(Some(stamp)),
            OnDisk::Gone => self.is_elsewhere(None),
        }
    }
}
