//! The keeper: a thread of its own that has a window's work written and looks after the file that is
//! open, so that the window never waits for a disk. Here are the orders it takes and the news it gives.

use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, OnceLock};
use std::thread::{self, JoinHandle};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use super::lookout::Lookout;
use super::mark::WindowMark;
use super::news::{Flushed, News};
use super::pending::{Kept, Pending, Unwritten};
use super::work::{Work, WrongText};
use crate::store::stamp::{Stamp, Watched};

/// The longest that an ending program waits for its work to be written.
const LONGEST_FLUSH: Duration = Duration::from_secs(5);

enum Order {
    Keep(u64, Box<Unwritten>),
    LetGo(u64),
    Watch(Option<Watched>),
    WatchBesides(u8, Option<Watched>),
    Look,
    Flush(Sender<Flushed>),
    End,
}

/// Keeps a window's work.
#[derive(Debug)]
pub struct Keeper {
    flusher: Flusher,
    news: Receiver<News>,
    thread: Option<JoinHandle<()>>,
    /// Held here too: a window whose keeper failed lives on, and no other start is offered its work.
    _mark: Arc<WindowMark>,
}

/// The unit of a sheet that is kept.
#[derive(Clone, Copy, Debug, Default)]
pub struct OfUnit<'a> {
    /// Where it is, for a sheet that is in no file.
    pub file: Option<&'a Path>,
    /// The number of its session, as long as that is on the desk.
    pub session: Option<u64>,
}

/// Has the work of a window written before the program ends.
#[derive(Clone, Debug)]
pub struct Flusher {
    orders: Sender<Order>,
    /// What became of the work when the keeper ended.
    ended: Arc<OnceLock<Flushed>>,
}

impl Flusher {
    /// Waits until the last work of every session is on the disk; whether it is.
    #[must_use]
    pub fn flush(&self) -> Flushed {
        let (done, is_done) = channel();
        let asked = self.orders.send(Order::Flush(done)).ok();
        let flushed = asked.and_then(|()| is_done.recv_timeout(LONGEST_FLUSH).ok());
        // A keeper that ended well wrote all it could.
        flushed
            .or_else(|| self.ended.get().copied())
            .unwrap_or(Flushed::Unkept)
    }
}

impl Keeper {
    /// Begins to keep a window's work in a folder; `wake` has the window look at the news.
    ///
    /// # Errors
    /// When the folder cannot be made or written.
    pub fn new(folder: &Path, wake: impl Fn() + Send + Sync + 'static) -> io::Result<Self> {
        let mark = Arc::new(WindowMark::new(folder)?);
        let held = Arc::clone(&mark);
        let (orders, receiver) = channel();
        let ended = Arc::new(OnceLock::new());
        let at_end = Arc::clone(&ended);
        let (sender, news) = channel();
        let tell = move |news| {
            // Nobody looks any more once the window is gone.
            let _ = sender.send(news);
            wake();
        };
        let thread = thread::Builder::new()
            .name("keeper".to_owned())
            .spawn(move || {
                let post = Post {
                    mark,
                    pending: Pending::default(),
                    lookout: Lookout::default(),
                    tell: &tell,
                };
                // What it panicked over is on the terminal; here it is told that it did.
                match catch_unwind(AssertUnwindSafe(|| post.serve(&receiver))) {
                    Ok(flushed) => {
                        // It ends once.
                        let _ = at_end.set(flushed);
                    }
                    Err(_) => tell(News::Stopped),
                }
            })?;
        Ok(Self {
            flusher: Flusher { orders, ended },
            news,
            thread: Some(thread),
            _mark: held,
        })
    }

    /// Keeps a document and the wrong texts in fields, in place of what was kept of the same session:
    /// a number that no other session of the window has.
    pub fn keep(
        &self,
        session: u64,
        document: Kept,
        wrong: Vec<WrongText>,
        file: Option<&Path>,
        stamp: Option<Stamp>,
    ) {
        self.keep_of_unit(session, document, wrong, file, stamp, OfUnit::default());
    }

    /// The same of a sheet, with its unit.
    pub fn keep_of_unit(
        &self,
        session: u64,
        document: Kept,
        wrong: Vec<WrongText>,
        file: Option<&Path>,
        stamp: Option<Stamp>,
        unit: OfUnit<'_>,
    ) {
        let now = SystemTime::now().duration_since(UNIX_EPOCH);
        let work = Work {
            document: String::new(),
            wrong,
            file: file.map(Path::to_owned),
            stamp,
            unit: unit.file.map(Path::to_owned),
            session,
            begun_for: unit.session,
            time: now.map_or(0, |time| time.as_secs()),
            process: std::process::id(),
        };
        self.order(Order::Keep(session, Box::new(Unwritten { document, work })));
    }

