//! The desk and whether the desktop asks for less motion.

use super::Desk;
use super::less_motion::MotionWish;

impl Desk {
    /// Has the desktop asked by this from here on, and at once.
    pub fn ask_for_motion_with(&mut self, wish: Box<dyn MotionWish>) {
        self.motion.ask_with(wish);
        self.ask_for_motion();
    }

    /// Asks the desktop again: it may have been set otherwise since.
    pub fn ask_for_motion(&mut self) {
        self.motion.ask();
    }

    /// Whether the desktop asked for less motion, as far as it has answered by now. Where it does not
    /// say, no.
    pub fn wants_less_motion(&mut self) -> bool {
        self.motion.is_less()
    }
}
