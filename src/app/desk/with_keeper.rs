//! The desk with its keeper: hands over the work of every session once a frame, and hears what the keeper
//! has to tell, of trouble with keeping as of changes to the file from outside.

use std::path::Path;

use super::handed_over::{HandedOver, LastWork};
use super::{Desk, Session, WorkKind};
use crate::store::recovery::{Keeper, News, Work};
use crate::store::{self, FileProblem, OnDisk, Stamp};
use crate::unit::{Document, TextProblem};

impl Desk {
    /// Has the work kept from here on.
    pub fn keep_with(&mut self, keeper: Keeper) {
        self.handed_over = HandedOver::with(keeper);
    }

    /// Whether what is not saved is kept for recovery.
    pub fn keeps_work(&self) -> bool {
        self.handed_over.is_keeping()
    }

    /// What has the last work written before the program ends.
    pub fn last_work(&self) -> LastWork {
        self.handed_over.last_work()
    }

    /// Keeps the work of every session as it is now, once a frame; lets it go when it is saved or may be
    /// lost.
    pub fn keep_work(&mut self) {
        let may_be_lost = self.may_close();
        let unsaved = self.sessions.iter();
        let unsaved = unsaved.filter(|session| session.has_unsaved() && !may_be_lost);
        let works = self.works.to_keep(may_be_lost);
        self.handed_over.keep(unsaved, works);
        self.handed_over.watch(&self.sessions[self.front]);
        for kind in WorkKind::ALL {
            self.handed_over.watch_work(kind, self.works.get(kind));
        }
    }

    /// Looks at the file now, as when the window is gone to.
    pub fn look_at_file(&self) {
        self.handed_over.look();
    }

    /// Takes what the keeper has to tell.
    pub fn hear_news(&mut self) {
        for news in self.handed_over.news() {
            match news {
                News::Unkept(why) => self.warn(format!(
                    "What is not saved cannot be kept for recovery: {why}. Save often; it will be tried again."
                )),
                News::Unremoved(why) => self.warn(format!(
                    "What was kept of work that you saved or gave up cannot be removed: {why}. It will be tried again; the next start offers what is still there."
                )),
                News::Stopped => self.warn(
                    "What is not saved is no longer kept for recovery: the part of the program that keeps it has failed. Save now and start the program again.",
                ),
                News::OnDisk { file, since, seen } => self.hear_of_file(&file, since, seen),
                // News of a file that was in front before is no news.
                News::Others { file, .. } if self.session().file() != Some(&*file) => {}
                News::Others { others, .. } => {
                    if others > self.handed_over.others {
                        self.warn("This unit file is open in another window too. Both would save to one file; you are asked before either saves over the other.");
                    }
                    self.handed_over.others = others;
                }
            }
        }
    }

    /// A file was found changed or gone, beside what stood there at some time. A session that was saved
    /// or opened since has nothing to do with it.
    fn hear_of_file(&mut self, file: &Path, since: Option<Stamp>, seen: OnDisk) {
        for kind in WorkKind::ALL {
            let work = self.works.get_mut(kind);
            let own =
                work.filter(|work| work.file() == Some(file) && work.side().on_disk() == since);
            if let Some(work) = own {
                work.side_mut().part_from_file();
                self.handed_over.unanswered_works.insert(kind, seen);
            }
        }
        for (place, session) in self.sessions.iter_mut().enumerate() {
            if session.file() == Some(file) && session.on_disk() == since {
                session.part_from_file();
                if place == self.front {
                    self.handed_over.unanswered = Some(seen);
                }
            }
        }
    }

    /// Looks at the file of every session, before any of them is dropped: one whose file does not hold
    /// it any more has something to lose.
    pub fn look_at_files(&mut self) {
        for session in &mut self.sessions {
            if session.look_at_file() != OnDisk::Same {
                session.part_from_file();
            }
        }
    }

    /// Looks at the file in front before it is saved to: how it stands.
    pub fn look_before_saving(&mut self) -> OnDisk {
        let seen = self.session().look_at_file();
        if seen != OnDisk::Same {
            self.session_mut().part_from_file();
        }
        seen
    }

    /// How the file in front was found changed, once; none when it was not, or was answered to.
    pub fn take_change_outside(&mut self) -> Option<OnDisk> {
        self.handed_over.unanswered.take()
    }

    /// How the file of a work was found changed, once; none when none was, or it was answered to.
    pub fn take_change_of_work(&mut self) -> Option<(WorkKind, OnDisk)> {
        self.handed_over.unanswered_works.pop_first()
    }

    /// How many other windows have the file in front open.
    pub fn others_on_file(&self) -> usize {
        self.handed_over.others
    }

    /// Goes on with the work as it is, as a person said on being asked about what something else did to
    /// its file: it is then in no file as it stands, and the next save goes over what was seen there.
    pub fn keep_mine(&mut self, seen: OnDisk) {
        self.session_mut().keep_mine(seen);
    }

    /// Goes on with work that a dead window left, and keeps it anew.
    ///
    /// # Errors
    /// When its document cannot be read.
    pub fn recover(&mut self, work: &Work) -> Result<(), TextProblem> {
        self.replace(Session::recovered(work)?);
        self.find_unit_of_sheet();
        self.keep_work();
        Ok(())
    }
}

/// What stands in the file that work belongs to, for the side by side; none when it is in none.
pub fn document_in(work: &Work) -> Option<Result<Document, FileProblem>> {
    Some(store::reopen_unit(work.file.as_deref()?))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::thread;
    use std::time::Duration;

    use super::super::{Change, NoDialogs, Preferences};
    use super::*;

    #[test]
    fn a_keeper_that_failed_is_warned_of_once() {
        let folder = tempfile::tempdir().expect("a folder");
        let within = folder.path().join("recovery");
        let is_sound = AtomicBool::new(false);
        let keeper = Keeper::new(&within, move || {
            assert!(is_sound.swap(true, Ordering::Relaxed), "it fails");
        });
        let demo = Session::demo().expect("the demo unit");
        let mut desk = Desk::new(demo, Preferences::default(), Box::new(NoDialogs));
        desk.keep_with(keeper.expect("a keeper"));
        // Its first news is that work cannot be kept; telling it, it fails.
        fs::remove_dir_all(&within).expect("it goes");
        let edit = |desk: &mut Desk, name: &str| {
            desk.edit(Change::new("Name"), |document| {
                name.clone_into(&mut document.name);
            });
            desk.keep_work();
        };
        edit(&mut desk, "one");
        let warnings = |desk: &Desk| {
            let kept = desk.notices().kept();
            kept.filter(|one| one.is_problem && one.text.contains("that keeps it has failed"))
                .count()
        };
        let is_told = (0..1000).any(|_| {
            thread::sleep(Duration::from_millis(5));
            desk.hear_news();
            warnings(&desk) > 0
        });
        assert!(is_told, "it failed without a word");
        edit(&mut desk, "two");
        desk.hear_news();
        assert_eq!(warnings(&desk), 1);
    }
}
