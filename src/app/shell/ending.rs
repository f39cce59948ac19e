//! Ends that nobody asked the window for: told to end from outside, or the display lost. What is not
//! saved is on the disk before the program is gone.

use std::path::PathBuf;

use crate::app::desk::LastWork;
use crate::command::{Problem, terminal};
use crate::store::recovery::Flushed;

/// What is open when such an end comes.
#[derive(Clone, Debug)]
pub enum Open {
    /// A window in which a person works.
    Work(LastWork),
    /// One that is shown for a shot, and where that is to be saved. It has no work of its own.
    Shot(PathBuf),
}

impl Open {
    /// Has what is not saved written; why the program then ends as it does, none where it was told to
    /// end and has.
    fn told_to_end(&self) -> Option<Problem> {
        match self {
            Self::Work(work) => match work.flush() {
                Flushed::NoneToKeep | Flushed::Kept => None,
                Flushed::Unkept => Some(Problem::EndedWithLoss),
            },
            Self::Shot(file) => Some(Problem::ShotEnded { file: file.clone() }),
        }
    }

    /// Has what is not saved written once the display is lost; what there is to say.
    pub fn display_lost(&self) -> Problem {
        Problem::DisplayLost(match self {
            Self::Work(work) => work.flush(),
            Self::Shot(_) => Flushed::NoneToKeep,
        })
    }
}

/// Holds the program ready for such an end while the window is open.
#[derive(Debug)]
pub struct Ready(Open);

impl Ready {
    /// From here on, on the thread of the window.
    pub fn with(open: Open) -> Self {
        #[cfg(unix)]
        {
            on_signals(open.clone());
            lost::DISPLAY.set(Some(lost::Lost(open.clone())));
        }
        Self(open)
    }

    /// What is open.
    pub fn open(&self) -> &Open {
        &self.0
    }
}

impl Drop for Ready {
    /// The window closed by itself.
    fn drop(&mut self) {
        #[cfg(unix)]
        lost::disarm();
    }
}

/// Ends the program where it stands, on whatever thread, with the code that is promised for a problem.
pub fn end_with(problem: &Problem) -> ! {
    terminal::tell(problem);
    let code = i32::from(problem.code());
    #[cfg(unix)]
    signal_hook::low_level::exit(code);
    #[cfg(not(unix))]
    std::process::exit(code);
}

/// Told to end by the system or from a terminal: that is done as asked, with the work kept.
#[cfg(unix)]
fn on_signals(open: Open) {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    let Ok(mut signals) = Signals::new([SIGTERM, SIGINT, SIGHUP]) else {
        return;
    };
    let waiting = std::thread::Builder::new().name("signals".to_owned());
    // Without a thread a signal ends the program later: what was kept by then stays.
    let _ = waiting.spawn(move || {
        if signals.forever().next().is_some() {
            match open.told_to_end() {
                Some(problem) => end_with(&problem),
                None => signal_hook::low_level::exit(0),
            }
        }
    });
}

/// The display lost. The library that talks to an X server then ends the program where it stands,
/// with a code of its own and without coming back. Ending so still drops what belongs to the thread,
/// which is the one place left to keep the work and to end with the code that is promised.
#[cfg(unix)]
mod lost {
    use std::cell::RefCell;

    use super::Open;

    /// What is open when the display is lost.
    pub struct Lost(pub Open);

    thread_local! {
        pub static DISPLAY: RefCell<Option<Lost>> = const { RefCell::new(None) };
    }

    impl Drop for Lost {
        fn drop(&mut self) {
            super::end_with(&self.0.display_lost());
        }
    }

    /// The display is not needed any more.
    pub fn disarm() {
        std::mem::forget(DISPLAY.take());
    }
}
