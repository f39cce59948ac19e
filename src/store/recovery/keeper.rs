//! The keeper: writes a window's work, and looks after the file that is open, on a thread of its own
//! so that the window never waits for a disk.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use super::mark::{WindowMark, remove_if_there};
use super::work::{Work, WrongText};
use crate::store::stamp::{OnDisk, Stamp, Watched};
use crate::store::whole::WriteProblem;
use crate::unit::{self, Document};

/// The least time between two writings. Work is on the disk so long after it changed, at the most, and
/// as long as writing takes.
const BETWEEN_WRITINGS: Duration = Duration::from_millis(500);
/// The time until work is written again that could not be.
const UNTIL_ANOTHER_TRY: Duration = Duration::from_secs(3);
/// The time between two looks at the file that is open. A look asks for its length and time only.
const BETWEEN_LOOKS: Duration = Duration::from_secs(3);
/// A file that another program saves can be away for a moment.
const AWAY_FOR_A_MOMENT: Duration = Duration::from_millis(300);
/// The longest that an ending program waits for its work to be written.
const LONGEST_FLUSH: Duration = Duration::from_secs(5);

/// What the keeper has to tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum News {
    /// Work cannot be kept, and why; told once until it can be again.
    Unkept(String),
    /// A file that was looked after was changed or removed by something else.
    OnDisk {
        /// The file.
        file: PathBuf,
        /// What stood in it before; none for one that was gone.
        since: Option<Stamp>,
        /// How it stands now.
        seen: OnDisk,
    },
    /// Other windows have a file open that was looked after.
    Others {
        /// The file.
        file: PathBuf,
        /// So many.
        others: usize,
    },
}

enum Order {
    Keep(u64, Box<Sent>),
    LetGo(u64),
    Watch(Option<Watched>),
    Look,
    Flush(Sender<bool>),
    End,
}

struct Sent {
    document: Arc<Document>,
    work: Work,
}

/// Keeps a window's work.
#[derive(Debug)]
pub struct Keeper {
    orders: Sender<Order>,
    news: Receiver<News>,
    thread: Option<JoinHandle<()>>,
}

/// Has the work of a window written before the program ends.
#[derive(Clone, Debug)]
pub struct Flusher(Sender<Order>);

impl Flusher {
    /// Waits until the last work of every session is on the disk; whether there is some and it is.
    #[must_use]
    pub fn flush(&self) -> bool {
        let (done, is_done) = channel();
        self.0.send(Order::Flush(done)).is_ok()
            && is_done.recv_timeout(LONGEST_FLUSH).unwrap_or(false)
    }
}

impl Keeper {
    /// Begins to keep a window's work in a folder; `wake` has the window look at the news.
    ///
    /// # Errors
    /// When the folder cannot be made or written.
    pub fn new(folder: &Path, wake: impl Fn() + Send + 'static) -> io::Result<Self> {
        let mark = WindowMark::new(folder)?;
        let (orders, receiver) = channel();
        let (sender, news) = channel();
        let keeping = Keeping {
            mark,
            waiting: BTreeMap::new(),
            kept: BTreeSet::new(),
            is_in_trouble: false,
            last_writing: None,
            watched: None,
            last_look: Instant::now(),
            told: OnDisk::Same,
            others: 0,
            news: Box::new(move |news| {
                // Nobody looks any more once the window is gone.
                let _ = sender.send(news);
                wake();
            }),
        };
        let thread = thread::Builder::new()
            .name("keeper".to_owned())
            .spawn(move || keeping.run(&receiver))?;
        Ok(Self {
            orders,
            news,
            thread: Some(thread),
        })
    }

    /// Keeps a document and the wrong texts in fields, in place of what was kept of the same session:
    /// a number that no other session of the window has.
    pub fn keep(
        &self,
        session: u64,
        document: Arc<Document>,
        wrong: Vec<WrongText>,
        file: Option<&Path>,
        stamp: Option<Stamp>,
    ) {
        let now = SystemTime::now().duration_since(UNIX_EPOCH);
        let work = Work {
            document: String::new(),
            wrong,
            file: file.map(Path::to_owned),
            stamp,
            time: now.map_or(0, |time| time.as_secs()),
            process: std::process::id(),
        };
        self.order(Order::Keep(session, Box::new(Sent { document, work })));
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

    /// Looks at the file at once.
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
        Flusher(self.orders.clone())
    }

