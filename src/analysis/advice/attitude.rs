//! The attitude that a unit is aimed at: the one number that its findings, its adjustments and the
//! table of knives tell.

use std::cmp::Reverse;

use super::aim::Aim;
use super::trial::{Asked, Certainty};
use crate::analysis::dial::{Dial, Scale};
use crate::analysis::{Case, FindingId, Level, Standings};
use crate::unit::Follows;
use crate::units::{Angle, Sentence, System};

/// An attitude that is aimed at, as it is read in the units that it was asked for in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AimedAttitude {
    /// The attitude.
    pub attitude: Angle,
    /// Why it is the least that will do, or that the readings' ± leave it undecided; none where it is
    /// the nearest.
    pub why: Option<Sentence>,
    /// How sure it is.
    pub certainty: Certainty,
}

impl AimedAttitude {
    /// The least attitude that clears the underside by its limit and a margin, every other finding
    /// within its limits, for somebody who reads in `system`; where no attitude does that, what is
    /// told about the worst finding that an attitude clears. None where there is none.
    #[must_use]
    pub fn of(case: &Case, follows: Follows, system: System) -> Option<Self> {
        if case.solution.pose.height_of_cut.mm() <= 0.0 {
            return None;
        }
        let now = Standings::of(case);
        let level = |id: &FindingId| now.get(*id).map_or(Level::Fine, |standing| standing.level);
        let past = FindingId::ALL.into_iter().filter(|id| !now.is_fine(*id));
        let mut asked: Vec<FindingId> = past.collect();
        asked.sort_by_key(|id| Reverse(level(id)));
        asked.push(FindingId::Underside);
        let dial = Dial {
            case: *case,
            scale: Scale::Attitude,
        };
        let aimed = asked.into_iter().find_map(|finding| {
            let asked = Asked {
                case: *case,
                now: &now,
                finding,
                follows,
            };
            Aim {
                asked,
                dial,
                system,
            }
            .find()
        })?;
        Some(Self {
            attitude: Angle::from_deg(aimed.to.base()),
            why: aimed.why(),
            certainty: aimed.certainty,
        })
    }
}
