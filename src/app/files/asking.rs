//! Asking a person for a file: what is done with it waits until it is chosen.

use std::path::PathBuf;
use std::sync::mpsc::TryRecvError;

use egui::Ui;

use crate::app::desk::{Ask, Beneath, Card, Choosing, Desk, Next};

/// What is done with the file that was chosen, none when nobody wanted one; whether it was done.
type Then = Box<dyn FnOnce(&mut Desk, Option<PathBuf>) -> bool>;

/// Asks a person for a file. The document stays as it is until it is chosen or given up. Whether what
/// follows was done, or waits.
pub fn ask(
    desk: &mut Desk,
    ask: &Ask,
    then: impl FnOnce(&mut Desk, Option<PathBuf>) -> bool + 'static,
) -> bool {
    let choosing = desk.dialogs().ask(ask);
    match choosing.try_recv() {
        Ok(file) => then(desk, file),
        Err(TryRecvError::Disconnected) => {
            desk.miss_dialog(ask.clone());
            then(desk, None)
        }
        Err(TryRecvError::Empty) => {
            desk.open_card(Waiting {
                ask: ask.clone(),
                choosing,
                then: Some(Box::new(then)),
                beneath: Beneath::default(),
            });
            true
        }
    }
}

/// A dialog is open in front of the window.
struct Waiting {
    ask: Ask,
    choosing: Choosing,
    then: Option<Then>,
    /// The card that asked, if it stays until this is done.
    beneath: Beneath,
}

impl Card for Waiting {
    fn name(&self) -> &'static str {
        "waiting for a file"
    }

    fn width(&self) -> f32 {
        360.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label("Choose a file in the dialog of the desktop.");
        ui.label("Where no dialog appears: File, Open a path or Save to a path.");
        ui.add_space(8.0);
        if ui.button("Cancel").clicked() {
            return self.put_away(desk);
        }
        let file = match self.choosing.try_recv() {
            Ok(file) => file,
            Err(TryRecvError::Disconnected) => {
                desk.miss_dialog(self.ask.clone());
                None
            }
            Err(TryRecvError::Empty) => return Next::Stay,
        };
        let is_done = self.then.take().is_some_and(|then| then(desk, file));
        if is_done {
            return Next::Close;
        }
        self.put_away(desk)
    }

    fn beneath(&mut self) -> Option<&mut Beneath> {
        Some(&mut self.beneath)
    }

    fn is_question(&self) -> bool {
        true
    }
}
