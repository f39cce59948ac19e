//! What the keeper has to tell, and its answer when work is to be on the disk at once.

use std::path::PathBuf;

use crate::store::stamp::{OnDisk, Stamp};

/// What the keeper has to tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum News {
    /// Work cannot be kept, and why; told once until it can be again.
    Unkept(String),
    /// What was kept of work that was saved or given up cannot be removed, tried more than once, and
    /// why; told once until it can be again.
    Unremoved(String),
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
    /// The keeper failed and is gone: no work is kept from here on, and there is no more news.
    Stopped,
}

/// What became of a window's work, when it was to be on the disk at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flushed {
    /// No session has something to lose.
    NoneToKeep,
    /// The last work of every session that has something to lose is on the disk.
    Kept,
    /// Some of it is not, or may not be: it could not be written, or not in good time.
    Unkept,
}
