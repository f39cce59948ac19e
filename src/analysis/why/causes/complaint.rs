//! What a person sees on the turf.

/// What is wrong with the turf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Complaint {
    /// It is scuffed or scalped over the whole width.
    AllOver,
    /// A strip along one end of the unit is scuffed.
    StripAtOneEnd,
    /// Ribs stand across the travel.
    Ribs,
    /// High spots of the ground are scalped.
    ScalpedCrowns,
    /// Leaf tips are ragged.
    Tearing,
    /// Single leaves stay uncut.
    Stragglers,
    /// The knife drags on the turf.
    KnifeRiding,
    /// A band comes back with every turn of a roller.
    StreakPerTurn,
    /// A line runs along the travel.
    LineAlong,
    /// The cut steps from one unit of a set to the next.
    StepBetweenUnits,
    /// The turf is scuffed in turns.
    InTurns,
}

impl Complaint {
    /// Every complaint, in the order they are offered.
    pub const ALL: [Self; 11] = [
        Self::AllOver,
        Self::StripAtOneEnd,
        Self::Ribs,
        Self::ScalpedCrowns,
        Self::Tearing,
        Self::Stragglers,
        Self::KnifeRiding,
        Self::StreakPerTurn,
        Self::LineAlong,
        Self::StepBetweenUnits,
        Self::InTurns,
    ];

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::AllOver => "scalped_all_over",
            Self::StripAtOneEnd => "strip_at_one_end",
            Self::Ribs => "ribs",
            Self::ScalpedCrowns => "scalped_crowns",
            Self::Tearing => "tearing",
            Self::Stragglers => "stragglers",
            Self::KnifeRiding => "knife_riding",
            Self::StreakPerTurn => "streak_per_turn",
            Self::LineAlong => "line_along",
            Self::StepBetweenUnits => "step_between_units",
            Self::InTurns => "scuffing_in_turns",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AllOver => "Scuffed or scalped all over",
            Self::StripAtOneEnd => "Scuffed strip at one end",
            Self::Ribs => "Ribbing across the travel",
            Self::ScalpedCrowns => "Scalped high spots",
            Self::Tearing => "Ragged leaf tips",
            Self::Stragglers => "Stragglers left uncut",
            Self::KnifeRiding => "Bedknife dragging",
            Self::StreakPerTurn => "Band repeating every roller turn",
            Self::LineAlong => "A line along the travel",
            Self::StepBetweenUnits => "A step between units of a set",
            Self::InTurns => "Scuffing when turning",
        }
    }

    /// Whether it is a mark that comes back at a distance.
    #[must_use]
    pub const fn comes_back(self) -> bool {
        matches!(self, Self::Ribs | Self::StreakPerTurn)
    }

    /// What to look at before anything else.
    #[must_use]
    pub const fn look_first(self) -> &'static str {
        match self {
            Self::AllOver => {
                "Look first at the effective height of cut on the turf, against what this turf can take."
            }
            Self::StripAtOneEnd => {
                "Look first at the height of cut at both ends: engine off, key out, reel blocked, gloves on."
            }
            Self::Ribs => {
                "Look first at the distance from mark to mark, and at reel and ground speed from the machine's manual or display."
            }
            Self::ScalpedCrowns => "Look first at the ground: a straightedge on the high spot.",
            Self::Tearing | Self::Stragglers => {
                "Look first at the edges, the gap and even contact along the whole knife: engine off, key out, reel blocked, gloves on."
            }
            Self::KnifeRiding => {
                "Look first for polish under the knife and its screws: engine off, key out, reel blocked, gloves on, the unit tipped only when blocked and supported."
            }
            Self::StreakPerTurn => {
                "Look first at the roller: caked clippings, a dent, its bearings. Engine off, key out, reel drive disconnected, unit and reel blocked, gloves on."
            }
            Self::LineAlong => {
                "Look first for a nick in knife or blades at that place: engine off, key out, reel blocked, gloves on."
            }
            Self::StepBetweenUnits => {
                "Look first at the height of cut of every unit at both ends, on one plate: engine off, key out, unit and reel blocked, gloves on."
            }
            Self::InTurns => {
                "Look first at how the machine is turned: speed, and whether the units are lifted."
            }
        }
    }

    /// In which order its causes stand.
    #[must_use]
    pub const fn order(self) -> &'static str {
        match self {
            Self::Ribs => {
                "Clip length first, since ribs come at that distance; then the strongest first."
            }
            Self::Tearing | Self::Stragglers => {
                "Gap and edges first, which cut the leaves; then the strongest first."
            }
            Self::StripAtOneEnd | Self::LineAlong | Self::StepBetweenUnits => {
                "Height of cut at both ends first, which the plate tells; then the strongest first."
            }
            Self::AllOver
            | Self::ScalpedCrowns
            | Self::KnifeRiding
            | Self::StreakPerTurn
            | Self::InTurns => "The strongest first.",
        }
    }

    /// What lies outside this geometry and makes the same mark.
    #[must_use]
    pub const fn outside(self) -> &'static str {
        match self {
            Self::AllOver => {
                "Outside this geometry: puffy turf or a cut too low for it, thatch, wet turf, grain, weight transfer and down pressure, dull or rounded edges."
            }
            Self::StripAtOneEnd => {
                "Outside this geometry: a bent frame, down pressure or weight transfer on one side, the pull point off the middle, a reel ground to a cone, uneven contact."
            }
            Self::Ribs => {
                "Outside this geometry: a bouncing unit, worn bearings, a slipping belt, ground and reel speeds that do not match, grain."
            }
            Self::ScalpedCrowns => {
                "Outside this geometry: puffy turf or a cut too low for it, soft or wet ground, a unit that cannot float, weight transfer, turning on a slope."
            }
            Self::Tearing => {
                "Outside this geometry: dull or rounded edges, no relief, uneven contact, worn bearings, wet turf, speeds that do not match."
            }
            Self::Stragglers => {
                "Outside this geometry: dull or rounded edges, no relief, uneven contact, grain, wet turf laid flat, too much growth for one pass."
            }
            Self::KnifeRiding => {
                "Outside this geometry: puffy turf or thatch, clippings packed under the bar, a bar that bends, weight transfer."
            }
            Self::StreakPerTurn => {
                "Outside this geometry: clippings caked on a roller, a dent, a loose bearing."
            }
            Self::LineAlong => {
                "Outside this geometry: a nick in knife or blade, a screw that stands proud, units that do not overlap, a wheel mark."
            }
            Self::StepBetweenUnits => {
                "Outside this geometry: units set on different plates, down pressure or weight transfer that differs, knives of different make-up, tyres."
            }
            Self::InTurns => {
                "Outside this geometry: turning at speed or too tight, weight transfer, the pull point, wet turf, rollers that do not turn freely."
            }
        }
    }
}
