//! Findings: what a person should know about a setting, each judged by one function in one file.
//!
//! To add one: a file with its `Rule`, and a variant of [`FindingId`] with that.

#![expect(
    clippy::unnecessary_wraps,
    reason = "a rule may not apply; some always do"
)]

mod advice;
mod ahead;
mod attitude;
mod clip;
mod cut;
mod finding;
mod judged;
mod lip;
mod low_end;
mod reel;
mod rollers;
mod scrap;
mod sweep;
mod underside;

pub use finding::{Finding, Findings};
pub use judged::{Bound, Doubt, Judged, Side};

use std::fmt;

use super::{NumberId, Solution};
use crate::geometry::Setting;
use crate::unit::Unit;
use crate::units::{Length, Sentence};

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

/// What is judged: a unit, one of its settings, and its solution.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The unit.
    pub unit: &'a Unit,
    /// The setting solved.
    pub setting: &'a Setting,
    /// Its solution.
    pub solution: &'a Solution,
}

/// A kind of finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FindingId {
    /// Sweep below the cut line.
    Sweep,
    /// The edge against the reel's centre.
    Ahead,
    /// The reel over the ground.
    Reel,
    /// The same at the low end, the worse roller at its lowest.
    LowEnd,
    /// The edge over the ground.
    Cut,
    /// The underside of knife and hardware over the ground.
    Underside,
    /// The same at the low end, the worse roller at its lowest.
    LowEndUnderside,
    /// The knife's lip.
    Lip,
    /// The reel against its scrap size and that of a new one.
    Scrap,
    /// Clip length over height of cut.
    Clip,
    /// Rollers where they cannot be.
    Rollers,
    /// The attitude against what the roller brackets allow.
    Attitude,
}

/// One kind of finding: what it judges, by which limits, and what it says.
#[derive(Clone, Copy)]
struct Rule {
    finding: FindingId,
    id: &'static str,
    title: &'static str,
    /// What `measure` gives, for its uncertainty.
    number: Option<NumberId>,
    /// The number it judges, with its limits; none when it does not apply, or no one number
    /// decides.
    measure: fn(&Case) -> Option<Judged>,
    /// What it says; none when it does not apply.
    judge: fn(&Case) -> Option<Verdict>,
    /// Which of its limits ends a usable window of attitudes; none where none does.
    window: Option<WindowEnd>,
    /// Whether an adjustment changes its number: a worn reel is not made larger by any.
    is_adjustable: bool,
}

/// The limit of a finding that ends a usable window.
#[derive(Clone, Copy)]
struct WindowEnd {
    /// The level that the finding has past it.
    past: Level,
    /// How it is kept, in millimetres; negative past it. Each margin is smooth over attitude and
    /// diameter, so there may be several: the least of them counts.
    margins_mm: fn(&Case, &mut Vec<f64>),
}

/// How many kinds there are.
const COUNT: usize = FindingId::ALL.len();

/// The rule of every finding, in the order they are told.
const RULES: [Rule; COUNT] = {
    let mut rules = [FindingId::Sweep.entry(); COUNT];
    let mut place = 0;
    while place < COUNT {
        let finding = FindingId::ALL[place];
        assert!(finding as usize == place, "every kind stands at its place");
        rules[place] = finding.entry();
        place += 1;
    }
    rules
};

impl FindingId {
    /// Every kind, in the order they are told.
    pub const ALL: [Self; 12] = [
        Self::Sweep,
        Self::Ahead,
        Self::Reel,
        Self::LowEnd,
        Self::Cut,
        Self::Underside,
        Self::LowEndUnderside,
        Self::Lip,
        Self::Scrap,
        Self::Clip,
        Self::Rollers,
        Self::Attitude,
    ];

    const fn entry(self) -> Rule {
        match self {
            Self::Sweep => sweep::RULE,
            Self::Ahead => ahead::RULE,
            Self::Reel => reel::RULE,
            Self::LowEnd => low_end::REEL_RULE,
            Self::Cut => cut::RULE,
            Self::Underside => underside::RULE,
            Self::LowEndUnderside => low_end::UNDERSIDE_RULE,
            Self::Lip => lip::RULE,
            Self::Scrap => scrap::RULE,
            Self::Clip => clip::RULE,
            Self::Rollers => rollers::RULE,
            Self::Attitude => attitude::RULE,
        }
    }

    const fn rule(self) -> &'static Rule {
        &RULES[self as usize]
    }

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        self.rule().id
    }

    /// The kind of a name for programs; none when there is no such kind.
    #[must_use]
    pub fn of_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|finding| finding.id() == id)
    }

    /// What it is about.
    #[must_use]
    pub const fn title(self) -> &'static str {
        self.rule().title
    }

    /// The number that it judges, for its uncertainty; none where no one number decides.
    #[must_use]
    pub const fn number(self) -> Option<NumberId> {
        self.rule().number
    }

    /// Whether an adjustment changes what it judges.
    #[must_use]
    pub const fn is_adjustable(self) -> bool {
        self.rule().is_adjustable
    }

    /// The level it has past the limit that ends a usable window of attitudes; none where none of
    /// its limits does.
    #[must_use]
    pub fn ends_window_past(self) -> Option<Level> {
        self.rule().window.map(|end| end.past)
    }

    /// Adds how the limit that ends a usable window is kept, smooth over attitude and diameter;
    /// none where none of its limits ends one.
    pub(super) fn add_margins_mm(self, case: &Case, margins_mm: &mut Vec<f64>) {
        if let Some(end) = &self.rule().window {
            (end.margins_mm)(case, margins_mm);
        }
    }
}

impl fmt::Display for FindingId {
    /// Its name for programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

/// A level, a sentence, and what would bring it back.
struct Verdict {
    level: Level,
    text: Sentence,
    remedy: Option<Sentence>,
}

/// A clearance that is too little at zero.
fn above_ground(clearance: Length) -> Judged {
    let bound = Bound::new(Level::Over, Side::MoreThan, Length::ZERO);
    Judged::by(clearance, [Some(bound), None])
}

/// A clearance that wants some room, and is too little at zero.
fn with_room(clearance: Length, least: Length) -> Judged {
    let bounds = [
        Bound::new(Level::Watch, Side::AtLeast, least),
        Bound::new(Level::Over, Side::MoreThan, Length::ZERO),
    ];
    Judged::by(clearance, bounds.map(Some))
}
