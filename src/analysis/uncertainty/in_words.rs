//! What is known of a solution's numbers, value and ± in words.

use crate::analysis::{NumberId, Solved};
use crate::units::{Measure as _, Share, System};

/// The numbers that matter, in the order they are told with their ±.
const TOLD: [NumberId; 11] = [
    NumberId::BehindCentre,
    NumberId::SweepBelowCut,
    NumberId::HeightOfCut,
    NumberId::CutOnGround,
    NumberId::ReelOnGround,
    NumberId::ReelAtLowEnd,
    NumberId::UndersideOnGround,
    NumberId::UndersideAtLowEnd,
    NumberId::Attitude,
    NumberId::SweepShare,
    NumberId::ClipToCut,
];

/// The numbers that matter with their expanded uncertainty, in a reader's units.
#[must_use]
pub fn off_in_words(solved: &Solved, system: System) -> Vec<(&'static str, String)> {
    let numbers = solved.solution.numbers();
    let told = TOLD.into_iter().filter_map(|number| {
        let value = numbers.value(number)?;
        let off = value.with_base(solved.uncertainty.expanded(number));
        let rough = if solved.uncertainty.is_rough(number) {
            " and more: not straight over the readings' ±"
        } else {
            ""
        };
        let (value, off) = (value.shown_in(system), off.shown_in(system));
        Some((number.name(), format!("{value} ± {off}{rough}")))
    });
    told.collect()
}

/// A share of the variance in words.
#[must_use]
pub fn share_in_words(share: f64, system: System) -> String {
    system.share(Share::from_base(share))
}
