//! Whether the desktop asks for less motion: what moves by itself starts switched off then.

use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// What the desktop answers: whether less is to move. Closed without an answer where it does not say.
pub type LessMotion = Receiver<bool>;

/// Asks the desktop whether less is to move: its settings portal in the program, something else in
/// tests. The window goes on meanwhile.
pub trait MotionWish {
    /// Asks once.
    fn ask(&self) -> LessMotion;
}

/// A desktop that does not say: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoMotionWish;

impl MotionWish for NoMotionWish {
    fn ask(&self) -> LessMotion {
        channel().1
    }
}

/// The question and its last answer.
pub struct MotionDesk {
    wish: Box<dyn MotionWish>,
    awaited: Option<LessMotion>,
    is_less: bool,
}

impl Default for MotionDesk {
    fn default() -> Self {
        Self {
            wish: Box::new(NoMotionWish),
            awaited: None,
            is_less: false,
        }
    }
}

impl MotionDesk {
    /// Has the desktop asked by this from here on.
    pub fn ask_with(&mut self, wish: Box<dyn MotionWish>) {
        self.wish = wish;
    }

    /// Asks anew.
    pub fn ask(&mut self) {
        self.awaited = Some(self.wish.ask());
    }

    /// Whether less is to move, as far as it is known by now.
    pub fn is_less(&mut self) -> bool {
        match self.awaited.as_ref().map(Receiver::try_recv) {
            Some(Ok(is_less)) => {
                self.is_less = is_less;
                self.awaited = None;
            }
            Some(Err(TryRecvError::Disconnected)) => self.awaited = None,
            Some(Err(TryRecvError::Empty)) | None => {}
        }
        self.is_less
    }
}
