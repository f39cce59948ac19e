//! What is known of a solution's numbers, value and ± in words.

use super::Sure;
use crate::analysis::{NumberId, Solved};
use crate::units::{Measure as _, Share, System};

/// What the two kinds of ± are: beside a reading, and beside a number that follows.
pub const ENTERED_AND_WORKED_OUT: &str = "A ± beside a number holds 95 %. A ± entered with a reading is the most that reading can be off, so it can be the wider of the two.";

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
        let shown = value.shown_in(system);
        let sure = solved.sure(number);
        let off = match sure {
            Sure::AsSet => "as set".to_owned(),
            _ => sure.told(value, system),
        };
        let rough = if solved.uncertainty.is_rough(number) {
            " and more: not straight over the readings' ±"
        } else {
            ""
        };
        let between = if sure == Sure::AsSet { ", " } else { " " };
        Some((number.name(), format!("{shown}{between}{off}{rough}")))
    });
    told.collect()
}

/// A share of the variance in words.
#[must_use]
pub fn share_in_words(share: f64, system: System) -> String {
    system.share(Share::from_base(share))
}
