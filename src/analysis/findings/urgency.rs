//! Which finding wants an answer first.

use super::{Finding, Findings, Level};

/// How much a finding wants an answer: what is sure before what is in doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Urgency(u8);

impl Urgency {
    /// Of a finding at a level, in doubt or not.
    #[must_use]
    pub const fn of(level: Level, is_in_doubt: bool) -> Self {
        Self(match (level, is_in_doubt) {
            (Level::Over, false) => 5,
            (Level::Over, true) => 4,
            (Level::Watch, false) => 3,
            (Level::Watch, true) => 2,
            (Level::Fine, true) => 1,
            (Level::Fine, false) => 0,
        })
    }
}

impl Finding {
    /// How much it wants an answer.
    #[must_use]
    pub const fn urgency(&self) -> Urgency {
        Urgency::of(self.level, self.doubt.is_some())
    }
}

impl Findings {
    /// The one that wants an answer first, of several alike the one told first; none while all are
    /// surely fine.
    #[must_use]
    pub fn most_urgent(&self) -> Option<&Finding> {
        let mut worst: Option<&Finding> = None;
        for finding in self.iter() {
            let least = worst.map_or(Urgency::of(Level::Fine, false), Finding::urgency);
            if finding.urgency() > least {
                worst = Some(finding);
            }
        }
        worst
    }
}
