//! The rule of every finding, each listed once.

use std::fmt;

use super::rule::Rule;
use super::{
    Case, FindingId, Level, ahead, attitude, clip, cut, gap, lip, low_end, reel, rollers,
    runout_swing, scrap, sweep, top_face, underside,
};
use crate::analysis::NumberId;

/// How many kinds there are.
const COUNT: usize = FindingId::ALL.len();

/// The rule of every finding, in the order they are told.
pub(super) const RULES: [Rule; COUNT] = {
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
    const fn entry(self) -> Rule {
        match self {
            Self::Sweep => sweep::RULE,
            Self::Ahead => ahead::RULE,
            Self::Gap => gap::RULE,
            Self::TopFace => top_face::RULE,
            Self::Reel => reel::RULE,
            Self::LowEnd => low_end::REEL_RULE,
            Self::Cut => cut::RULE,
            Self::Underside => underside::RULE,
            Self::LowEndUnderside => low_end::UNDERSIDE_RULE,
            Self::RunoutSwing => runout_swing::RULE,
            Self::Lip => lip::RULE,
            Self::Scrap => scrap::RULE,
            Self::Clip => clip::RULE,
            Self::Rollers => rollers::RULE,
            Self::Attitude => attitude::RULE,
        }
    }

    pub(super) const fn rule(self) -> &'static Rule {
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

    /// What is wrong where it is over its limit, as far as that is a clearance below zero, which is none.
    #[must_use]
    pub const fn in_soil(self) -> Option<&'static str> {
        match self {
            Self::Reel => Some("Reel in the soil"),
            Self::LowEnd => Some("Reel in the soil at the low side"),
            Self::Cut => Some("Edge in the soil"),
            Self::Underside => Some("Underside of the knife in the soil"),
            Self::LowEndUnderside => Some("Underside in the soil at the low side"),
            Self::Sweep
            | Self::Ahead
            | Self::Gap
            | Self::TopFace
            | Self::RunoutSwing
            | Self::Lip
            | Self::Scrap
            | Self::Clip
            | Self::Rollers
            | Self::Attitude => None,
        }
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

    /// Whether a knife with which it is over cannot be mounted or run, whatever else is set: it is
    /// not about the reel's size, the speeds, where the brackets end or how true the rollers run.
    #[must_use]
    pub const fn excludes_knife(self) -> bool {
        match self {
            Self::Sweep
            | Self::Ahead
            | Self::TopFace
            | Self::Reel
            | Self::LowEnd
            | Self::Cut
            | Self::Underside
            | Self::LowEndUnderside
            | Self::Lip
            | Self::Rollers => true,
            Self::Gap | Self::RunoutSwing | Self::Scrap | Self::Clip | Self::Attitude => false,
        }
    }

    /// The level it has past the limit that ends a usable window of attitudes; none where none of
    /// its limits does.
    #[must_use]
    pub fn ends_window_past(self) -> Option<Level> {
        self.rule().window.map(|end| end.past)
    }

    /// Adds how the limit that ends a usable window is kept, smooth over attitude and diameter;
    /// none where none of its limits ends one.
    pub(in crate::analysis) fn add_margins_mm(self, case: &Case, margins_mm: &mut Vec<f64>) {
        if let Some(end) = &self.rule().window {
            (end.margins_mm)(case, margins_mm);
        }
    }
}

impl NumberId {
    /// The finding that judges it; none where none does. Its level is that of this finding.
    #[must_use]
    pub fn finding(self) -> Option<FindingId> {
        let mut all = FindingId::ALL.into_iter();
        all.find(|finding| finding.number() == Some(self))
    }
}

impl fmt::Display for FindingId {
    /// Its name for programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_leads_to_the_finding_that_judges_it() {
        for finding in FindingId::ALL {
            if let Some(number) = finding.number() {
                assert_eq!(number.finding(), Some(finding), "{}", number.name());
            }
        }
        assert_eq!(NumberId::ReelOverPlate.finding(), None);
    }
}