    /// Removes what was kept of a session: it is saved, or was given up.
    pub fn let_go(&self, session: u64) {
        self.order(Order::LetGo(session));
    }

    /// Looks after a file from here on, and tells other windows that it is open; none while the
    /// document is in no file.
    pub fn watch(&self, watched: Option<Watched>) {
        self.order(Order::Watch(watched));
    }

    /// Looks after a further file from here on, one for each kind of work beside the units; none while none
    /// of that kind is open.
    pub fn watch_besides(&self, kind: u8, watched: Option<Watched>) {
        self.order(Order::WatchBesides(kind, watched));
    }

    /// Looks at the files at once.
    pub fn look(&self) {
        self.order(Order::Look);
    }

    /// What there is to tell since this was last asked.
    pub fn news(&self) -> impl Iterator<Item = News> {
        self.news.try_iter()
    }

    /// What has the work written before the program ends.
    #[must_use]
    pub fn flusher(&self) -> Flusher {
        self.flusher.clone()
    }

    fn order(&self, order: Order) {
        // It goes nowhere once the keeper failed, which is told as news.
        let _ = self.flusher.orders.send(order);
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        self.order(Order::End);
        if let Some(thread) = self.thread.take() {
            // It panicked, or it has done what it had to.
            let _ = thread.join();
        }
    }
}

/// What the keeper's thread works on.
struct Post<'a> {
    mark: Arc<WindowMark>,
    pending: Pending,
    lookout: Lookout,
    tell: &'a dyn Fn(News),
}

