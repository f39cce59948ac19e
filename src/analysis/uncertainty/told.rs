//! What is known of a solution's numbers, value and ± in words.

use super::Output;
use crate::analysis::Solved;
use crate::units::{Length, Measure as _, Share, System, Value};

/// The numbers that matter with their expanded uncertainty, in a reader's units.
#[must_use]
pub fn off_in_words(solved: &Solved, system: System) -> Vec<(&'static str, String)> {
    let solution = &solved.solution;
    let on_ground = &solution.on_ground;
    let share = solution
        .sweep_share
        .map(|share| (Output::SweepShare, Value::from(share)));
    let clip = solution.mowing.and_then(|mowing| mowing.clip_to_cut);
    let lengths: [(Output, Length); 8] = [
        (Output::BehindCentre, solution.sweep.behind_centre),
        (Output::SweepBelowCut, solution.sweep.below_cut),
        (Output::HeightOfCut, solution.pose.height_of_cut),
        (Output::CutOnGround, on_ground.cut),
        (Output::ReelOnGround, on_ground.reel_clearance),
        (Output::ReelAtLowEnd, on_ground.reel_at_low_end),
        (Output::UndersideOnGround, on_ground.underside_clearance),
        (Output::UndersideAtLowEnd, on_ground.underside_at_low_end),
    ];
    lengths
        .into_iter()
        .map(|(output, length)| (output, Value::from(length)))
        .chain([(Output::Attitude, solution.pose.attitude.into())])
        .chain(share)
        .chain(clip.map(|ratio| (Output::ClipToCut, ratio.into())))
        .map(|(output, value)| {
            let off = value.with_base(solved.uncertainty.expanded(output));
            let rough = if solved.uncertainty.is_rough(output) {
                " and more: bends over the readings' ±"
            } else {
                ""
            };
            let (value, off) = (value.shown_in(system), off.shown_in(system));
            let shown = format!("{value} ± {off}{rough}");
            (output.name(), shown)
        })
        .collect()
}

/// A share of the variance in words.
#[must_use]
pub fn share_in_words(share: f64, system: System) -> String {
    system.share(Share::from_base(share))
}
