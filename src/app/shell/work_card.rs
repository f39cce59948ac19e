//! The card that is open while something is made on a thread of its own: how far it is, and Cancel.

use egui::Ui;

use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{Making, Stage, Teller};

/// What is told of a work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkWords {
    /// The card's title.
    pub title: &'static str,
    /// What it is done to.
    pub about: String,
    /// What is counted, before how many are done.
    pub counted: &'static str,
    /// What is told when it is broken off.
    pub cancelled: &'static str,
    /// What is told when it ended without a result.
    pub failed: &'static str,
}

type Make<T> = Box<dyn FnOnce(&Teller) -> Option<T> + Send>;
type Then<T> = Box<dyn FnOnce(&mut Desk, T)>;

/// The card. It begins to make when it is shown first.
pub struct WorkCard<T> {
    words: WorkWords,
    make: Option<Make<T>>,
    making: Option<Making<T>>,
    then: Option<Then<T>>,
}

impl<T: Send + 'static> WorkCard<T> {
    /// A card that makes something, and what is done with it then.
    pub fn new(
        words: WorkWords,
        make: impl FnOnce(&Teller) -> Option<T> + Send + 'static,
        then: impl FnOnce(&mut Desk, T) + 'static,
    ) -> Self {
        Self {
            words,
            make: Some(Box::new(make)),
            making: None,
            then: Some(Box::new(then)),
        }
    }

    /// Cancels, unless a file is being written already: then its end is waited for.
    fn give_up(&self, desk: &mut Desk) -> Next {
        let is_past = |making: &Making<T>| !making.give_up();
        if self.making.as_ref().is_some_and(is_past) {
            return Next::Stay;
        }
        desk.tell(self.words.cancelled);
        Next::Close
    }
}

impl<T: Send + 'static> Card for WorkCard<T> {
    fn name(&self) -> &'static str {
        "work"
    }

    fn width(&self) -> f32 {
        420.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of(self.words.title));
        ui.label(&self.words.about);
        if let Some(make) = self.make.take() {
            self.making = Some(Making::begin(ui.ctx(), "work", make));
        }
        let stage = self.making.as_ref().map_or(Stage::Ended, Making::take);
        match stage {
            Stage::Going => {
                let bar = self.making.as_ref();
                let counted = self.words.counted;
                if bar.is_some_and(|making| making.progress_ui(ui, counted)) {
                    // What is told then is shown next.
                    ui.ctx().request_repaint();
                    self.give_up(desk)
                } else {
                    Next::Stay
                }
            }
            Stage::Made(made) => {
                if let Some(then) = self.then.take() {
                    then(desk, made);
                }
                Next::Close
            }
            Stage::Ended => {
                desk.warn(self.words.failed);
                Next::Close
            }
        }
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        self.give_up(desk)
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }
}