impl Post<'_> {
    /// Works until it is told to end; what became of the work then.
    fn serve(mut self, orders: &Receiver<Order>) -> Flushed {
        loop {
            let order = match self.rest() {
                Some(rest) => orders.recv_timeout(rest),
                None => orders.recv().map_err(|_| RecvTimeoutError::Disconnected),
            };
            match order {
                Ok(Order::Keep(session, work)) => self.pending.write(session, work),
                Ok(Order::LetGo(session)) => {
                    self.pending.remove(session);
                    self.settle();
                }
                Ok(Order::Watch(watched)) => {
                    self.lookout.watch(&self.mark, watched);
                    self.look();
                }
                Ok(Order::WatchBesides(kind, watched)) => {
                    self.lookout.watch_besides(kind, watched);
                    self.look();
                }
                Ok(Order::Look) => self.look(),
                Ok(Order::Flush(done)) => {
                    self.settle();
                    // Whoever asked may have stopped waiting.
                    let _ = done.send(self.pending.flushed());
                }
                Err(RecvTimeoutError::Timeout) => {}
                Ok(Order::End) | Err(RecvTimeoutError::Disconnected) => {
                    self.settle();
                    return self.pending.flushed();
                }
            }
            if self.pending.rest().is_some_and(|rest| rest.is_zero()) {
                self.settle();
            }
            if self.lookout.rest().is_some_and(|rest| rest.is_zero()) {
                self.look();
            }
        }
    }

    /// How long there is no work to do; none until there is another order.
    fn rest(&self) -> Option<Duration> {
        let rests = [self.pending.rest(), self.lookout.rest()];
        rests.into_iter().flatten().min()
    }

    fn settle(&mut self) {
        self.pending
            .settle(&self.mark)
            .into_iter()
            .for_each(self.tell);
    }

    fn look(&mut self) {
        self.lookout
            .look(&self.mark)
            .into_iter()
            .for_each(self.tell);
    }
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::PathBuf;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::time::Instant;

    use super::super::left_behind;
    use super::super::mark::{WORK, files_with_ending};
    use super::*;
    use crate::store::OnDisk;
    use crate::unit;

    const UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

    fn document(name: &str) -> Kept {
        let mut document = unit::parse_text(UNIT).expect("the demo unit is right");
        name.clone_into(&mut document.name);
        Kept::Unit(Arc::new(document))
    }

    /// The names of the units in the recovery files of a folder.
    fn all_kept_in(folder: &Path) -> Vec<String> {
        let is_work = |path: &PathBuf| path.extension().is_some_and(|ending| ending == "recovery");
        let files = fs::read_dir(folder).expect("a folder");
        let files = files.map(|entry| entry.expect("a file").path());
        let mut names: Vec<_> = files
            .filter(is_work)
            .map(|file| {
                let work = Work::read(&file).expect("it is whole");
                unit::parse_text(&work.document).expect("a unit").name
            })
            .collect();
        names.sort();
        names
    }

    /// The name of the unit in the one recovery file of a folder.
    fn kept_in(folder: &Path) -> Option<String> {
        let names = all_kept_in(folder);
        assert!(names.len() < 2, "{names:?}");
        names.into_iter().next()
    }

    #[test]
    fn every_session_is_kept_by_itself() {
        let folder = tempfile::tempdir().expect("a folder");
        let keeper = Keeper::new(folder.path(), || ()).expect("a keeper");
        let flusher = keeper.flusher();
        for session in [7, 11, 12] {
            let named = document(&format!("unit {session}"));
            keeper.keep(session, named, Vec::new(), None, None);
        }
        assert_eq!(flusher.flush(), Flushed::Kept);
        assert_eq!(all_kept_in(folder.path()), ["unit 11", "unit 12", "unit 7"]);
        keeper.keep(7, document("unit 7 again"), Vec::new(), None, None);
        keeper.let_go(11);
        assert_eq!(flusher.flush(), Flushed::Kept);
        assert_eq!(all_kept_in(folder.path()), ["unit 12", "unit 7 again"]);
        drop(keeper);
        let left = left_behind(folder.path());
        assert_eq!(left.works.len(), 2);
        assert!(left_behind(folder.path()).works.is_empty(), "offered twice");
    }

    #[test]
    fn the_last_work_is_kept_until_it_is_let_go() {
        let folder = tempfile::tempdir().expect("a folder");
        let keeper = Keeper::new(folder.path(), || ()).expect("a keeper");
        let flusher = keeper.flusher();
        for count in 0..50 {
            keeper.keep(
                1,
                document(&format!("unit {count}")),
                Vec::new(),
                None,
                None,
            );
        }
        assert_eq!(flusher.flush(), Flushed::Kept);
        assert_eq!(kept_in(folder.path()).as_deref(), Some("unit 49"));
        keeper.let_go(1);
        assert_eq!(flusher.flush(), Flushed::NoneToKeep);
        assert_eq!(kept_in(folder.path()), None);
        keeper.keep(1, document("another"), Vec::new(), None, None);
        drop(keeper);
        assert_eq!(flusher.flush(), Flushed::Kept, "it ended well");
        let left = left_behind(folder.path());
        assert_eq!(
            left.works.len(),
            1,
            "what was not let go outlives its window"
        );
    }

    #[test]
    fn work_is_on_the_disk_within_two_seconds_with_nobody_asking() {
        let folder = tempfile::tempdir().expect("a folder");
        let keeper = Keeper::new(folder.path(), || ()).expect("a keeper");
        for count in 0..8 {
            keeper.keep(
                1,
                document(&format!("unit {count}")),
                Vec::new(),
                None,
                None,
            );
            thread::sleep(Duration::from_millis(60));
        }
        let changed = Instant::now();
        while kept_in(folder.path()).as_deref() != Some("unit 7") {
            assert!(changed.elapsed() < Duration::from_secs(2), "too late");
            thread::sleep(Duration::from_millis(20));
        }
    }

    #[test]
    fn work_that_cannot_be_kept_is_told_once_and_kept_when_it_can_be() {
        let folder = tempfile::tempdir().expect("a folder");
        let within = folder.path().join("recovery");
        let keeper = Keeper::new(&within, || ()).expect("a keeper");
        let flusher = keeper.flusher();
        fs::remove_dir_all(&within).expect("it goes");
        for count in 0..3 {
            keeper.keep(
                1,
                document(&format!("unit {count}")),
                Vec::new(),
                None,
                None,
            );
            assert_eq!(flusher.flush(), Flushed::Unkept);
        }
        let news: Vec<_> = keeper.news().collect();
        assert!(matches!(news[..], [News::Unkept(_)]), "{news:?}");
        fs::create_dir(&within).expect("it is back");
        assert_eq!(flusher.flush(), Flushed::Kept);
        assert_eq!(kept_in(&within).as_deref(), Some("unit 2"));
    }

    #[test]
    fn what_cannot_be_removed_is_tried_again_and_told_once() {
        let folder = tempfile::tempdir().expect("a folder");
        let keeper = Keeper::new(folder.path(), || ()).expect("a keeper");
        let flusher = keeper.flusher();
        keeper.keep(1, document("one"), Vec::new(), None, None);
        assert_eq!(flusher.flush(), Flushed::Kept);
        let [file] = &files_with_ending(folder.path(), WORK)[..] else {
            panic!("one file of work");
        };
        // A folder in its place is removed as a file by nobody.
        fs::remove_file(file).expect("it goes");
        fs::create_dir(file).expect("a folder");
        keeper.let_go(1);
        for _ in 0..3 {
            assert_eq!(flusher.flush(), Flushed::NoneToKeep);
        }
        let news: Vec<_> = keeper.news().collect();
        assert!(matches!(news[..], [News::Unremoved(_)]), "{news:?}");
        // Other work is kept meanwhile.
        keeper.keep(2, document("two"), Vec::new(), None, None);
        assert_eq!(flusher.flush(), Flushed::Kept);
        fs::remove_dir(file).expect("it goes");
        fs::write(file, "work that nobody wants any more").expect("it is written");
        assert_eq!(flusher.flush(), Flushed::Kept);
        assert!(!file.exists(), "it is offered at the next start");
        assert_eq!(keeper.news().count(), 0);
    }

    #[test]
    fn a_keeper_that_failed_says_so_and_keeps_none() {
        let folder = tempfile::tempdir().expect("a folder");
        let within = folder.path().join("recovery");
        let is_waking = AtomicBool::new(true);
        let keeper = Keeper::new(&within, move || {
            assert!(!is_waking.swap(false, Ordering::Relaxed), "it fails");
        });
        let keeper = keeper.expect("a keeper");
        let flusher = keeper.flusher();
        keeper.keep(2, document("kept before"), Vec::new(), None, None);
        assert_eq!(flusher.flush(), Flushed::Kept);
        let [kept] = &files_with_ending(&within, WORK)[..] else {
            panic!("one file of work");
        };
        // A folder in its place is removed as a file by nobody, which is told and fails.
        fs::rename(kept, within.join("aside")).expect("it goes");
        fs::create_dir(kept).expect("a folder");
        keeper.let_go(2);
        keeper.keep(1, document("one"), Vec::new(), None, None);
        assert_eq!(flusher.flush(), Flushed::Unkept);
        let told = (0..1000).any(|_| {
            thread::sleep(Duration::from_millis(5));
            keeper.news().any(|news| news == News::Stopped)
        });
        assert!(told, "it failed without a word");
        keeper.keep(1, document("two"), Vec::new(), None, None);
        assert_eq!(flusher.flush(), Flushed::Unkept);
        fs::remove_dir(kept).expect("it goes");
        fs::rename(within.join("aside"), kept).expect("it is back");
        let is_offered = || {
            let works = left_behind(&within).works;
            let mut texts = works.iter().map(|left| &left.work.document);
            texts.any(|text| text.contains("kept before"))
        };
        assert!(!is_offered(), "the window lives");
        drop(keeper);
        assert!(is_offered());
    }

    #[test]
    fn a_change_from_outside_is_told_once_and_so_is_another_window() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("unit.ron");
        fs::write(&file, UNIT).expect("it is written");
        let within = folder.path().join("recovery");
        let [keeper, other] = [(); 2].map(|()| Keeper::new(&within, || ()).expect("a keeper"));
        let since = Stamp::of(&file);
        let watched = || Some(Watched::new(file.clone(), since));
        let others = |others| News::Others {
            file: file.clone(),
            others,
        };
        let on_disk = |seen| News::OnDisk {
            file: file.clone(),
            since,
            seen,
        };
        let told = |keeper: &Keeper| {
            keeper.look();
            let _ = keeper.flusher().flush();
            keeper.news().collect::<Vec<_>>()
        };
        keeper.watch(watched());
        assert_eq!(told(&keeper), []);
        other.watch(watched());
        assert_eq!(told(&other), [others(1)]);
        assert_eq!(told(&keeper), [others(1)]);
        fs::write(&file, "else").expect("it is written");
        let seen = OnDisk::Changed(Stamp::of(&file).expect("a file"));
        assert_eq!(told(&keeper), [on_disk(seen)]);
        assert_eq!(told(&keeper), []);
        fs::remove_file(&file).expect("it goes");
        assert_eq!(told(&keeper), [on_disk(OnDisk::Gone)]);
        drop(other);
    }
}
