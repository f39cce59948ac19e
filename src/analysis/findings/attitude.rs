//! An attitude outside what the roller brackets were said to allow.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::units::Sentence;

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Attitude,
    id: "attitude",
    title: "Roller brackets",
    number: Some(NumberId::Attitude),
    measure,
    judge,
    window: None,
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let (low, high) = case.unit.limits.attitude_range?;
    let bounds = [
        Some(Bound::new(Level::Over, Side::AtLeast, low)),
        Some(Bound::new(Level::Over, Side::AtMost, high)),
    ];
    Some(Judged::by(case.solution.pose.attitude, bounds))
}

fn judge(case: &Case) -> Option<Verdict> {
    let (low, high) = case.unit.limits.attitude_range?;
    let attitude = case.solution.pose.attitude;
    let level = measure(case)?.level();
    let is_within = level == Level::Fine;
    let template = if is_within {
        "The attitude, {}, is within what the brackets allow, {} to {}."
    } else {
        "The attitude, {}, is outside what the brackets allow, {} to {}."
    };
    let text = Sentence::new(template, &[attitude.into(), low.into(), high.into()]).judging(0);
    Some(Verdict { level, text })
}
