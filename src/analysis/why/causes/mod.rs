//! Which of a unit's mechanisms can make a mark, and how strong each is now.

mod cause;
mod complaint;
mod ground;
mod mechanisms;

pub use cause::{Cause, Strength};
pub use complaint::Complaint;

use cause::circumference;
use mechanisms::Mechanisms;

use crate::analysis::Case;
use crate::units::Length;

/// The mechanisms that can make a mark, the strongest first.
#[must_use]
pub fn causes(case: &Case, complaint: Complaint) -> Vec<Cause> {
    let of = Mechanisms::of(case);
    let mut causes = match complaint {
        Complaint::StripAtOneEnd => vec![of.low_end_reel(), of.low_end_underside(), of.deep_end()],
        Complaint::Ribs => vec![
            of.clip_length(),
            of.sweep(),
            of.front_runout(),
            of.rear_runout(),
        ],
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
        Complaint::Tearing => vec![of.gap(), of.ahead(), of.clip_length(), of.sweep()],
        Complaint::KnifeRiding => vec![
            of.underside(),
            of.together_underside(),
            of.sink_under_knife(),
            of.crest_under_knife(),
            of.low_end_underside(),
        ],
        Complaint::StreakPerTurn => vec![of.front_runout(), of.rear_runout()],
    };
    causes.sort_by(|a, b| b.strength.rank().total_cmp(&a.strength.rank()));
    causes
}

/// The distances at which marks come back: by clip, by turn of the reel, by turn of each roller.
#[must_use]
pub fn pitches(case: &Case) -> Vec<(&'static str, Length)> {
    let pose = &case.solution.pose;
    let clip = case.solution.mowing.map(|mowing| mowing.clip_length);
    let by_reel = clip.into_iter().flat_map(|clip| {
        [
            ("every clip", clip),
            ("every turn of the reel", clip * f64::from(case.unit.blades)),
        ]
    });
    by_reel
        .chain([
            (
                "every turn of the front roller",
                circumference(pose.front_roller.radius_mm),
            ),
            (
                "every turn of the rear roller",
                circumference(pose.rear_roller.radius_mm),
            ),
        ])
        .collect()
}
