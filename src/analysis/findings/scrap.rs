//! The reel under its scrap size, or larger than a new one.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::units::Sentence;

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Scrap,
    id: "scrap",
    title: "Reel size",
    number: Some(NumberId::ReelDiameter),
    measure,
    judge,
    window: None,
    is_adjustable: false,
};

fn measure(case: &Case) -> Option<Judged> {
    let bounds = [
        Bound::new(Level::Watch, Side::AtMost, case.unit.new_diameter),
        Bound::new(Level::Over, Side::AtLeast, case.unit.smallest_diameter),
    ];
    Some(Judged::by(case.setting.reel_diameter, bounds.map(Some)))
}

fn judge(case: &Case) -> Option<Verdict> {
    let now = case.setting.reel_diameter;
    let (new, smallest) = (case.unit.new_diameter, case.unit.smallest_diameter);
    let level = measure(case)?.level();
    let text = match level {
        Level::Over => Sentence::new(
            "The reel, {}, is below its minimum diameter (scrap) of {}.",
            &[now.into(), smallest.into()],
        )
        .judging(0),
        Level::Watch => Sentence::new(
            "The reel, {}, is larger than a new one, {}.",
            &[now.into(), new.into()],
        )
        .judging(0),
        Level::Fine => Sentence::new(
            "The reel, {}, has {} of diameter left to its minimum (scrap).",
            &[now.into(), (now - smallest).into()],
        ),
    };
    Some(Verdict { level, text })
}
