//! What the room sees of a lesson, as the presenter's window is told.

use std::sync::Arc;
use std::time::Instant;

use crate::command::OpenLesson;

/// What the room sees of a lesson.
#[derive(Clone, Debug)]
pub(super) struct Sight {
    pub(super) of: Arc<OpenLesson>,
    pub(super) at: usize,
    pub(super) has_numbers: bool,
    pub(super) is_blank: bool,
    /// When the lesson began.
    pub(super) began: Instant,
    /// When the room came to this step.
    pub(super) step_began: Instant,
}

impl Sight {
    /// Whether the presenter's window would show the same.
    pub(super) fn is_same_as(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.of, &other.of)
            && (self.at, self.has_numbers, self.is_blank)
                == (other.at, other.has_numbers, other.is_blank)
    }
}
