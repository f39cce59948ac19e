//! How a finding stands to its limits.

use crate::unit::ExampleCount;

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
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Watch => "watch",
            Self::Over => "over",
        }
    }

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fine => "OK",
            Self::Watch => "watch",
            Self::Over => "over limit",
        }
    }

    /// The word for it where a limit lies within the ±.
    #[must_use]
    pub const fn word_undecided(self) -> &'static str {
        match self {
            Self::Fine => "undecided: reads OK",
            Self::Watch => "undecided: reads watch",
            Self::Over => "undecided: reads over limit",
        }
    }

    /// The level that is shown while so many readings are examples: none is fine that rests on one.
    #[must_use]
    pub const fn resting_on(self, examples: ExampleCount) -> Self {
        match self {
            Self::Fine if !examples.is_none() => Self::Watch,
            level => level,
        }
    }

    /// The word for it while so many readings are examples.
    #[must_use]
    pub const fn word_resting_on(self, examples: ExampleCount) -> &'static str {
        match self {
            Self::Fine if !examples.is_none() => "watch: example readings",
            level => level.word(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_example_takes_what_is_fine_and_leaves_the_rest() {
        let own = ExampleCount::default();
        let some = ExampleCount {
            examples: 1,
            readings: 17,
        };
        for level in [Level::Fine, Level::Watch, Level::Over] {
            assert_eq!(level.resting_on(own), level);
            assert_eq!(level.word_resting_on(own), level.word());
            assert_eq!(level.resting_on(some), level.max(Level::Watch));
            assert!(!level.word_resting_on(some).contains("OK"));
        }
    }
}