    fn order(&self, order: Order) {
        // The thread ends after this does.
        let _ = self.orders.send(order);
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

/// What is still to be done to the recovery file of a session.
enum Waiting {
    Write(Box<Sent>),
    Remove,
}

/// What the keeper's thread works on.
struct Keeping {
    mark: WindowMark,
    /// By session.
    waiting: BTreeMap<u64, Waiting>,
    /// The sessions whose last work is on the disk.
    kept: BTreeSet<u64>,
    is_in_trouble: bool,
    last_writing: Option<Instant>,
    watched: Option<Watched>,
    last_look: Instant,
    /// What was last told of the watched file.
    told: OnDisk,
    others: usize,
    news: Box<dyn Fn(News) + Send>,
}

impl Keeping {
    fn run(mut self, orders: &Receiver<Order>) {
        loop {
            let order = match self.rest() {
                Some(rest) => orders.recv_timeout(rest),
                None => orders.recv().map_err(|_| RecvTimeoutError::Disconnected),
            };
            match order {
                Ok(Order::Keep(session, sent)) => {
                    self.waiting.insert(session, Waiting::Write(sent));
                }
                Ok(Order::LetGo(session)) => {
                    self.waiting.insert(session, Waiting::Remove);
                    self.settle();
                }
                Ok(Order::Watch(watched)) => self.watch(watched),
                Ok(Order::Look) => self.look(),
                Ok(Order::Flush(done)) => {
                    self.settle();
                    // Whoever asked may have stopped waiting.
                    let _ = done.send(self.waiting.is_empty() && !self.kept.is_empty());
                }
                Err(RecvTimeoutError::Timeout) => {}
                Ok(Order::End) | Err(RecvTimeoutError::Disconnected) => {
                    self.settle();
                    return;
                }
            }
            if self.is_waiting() && self.until_writing().is_zero() {
                self.settle();
            }
            if self.watched.is_some() && self.until_look().is_zero() {
                self.look();
            }
        }
    }

    /// How long there is no work to do; none until there is another order.
    fn rest(&self) -> Option<Duration> {
        let writing = self.is_waiting().then(|| self.until_writing());
        let look = self.watched.as_ref().map(|_| self.until_look());
        writing.into_iter().chain(look).min()
    }

    fn is_waiting(&self) -> bool {
        !self.waiting.is_empty()
    }

    fn until_writing(&self) -> Duration {
        let pause = if self.is_in_trouble {
            UNTIL_ANOTHER_TRY
        } else {
            BETWEEN_WRITINGS
        };
        self.last_writing
            .map_or(Duration::ZERO, |last| pause.saturating_sub(last.elapsed()))
    }

    fn until_look(&self) -> Duration {
        BETWEEN_LOOKS.saturating_sub(self.last_look.elapsed())
    }

    /// Writes or removes what waits for it.
    fn settle(&mut self) {
        if self.waiting.is_empty() {
            return;
        }
        let mut trouble = None;
        for (session, waiting) in std::mem::take(&mut self.waiting) {
            trouble = self.settle_one(session, waiting).err().or(trouble);
        }
        self.last_writing = Some(Instant::now());
        let was_in_trouble = std::mem::replace(&mut self.is_in_trouble, trouble.is_some());
        if let Some(error) = trouble
            && !was_in_trouble
        {
            (self.news)(News::Unkept(error.to_string()));
        }
    }

    fn settle_one(&mut self, session: u64, waiting: Waiting) -> Result<(), WriteProblem> {
        let file = self.mark.work_file(session);
        self.kept.remove(&session);
        match waiting {
            Waiting::Remove => remove_if_there(&file).map_err(WriteProblem::Other),
            Waiting::Write(mut sent) => {
                sent.work.document = unit::write_text(&sent.document);
                let done = sent.work.write(&file);
                if done.is_ok() {
                    self.kept.insert(session);
                } else {
                    self.waiting.insert(session, Waiting::Write(sent));
                }
                done
            }
        }
    }

    fn watch(&mut self, watched: Option<Watched>) {
        // A folder that cannot be written is told when work is to be kept.
        let _ = self.mark.opens(watched.as_ref().map(Watched::file));
        self.watched = watched;
        self.told = OnDisk::Same;
        self.others = 0;
        self.look();
    }

    fn look(&mut self) {
        self.last_look = Instant::now();
        let Some(watched) = &mut self.watched else {
            return;
        };
        let mut seen = watched.look();
        if seen == OnDisk::Gone {
            thread::sleep(AWAY_FOR_A_MOMENT);
            seen = watched.look();
        }
        let others = self.mark.others_on(watched.file());
        if std::mem::replace(&mut self.told, seen) != seen && seen != OnDisk::Same {
            (self.news)(News::OnDisk {
                file: watched.file().to_owned(),
                since: watched.stamp(),
                seen,
            });
        }
        if std::mem::replace(&mut self.others, others) != others {
            let file = watched.file().to_owned();
            (self.news)(News::Others { file, others });
        }
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::super::left_behind;
    use super::*;

    const UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

    fn document(name: &str) -> Arc<Document> {
        let mut document = unit::parse_text(UNIT).expect("the demo unit is right");
        name.clone_into(&mut document.name);
        Arc::new(document)
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
        assert!(flusher.flush());
        assert_eq!(all_kept_in(folder.path()), ["unit 11", "unit 12", "unit 7"]);
        keeper.keep(7, document("unit 7 again"), Vec::new(), None, None);
        keeper.let_go(11);
        assert!(flusher.flush());
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
        assert!(flusher.flush());
        assert_eq!(kept_in(folder.path()).as_deref(), Some("unit 49"));
        keeper.let_go(1);
        assert!(!flusher.flush());
        assert_eq!(kept_in(folder.path()), None);
        keeper.keep(1, document("another"), Vec::new(), None, None);
        drop(keeper);
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
            assert!(!flusher.flush());
        }
        let news: Vec<_> = keeper.news().collect();
        assert!(matches!(news[..], [News::Unkept(_)]), "{news:?}");
        fs::create_dir(&within).expect("it is back");
        assert!(flusher.flush());
        assert_eq!(kept_in(&within).as_deref(), Some("unit 2"));
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
