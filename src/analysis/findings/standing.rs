//! How every finding stands, without its words: what a change is judged by.

use super::table::RULES;
use super::{Case, FindingId, Judged, Level};

/// By how much a number may seem worse and be the same: far less than anybody reads.
const SAME: f64 = 1e-7;

/// How one finding stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Its level.
    pub level: Level,
    /// The number that decides it, with its limits; none where no one number does.
    pub judged: Option<Judged>,
}

impl Standing {
    /// Whether a finding that stood so stands worse now: at a worse level, or past its limit and
    /// further than before. None is a finding that does not apply.
    #[must_use]
    pub fn is_worse(before: Option<&Self>, after: Option<&Self>) -> bool {
        let Some(after) = after else {
            return false;
        };
        let level = before.map_or(Level::Fine, |before| before.level);
        if after.level != level {
            return after.level > level;
        }
        let margin = |standing: &Self| standing.judged.map(|judged| judged.margin());
        match (before.and_then(margin), margin(after)) {
            (Some(before), Some(after)) if level > Level::Fine => after < before - SAME,
            _ => false,
        }
    }
}

/// How every finding about a case stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standings([Option<Standing>; RULES.len()]);

impl Standings {
    /// Judges a case by every rule.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        Self(RULES.each_ref().map(|rule| {
            (rule.judge)(case).map(|verdict| Standing {
                level: verdict.level,
                judged: (rule.measure)(case),
            })
        }))
    }

    /// How one of them stands; none when it does not apply.
    #[must_use]
    pub fn get(&self, id: FindingId) -> Option<&Standing> {
        self.0[id as usize].as_ref()
    }

    /// Whether a finding is within its limits; one that does not apply is.
    #[must_use]
    pub fn is_fine(&self, id: FindingId) -> bool {
        self.get(id)
            .is_none_or(|standing| standing.level == Level::Fine)
    }

    /// Those that stand worse after a change than before it.
    pub fn worsened(&self, after: &Self) -> impl Iterator<Item = FindingId> {
        FindingId::ALL
            .into_iter()
            .filter(|id| Standing::is_worse(self.get(*id), after.get(*id)))
    }
}
