//! Which of a unit's knives.

/// The knife a setting names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fitted {
    /// The one from the bench.
    Bench,
    /// The option at this place of the list.
    Option(usize),
}
