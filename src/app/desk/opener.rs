//! Opening what was written with the program that the system has for it, as a sheet with its PDF viewer.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// What comes of opening a file: an answer once a program took it, closed without one where none did.
pub type Opening = Receiver<()>;

/// Opens a file outside the window: the system's own program for it, something else in tests. The window
/// goes on meanwhile.
pub trait Opener {
    /// Has a file opened.
    fn open(&self, file: &Path) -> Opening;
}

/// A system that has a program for none: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoOpener;

impl Opener for NoOpener {
    fn open(&self, _: &Path) -> Opening {
        channel().1
    }
}

/// The opener, and the files that no answer came for yet.
pub struct Outside {
    opener: Box<dyn Opener>,
    awaited: Vec<(Outgoing, Opening)>,
}

/// A file that is opened outside the window, and what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outgoing {
    /// It was saved, and stays.
    Saved(PathBuf),
    /// It is a copy to print from, of no use where no program opens it.
    ToPrint(PathBuf),
}

impl Outgoing {
    fn file(&self) -> &Path {
        match self {
            Self::Saved(file) | Self::ToPrint(file) => file,
        }
    }
}

impl Default for Outside {
    fn default() -> Self {
        Self {
            opener: Box::new(NoOpener),
            awaited: Vec::new(),
        }
    }
}

impl Outside {
    /// Has files opened by this opener from here on.
    pub fn open_with(&mut self, opener: Box<dyn Opener>) {
        self.opener = opener;
    }

    /// Has a file opened.
    pub fn open(&mut self, file: Outgoing) {
        let opening = self.opener.open(file.file());
        self.awaited.push((file, opening));
    }

    /// The files of which it is known since the last look that no program opened them.
    pub fn take_unopened(&mut self) -> Vec<Outgoing> {
        let mut unopened = Vec::new();
        self.awaited
            .retain(|(file, opening)| match opening.try_recv() {
                Ok(()) => false,
                Err(TryRecvError::Empty) => true,
                Err(TryRecvError::Disconnected) => {
                    unopened.push(file.clone());
                    false
                }
            });
        unopened
    }
}
