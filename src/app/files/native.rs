//! The desktop's own dialogs.

use std::path::PathBuf;
use std::sync::mpsc::channel;
use std::thread;
use std::time::{Duration, Instant};

use egui::Context;
use rfd::AsyncFileDialog;

use crate::app::desk::{Ask, Choosing, Dialogs};

/// The least time in which a person sees a dialog and puts it away.
const LEAST_LOOK: Duration = Duration::from_millis(400);

/// The desktop's own dialogs. Each waits on a thread of its own, so that the window goes on.
#[derive(Clone, Debug)]
pub struct NativeDialogs {
    ctx: Context,
}

impl NativeDialogs {
    /// Dialogs that have a window look again once something is chosen.
    pub fn new(ctx: Context) -> Self {
        Self { ctx }
    }
}

impl Dialogs for NativeDialogs {
    fn ask(&self, ask: &Ask) -> Choosing {
        let (title, (kind, endings), name) = match ask {
            Ask::UnitToOpen => ("Open a unit", UNIT, None),
            Ask::PlaceForUnit(name) => ("Save the unit", UNIT, Some(name)),
            Ask::FolderOfUnits => ("Choose a folder of units", UNIT, None),
            Ask::RowsToRead => ("Read knives", ROWS, None),
            Ask::PlaceForRows(name) => ("Write the knives", ROWS, Some(name)),
            Ask::PlaceForSheet(name) => ("Save the sheet", SHEET, Some(name)),
            Ask::WorksheetToOpen => ("Open a plate sheet", WORKSHEET, None),
            Ask::PlaceForWorksheet(name) => ("Save the plate sheet", WORKSHEET, Some(name)),
            Ask::LessonToOpen => ("Open a lesson", LESSON, None),
            Ask::PlaceForLesson(name) => ("Save the lesson", LESSON, Some(name)),
            Ask::PlaceForPicture(name) => ("Save the picture", PICTURE, Some(name)),
        };
        let dialog = AsyncFileDialog::new()
            .set_title(title)
            .add_filter(kind, endings);
        // Some desktops want a dialog made on the window's own thread; none minds where it is waited
        // for.
        if *ask == Ask::FolderOfUnits {
            return self.wait(AsyncFileDialog::new().set_title(title).pick_folder());
        }
        match name {
            None => self.wait(dialog.pick_file()),
            Some(name) => self.wait(dialog.set_file_name(name).save_file()),
        }
    }
}

type Filter = (&'static str, &'static [&'static str]);
const UNIT: Filter = ("Unit file", &["ron"]);
const SHEET: Filter = ("PDF", &["pdf"]);
const WORKSHEET: Filter = ("Plate sheet", &["ron"]);
const LESSON: Filter = ("Lesson", &["ron"]);
const PICTURE: Filter = ("Picture", &["png", "svg", "pdf"]);
const ROWS: Filter = ("Rows of knives, CSV", &["csv", "tsv", "txt"]);

impl NativeDialogs {
    fn wait(
        &self,
        choice: impl Future<Output = Option<rfd::FileHandle>> + Send + 'static,
    ) -> Choosing {
        let (sender, choosing) = channel();
        let asked = Instant::now();
        let ctx = self.ctx.clone();
        let waiting = thread::Builder::new().name("dialog".to_owned());
        // Without a thread the sender is dropped, which counts as no choice.
        let _ = waiting.spawn(move || {
            let chosen = pollster::block_on(choice);
            let file = chosen.map(|file| PathBuf::from(file.path()));
            // A person takes longer to put a dialog away: there was none. Then no answer is given.
            if file.is_some() || asked.elapsed() >= LEAST_LOOK {
                // Nobody waits any more when it was given up.
                let _ = sender.send(file);
            }
            // Before the window looks.
            drop(sender);
            ctx.request_repaint();
        });
        choosing
    }
}
