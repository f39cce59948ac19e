//! What stands on the disk: read on a thread of its own, and read again when its folder changes.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::Duration;

use egui::Context;

use crate::store::FolderWatch;

/// How long after a change it is read again: many files are written in many steps.
const SETTLING: Duration = Duration::from_millis(120);

/// What came of reading: what stands there, or why it cannot be read.
type Read<T> = Result<T, String>;

/// Something on the disk that is shown, kept as fresh as it stands there.
pub struct Fresh<T> {
    path: PathBuf,
    /// The folder that is watched.
    folder: PathBuf,
    read_it: fn(&Path) -> Read<T>,
    /// What was read last, shared with whoever shows it.
    read: Option<Arc<Read<T>>>,
    /// Which reading that is.
    number: u64,
    reading: Option<Receiver<Read<T>>>,
    is_changed: Arc<AtomicBool>,
    /// The watch, or why there is none.
    watch: Result<FolderWatch, String>,
}

impl<T: Send + 'static> Fresh<T> {
    /// Begins to read what is at a path, and to watch the folder it stands in.
    pub fn open(path: &Path, folder: &Path, ctx: &Context, read_it: fn(&Path) -> Read<T>) -> Self {
        let is_changed = Arc::new(AtomicBool::new(false));
        let watch = watched(folder, &is_changed, ctx);
        let mut fresh = Self {
            path: path.to_owned(),
            folder: folder.to_owned(),
            read_it,
            read: None,
            number: 0,
            reading: None,
            is_changed,
            watch,
        };
        fresh.begin_reading(Duration::ZERO, ctx);
        fresh
    }

    /// What is read.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What was read last; none before it was read once.
    pub fn read(&self) -> Option<&Arc<Read<T>>> {
        self.read.as_ref()
    }

    /// Which reading that is: a number that no other reading has, of this path or of another.
    pub fn number(&self) -> u64 {
        self.number
    }

    /// Whether it is being read.
    pub fn is_reading(&self) -> bool {
        self.reading.is_some()
    }

    /// Why changes do not show by themselves; none where they do.
    pub fn why_not_watched(&self) -> Option<&str> {
        self.watch.as_ref().err().map(String::as_str)
    }

    /// Has it read again, and its folder watched anew: another folder may stand there by now.
    pub fn refresh(&mut self, ctx: &Context) {
        self.watch = watched(&self.folder, &self.is_changed, ctx);
        self.is_changed.store(true, Ordering::Relaxed);
        ctx.request_repaint();
    }

    /// Takes what was read since the last frame, and begins anew where something changed.
    pub fn look(&mut self, ctx: &Context) {
        let come = self.reading.as_ref().map(Receiver::try_recv);
        let read = match come {
            Some(Ok(read)) => Some(read),
            Some(Err(TryRecvError::Disconnected)) => {
                Some(Err("reading it stopped half-way".to_owned()))
            }
            Some(Err(TryRecvError::Empty)) | None => None,
        };
        if let Some(read) = read {
            self.read = Some(Arc::new(read));
            self.number = next_number();
            self.reading = None;
        }
        if self.reading.is_none() && self.is_changed.swap(false, Ordering::Relaxed) {
            self.begin_reading(SETTLING, ctx);
        }
    }

    fn begin_reading(&mut self, after: Duration, ctx: &Context) {
        let (sender, reading) = channel();
        let (path, ctx, read_it) = (self.path.clone(), ctx.clone(), self.read_it);
        let thread = thread::Builder::new().name("reading".to_owned());
        // Without a thread the sender is dropped, which is told.
        let _ = thread.spawn(move || {
            thread::sleep(after);
            // Nobody waits any more when something else is shown.
            let _ = sender.send(read_it(&path));
            drop(sender);
            ctx.request_repaint();
        });
        self.reading = Some(reading);
    }
}

fn watched(
    folder: &Path,
    is_changed: &Arc<AtomicBool>,
    ctx: &Context,
) -> Result<FolderWatch, String> {
    let (is_changed, ctx) = (Arc::clone(is_changed), ctx.clone());
    FolderWatch::new(folder, move || {
        is_changed.store(true, Ordering::Relaxed);
        ctx.request_repaint();
    })
}

fn next_number() -> u64 {
    static LAST: AtomicU64 = AtomicU64::new(0);
    LAST.fetch_add(1, Ordering::Relaxed) + 1
}
