//! The two rollers of a unit.

/// A roller of the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Roller {
    /// The one ahead of the reel.
    Front,
    /// The one behind it.
    Rear,
}

impl Roller {
    /// Both, in working order.
    pub const ALL: [Self; 2] = [Self::Front, Self::Rear];

    /// Its word in a sentence.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
        }
    }

    /// Its name over what belongs to it.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Front => "Front roller",
            Self::Rear => "Rear roller",
        }
    }
}
