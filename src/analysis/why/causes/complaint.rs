//! What a person sees on the turf.

/// What is wrong with the turf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Complaint {
    /// A strip along one end of the unit is scuffed.
    StripAtOneEnd,
    /// Ribs stand across the travel.
    Ribs,
    /// The crowns of the ground are scalped.
    ScalpedCrowns,
    /// Leaves are torn.
    Tearing,
    /// The knife rides on the turf.
    KnifeRiding,
    /// A streak comes back with every turn of a roller.
    StreakPerTurn,
}

impl Complaint {
    /// Every complaint, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::StripAtOneEnd,
        Self::Ribs,
        Self::ScalpedCrowns,
        Self::Tearing,
        Self::KnifeRiding,
        Self::StreakPerTurn,
    ];

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => "strip_at_one_end",
            Self::Ribs => "ribs",
            Self::ScalpedCrowns => "scalped_crowns",
            Self::Tearing => "tearing",
            Self::KnifeRiding => "knife_riding",
            Self::StreakPerTurn => "streak_per_turn",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => "Scuffed strip at one end",
            Self::Ribs => "Ribs across the travel",
            Self::ScalpedCrowns => "Scalped crowns",
            Self::Tearing => "Torn leaves",
            Self::KnifeRiding => "Knife riding on the turf",
            Self::StreakPerTurn => "A streak per roller turn",
        }
    }

    /// Whether it is a mark that comes back at a distance.
    #[must_use]
    pub const fn comes_back(self) -> bool {
        matches!(self, Self::Ribs | Self::StreakPerTurn)
    }

    /// What lies outside this geometry and makes the same mark.
    #[must_use]
    pub const fn outside(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => {
                "Also look at what plane geometry does not know: a bent frame, a down-pressure spring, a reel ground to a cone."
            }
            Self::Ribs => {
                "Also look at what plane geometry does not know: a bouncing unit, a worn bearing, a belt that slips."
            }
            Self::ScalpedCrowns => {
                "Also look at what plane geometry does not know: soft or thatchy ground, a turn on a slope, a unit that cannot float."
            }
            Self::Tearing => {
                "Also look at what plane geometry does not know: a dull edge, a rounded blade, contact that is not even along the knife. Cut paper along its whole length, reel blocked between cuts."
            }
            Self::KnifeRiding => {
                "Also look at what plane geometry does not know: thatch, clippings packed under the bar, a bar that bends."
            }
            Self::StreakPerTurn => {
                "Also look at what plane geometry does not know: clippings caked on a roller, a dent, a loose bearing."
            }
        }
    }
}
