//! The system's own programs, for files that were written.

use std::path::Path;
use std::sync::mpsc::channel;
use std::thread;
use std::time::Duration;

use egui::Context;

use crate::app::desk::{Opener, Opening};

/// How long a program that starts is watched: one that cannot open the file gives up sooner.
const LONGEST_LOOK: Duration = Duration::from_secs(5);

/// The system's own programs. Each is started and watched on a thread of its own, so that the window goes
/// on; it stays open when the window closes.
#[derive(Clone, Debug)]
pub struct SystemOpener {
    ctx: Context,
}

impl SystemOpener {
    /// An opener that has a window look again once it is known whether a file was opened.
    pub fn new(ctx: Context) -> Self {
        Self { ctx }
    }
}

impl Opener for SystemOpener {
    fn open(&self, file: &Path) -> Opening {
        let (sender, opening) = channel();
        let (file, ctx) = (file.to_owned(), self.ctx.clone());
        let starting = thread::Builder::new().name("opener".to_owned());
        // Without a thread the sender is dropped, which counts as not opened.
        let _ = starting.spawn(move || {
            if open::that_detached_with_timeout(file, LONGEST_LOOK).is_ok() {
                // The window may be closed by now.
                let _ = sender.send(());
            }
            // Before the window looks.
            drop(sender);
            ctx.request_repaint();
        });
        opening
    }
}
