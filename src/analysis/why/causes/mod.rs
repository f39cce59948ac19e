//! Which of a unit's mechanisms can make a mark, and how strong each is now.

mod cause;
mod complaint;
mod ground;
mod marks;
mod mechanisms;

pub use cause::{Cause, Cure, JudgedBy, Strength};
pub use complaint::Complaint;
pub use marks::{Match, bounces_per_s, matches, pitches, spacing_told};

use cause::circumference;
use mechanisms::Mechanisms;

use crate::analysis::Case;

/// The mechanisms that can make a mark, the strongest first; for leaves that are torn or left, edges
/// and gap before all, for ribs the clip length, at whose distance they stand, and for what differs from
/// side to side the height at both ends.
#[must_use]
pub fn causes(case: &Case, complaint: Complaint) -> Vec<Cause> {
    let of = Mechanisms::of(case);
    let mut causes = match complaint {
        Complaint::AllOver => vec![
            of.sweep(),
            of.together_reel(),
            of.together_underside(),
            of.underside(),
            of.sink(),
        ],
        Complaint::StripAtOneEnd => vec![of.low_end_reel(), of.low_end_underside(), of.deep_end()],
        Complaint::Ribs => vec![of.sweep(), of.front_runout(), of.rear_runout()],
        Complaint::ScalpedCrowns => vec![
            of.together_reel(),
            of.together_underside(),
            of.lower_cut(),
            of.crest(),
            of.crest_under_knife(),
            of.sink(),
            of.sweep(),
            of.low_end_reel(),
        ],
        Complaint::Tearing => vec![of.ahead(), of.clip_length(), of.sweep()],
        Complaint::Stragglers => vec![of.ahead(), of.clip_length()],
        Complaint::KnifeRiding => vec![
            of.underside(),
            of.together_underside(),
            of.sink_under_knife(),
            of.crest_under_knife(),
            of.low_end_underside(),
        ],
        Complaint::StreakPerTurn => vec![of.front_runout(), of.rear_runout()],
        Complaint::LineAlong => vec![of.low_end_underside(), of.low_end_reel()],
        Complaint::StepBetweenUnits => vec![of.sink(), of.deep_end()],
        Complaint::InTurns => vec![
            of.low_end_reel(),
            of.low_end_underside(),
            of.together_reel(),
            of.together_underside(),
            of.sweep(),
        ],
    };
    strongest_first(&mut causes);
    match complaint {
        // Whatever deepens a rib, ribs stand a clip length apart: the clip comes first.
        Complaint::Ribs => causes.insert(0, of.clip_length()),
        // Leaves are torn or left by what cuts them, before anything else.
        Complaint::Tearing | Complaint::Stragglers => {
            causes.splice(0..0, [of.gap(), of.edges()]);
        }
        // Whatever touches, one side stands lower: the plate tells, before anything is ground or bought.
        Complaint::StripAtOneEnd | Complaint::LineAlong | Complaint::StepBetweenUnits => {
            causes.insert(0, of.ends());
        }
        _ => {}
    }
    causes
}

/// Every mechanism that makes a mark of some kind, each once, the strongest first: for a unit of which
/// nobody said what it does to the turf.
#[must_use]
pub fn every_cause(case: &Case) -> Vec<Cause> {
    let mut every: Vec<Cause> = Vec::new();
    for cause in Complaint::ALL
        .into_iter()
        .flat_map(|complaint| causes(case, complaint))
    {
        if every.iter().all(|known| known.id != cause.id) {
            every.push(cause);
        }
    }
    strongest_first(&mut every);
    every
}

fn strongest_first(causes: &mut [Cause]) {
    causes.sort_by(|a, b| b.strength.rank().total_cmp(&a.strength.rank()));
}
