//! A folder of units: read on a thread of its own, and read again when something else stands in it.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::Duration;

use egui::Context;

use crate::command::ShopBoard;
use crate::store::FolderWatch;

/// How long after a change the folder is read again: many files are written in many steps.
const SETTLING: Duration = Duration::from_millis(120);

/// What came of reading a folder: its units, or why there are none.
type Read = Result<ShopBoard, String>;

/// A folder that is open on the board.
pub struct Folder {
    path: PathBuf,
    /// What was read last, shared with whoever shows it.
    read: Option<Arc<Read>>,
    /// How often it was read.
    count: u64,
    reading: Option<Receiver<Read>>,
    is_changed: Arc<AtomicBool>,
    /// The watch, or why there is none.
    watch: Result<FolderWatch, String>,
}

impl Folder {
    /// Begins to read and to watch a folder.
    pub fn open(path: &Path, ctx: &Context) -> Self {
        let is_changed = Arc::new(AtomicBool::new(false));
        let watch = {
            let (is_changed, ctx) = (Arc::clone(&is_changed), ctx.clone());
            FolderWatch::new(path, move || {
                is_changed.store(true, Ordering::Relaxed);
                ctx.request_repaint();
            })
        };
        let mut folder = Self {
            path: path.to_owned(),
            read: None,
            count: 0,
            reading: None,
            is_changed,
            watch,
        };
        folder.begin_reading(Duration::ZERO, ctx);
        folder
    }

    /// The folder.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What was read last; none before it was read once.
    pub fn read(&self) -> Option<&Arc<Read>> {
        self.read.as_ref()
    }

    /// How often it was read.
    pub fn count(&self) -> u64 {
        self.count
    }

    /// Whether it is being read.
    pub fn is_reading(&self) -> bool {
        self.reading.is_some()
    }

    /// Why changes do not show by themselves; none where they do.
    pub fn why_not_watched(&self) -> Option<&str> {
        self.watch.as_ref().err().map(String::as_str)
    }

    /// Has it read again.
    pub fn refresh(&self) {
        self.is_changed.store(true, Ordering::Relaxed);
    }

    /// Takes what was read since the last frame, and begins anew where something changed.
    pub fn look(&mut self, ctx: &Context) {
        if let Some(reading) = &self.reading {
            match reading.try_recv() {
                Ok(read) => {
                    self.read = Some(Arc::new(read));
                    self.count += 1;
                    self.reading = None;
                }
                Err(TryRecvError::Empty) => {}
                Err(TryRecvError::Disconnected) => {
                    let why = "The folder could not be read: reading it broke off.".to_owned();
                    self.read = Some(Arc::new(Err(why)));
                    self.count += 1;
                    self.reading = None;
                }
            }
        }
        if self.reading.is_none() && self.is_changed.swap(false, Ordering::Relaxed) {
            self.begin_reading(SETTLING, ctx);
        }
    }

    fn begin_reading(&mut self, after: Duration, ctx: &Context) {
        let (sender, reading) = channel();
        let (path, ctx) = (self.path.clone(), ctx.clone());
        let thread = thread::Builder::new().name("shop folder".to_owned());
        // Without a thread the sender is dropped, which is told.
        let _ = thread.spawn(move || {
            thread::sleep(after);
            let read = ShopBoard::read(&path).map_err(|problem| problem.to_string());
            // Nobody waits any more when another folder was opened.
            let _ = sender.send(read);
            drop(sender);
            ctx.request_repaint();
        });
        self.reading = Some(reading);
    }
}
