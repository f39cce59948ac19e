//! What is one of a few: the word that the unit file writes for it, and its name.

/// One of a few.
pub trait OneOf: Copy + PartialEq + 'static {
    /// All of them, in the order they are offered.
    const ALL: &'static [Self];

    /// The word that the unit file writes.
    fn word(self) -> &'static str;

    /// Its name as a person reads it.
    fn name(self) -> &'static str;

    /// The one that the unit file writes so.
    fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.word() == word)
    }
}

/// Something that can be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Offer {
    /// The word that the unit file writes, and that its field takes.
    pub word: &'static str,
    /// Its name as a person reads it.
    pub name: &'static str,
}

pub(super) fn offers<T: OneOf>() -> Vec<Offer> {
    let offers = T::ALL.iter().map(|one| Offer {
        word: one.word(),
        name: one.name(),
    });
    offers.collect()
}
