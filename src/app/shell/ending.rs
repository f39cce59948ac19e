//! Ends that nobody asked the window for: told to end from outside, or the display lost. What is not
//! saved is on the disk before the program is gone.

use crate::command::{Problem, terminal};
use crate::store::recovery::Flusher;

/// Holds the program ready for such an end while the window is open.
#[derive(Debug)]
pub struct Ready(());

impl Ready {
    /// From here on, on the thread of the window.
    pub fn with(flusher: Flusher) -> Self {
        #[cfg(unix)]
        {
            on_signals(flusher.clone());
            lost::DISPLAY.set(Some(lost::Lost(flusher)));
        }
        #[cfg(not(unix))]
        drop(flusher);
        Self(())
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
fn on_signals(flusher: Flusher) {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    let Ok(mut signals) = Signals::new([SIGTERM, SIGINT, SIGHUP]) else {
        return;
    };
    let waiting = std::thread::Builder::new().name("signals".to_owned());
    // Without a thread a signal ends the program later: what was kept by then stays.
    let _ = waiting.spawn(move || {
        if signals.forever().next().is_some() {
            let _ = flusher.flush();
            signal_hook::low_level::exit(0);
        }
    });
}

/// The display lost. The library that talks to an X server then ends the program where it stands,
/// with a code of its own and without coming back. Ending so still drops what belongs to the thread,
/// which is the one place left to keep the work and to end with the code that is promised.
#[cfg(unix)]
mod lost {
    use std::cell::RefCell;

    use super::{Flusher, Problem};

    /// What is done once the display is lost.
    pub struct Lost(pub Flusher);

    thread_local! {
        pub static DISPLAY: RefCell<Option<Lost>> = const { RefCell::new(None) };
    }

    impl Drop for Lost {
        fn drop(&mut self) {
            let _ = self.0.flush();
            super::end_with(&Problem::DisplayLost);
        }
    }

    /// The display is not needed any more.
    pub fn disarm() {
        std::mem::forget(DISPLAY.take());
    }
}
