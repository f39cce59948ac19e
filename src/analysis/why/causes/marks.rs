//! Marks that come back at a distance: what comes round as far, and what bounces as often.

use std::fmt::Write as _;

use super::cause::circumference;
use crate::analysis::Case;
use crate::units::{Length, Share, System};

/// How far off a distance may be and still be taken for the same (common practice, no source: marks
/// on turf are measured no better).
const SAME: f64 = 0.10;

/// Something that comes round, held against the distance from mark to mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Match {
    /// What comes round.
    pub name: &'static str,
    /// The travel after which it does.
    pub pitch: Length,
    /// How far the marks are from that, as a part of it; negative for marks that stand closer.
    pub off: Share,
    /// Whether that is near enough to be the same.
    pub is_same: bool,
}

/// The distances at which marks come back: by clip, by turn of the reel, by turn of each roller.
#[must_use]
pub fn pitches(case: &Case) -> Vec<(&'static str, Length)> {
    let pose = &case.solution.pose;
    let clip = case.solution.mowing.map(|mowing| mowing.clip_length);
    let by_reel = clip.into_iter().flat_map(|clip| {
        [
            ("every clip", clip),
            (
                "every turn of the reel (one bent blade)",
                clip * f64::from(case.unit.blades),
            ),
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

/// What comes round, the nearest to the distance from mark to mark first.
#[must_use]
pub fn matches(case: &Case, spacing: Length) -> Vec<Match> {
    let mut found: Vec<Match> = pitches(case)
        .into_iter()
        .map(|(name, pitch)| {
            let off = spacing.mm() / pitch.mm() - 1.0;
            Match {
                name,
                pitch,
                off: Share::from_one(off),
                is_same: off.abs() <= SAME,
            }
        })
        .collect();
    found.sort_by(|a, b| a.off.of_one().abs().total_cmp(&b.off.of_one().abs()));
    found
}

/// How often a second something bounces that leaves marks so far apart; none without a ground speed.
#[must_use]
pub fn bounces_per_s(case: &Case, spacing: Length) -> Option<f64> {
    let mowing = case.unit.mowing?;
    (spacing.mm() > 0.0).then(|| mowing.ground_speed.mm_per_s() / spacing.mm())
}

/// What comes round as far as the marks stand apart, in words.
#[must_use]
pub fn spacing_told(case: &Case, spacing: Length, system: System) -> String {
    let told = |found: &Match| {
        format!(
            "{} comes back after {} (marks {} off)",
            found.name,
            system.length(found.pitch),
            system.share(Share::from_one(found.off.of_one().abs()))
        )
    };
    let found = matches(case, spacing);
    let same: Vec<_> = found.iter().filter(|f| f.is_same).map(told).collect();
    let mut text = if same.is_empty() {
        format!(
            "{} from mark to mark: no part of this unit comes round at that distance.",
            system.length(spacing)
        )
    } else {
        format!(
            "{} from mark to mark: {}.",
            system.length(spacing),
            same.join("; ")
        )
    };
    if let Some(bounces) = bounces_per_s(case, spacing) {
        // Writing to a `String` cannot fail.
        let _ = write!(
            text,
            " A bouncing unit would do it {bounces:.1} times a second at this ground speed."
        );
    }
    text
}
