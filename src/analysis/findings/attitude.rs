//! An attitude outside what the roller brackets were said to allow.

use super::{Case, Level, Verdict};
use crate::units::Sentence;

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let (low, high) = case.unit.limits.attitude_range?;
    let attitude = case.solution.pose.attitude;
    let is_within = low <= attitude && attitude <= high;
    let template = if is_within {
        "The attitude, {}, lies within what the brackets allow, {} to {}."
    } else {
        "The attitude, {}, lies outside what the brackets were said to allow, {} to {}."
    };
    let text = Sentence::new(template, &[attitude.into(), low.into(), high.into()]);
    let nearest = if attitude < low { low } else { high };
    Some(Verdict {
        level: if is_within { Level::Fine } else { Level::Over },
        text,
        remedy: (!is_within)
            .then(|| case.advise_attitude(nearest))
            .flatten(),
    })
}
