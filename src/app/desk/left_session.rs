//! The sessions of a window that died, by which a sheet that came back finds its unit again.

use crate::store::recovery::Work;

/// A session of a window that died.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeftSession {
    process: u32,
    number: u64,
}

impl LeftSession {
    /// A session of the window that left some work.
    pub const fn of(number: u64, work: &Work) -> Self {
        Self {
            process: work.process,
            number,
        }
    }
}
