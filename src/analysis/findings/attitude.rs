//! An attitude outside what the roller brackets were said to allow.

use super::{Bound, Case, Judged, Level, Side, Verdict};
use crate::units::Sentence;

pub(super) fn measure(case: &Case) -> Option<Judged> {
    let (low, high) = case.unit.limits.attitude_range?;
    let bounds = [
        Some(Bound::new(Level::Over, Side::AtLeast, low)),
        Some(Bound::new(Level::Over, Side::AtMost, high)),
    ];
    Some(Judged::by(case.solution.pose.attitude, bounds))
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let (low, high) = case.unit.limits.attitude_range?;
    let attitude = case.solution.pose.attitude;
    let level = measure(case)?.level();
    let is_within = level == Level::Fine;
    let template = if is_within {
        "The attitude, {}, lies within what the brackets allow, {} to {}."
    } else {
        "The attitude, {}, lies outside what the brackets were said to allow, {} to {}."
    };
    let text = Sentence::new(template, &[attitude.into(), low.into(), high.into()]);
    let nearest = if attitude < low { low } else { high };
    Some(Verdict {
        level,
        text,
        remedy: (!is_within)
            .then(|| case.advise_attitude(nearest))
            .flatten(),
    })
}
