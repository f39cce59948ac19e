//! How a finding stands to its limits.

/// How a finding stands to its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Within its limits.
    Fine,
    /// Worth watching.
    Watch,
    /// Past its limit.
    Over,
}

impl Level {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Watch => "watch",
            Self::Over => "over",
        }
    }
}
