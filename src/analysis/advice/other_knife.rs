//! Whether another knife would help: one of another reach, or of a thinner lip.

use super::trial::Asked;
use crate::analysis::{Case, Solution};
use crate::unit::Fitted;
use crate::units::Length;

/// By how much more or less reach it is seen what reach does to the sweep.
const LITTLE_REACH: Length = Length::from_mm(0.1);
/// The lips that are tried, as parts of what is left of the one fitted.
const THINNER: [f64; 5] = [0.75, 0.5, 0.25, 0.1, 0.01];

/// What is told of a knife's reach about the sweep: more of it carries the edge ahead, which is towards
/// the reel's centre only for an edge behind it.
pub(super) fn other_reach(case: &Case) -> Option<&'static str> {
    let sweep_with = |by: Length| {
        let mut setting = *case.setting;
        setting.knife.reach = setting.knife.reach + by;
        let solution = Solution::of(case.unit, &setting).ok()?;
        Some(solution.sweep.below_cut)
    };
    let now = case.solution.sweep.below_cut;
    if sweep_with(LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a longer reach sweeps less; so does a thinner one at less attitude.")
    } else if sweep_with(-LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a shorter reach sweeps less.")
    } else {
        None
    }
}

/// Whether there is a knife of a thinner lip that clears the finding.
pub(super) fn would_a_thinner_lip_clear(asked: &Asked) -> bool {
    let case = &asked.case;
    let knife = &case.setting.knife;
    let ground = Length::from_mm(knife.edge_from_unground().y);
    let left = knife.lip_thickness - ground;
    let with = |part: f64| {
        let thickness = ground + left * part;
        let mut unit = case.unit.clone();
        let mut setting = *case.setting;
        setting.knife.lip_thickness = thickness;
        if unit.fitted == Fitted::Bench {
            unit.profile.knife.lip_thickness = thickness;
        }
        asked.holding(&unit, &setting).is_some()
    };
    THINNER.into_iter().any(with)
}
