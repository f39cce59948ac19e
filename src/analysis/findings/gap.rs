//! The gap between reel and knife: too wide and the blades fold the grass instead of cutting it.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::units::{Sentence, Value};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Gap,
    id: "gap",
    title: "Reel-to-knife gap",
    number: Some(NumberId::Gap),
    measure,
    judge,
    window: None,
    is_adjustable: false,
};

fn measure(case: &Case) -> Option<Judged> {
    let limits = &case.unit.limits;
    let bounds = [
        Some(Bound::new(Level::Watch, Side::AtMost, limits.gap_watch)),
        Some(Bound::new(Level::Over, Side::AtMost, limits.gap_over)),
    ];
    Some(Judged::by(case.setting.gap, bounds))
}

fn judge(case: &Case) -> Option<Verdict> {
    let gap = case.setting.gap;
    let limits = &case.unit.limits;
    let level = measure(case)?.level();
    let [watch, over] = [limits.gap_watch, limits.gap_over].map(Value::Limit);
    let values = [gap.into(), watch, over];
    let text = match level {
        Level::Fine if gap.mm() <= 0.0 => {
            Sentence::new("The reel touches the knife lightly: zero gap.", &[])
        }
        Level::Fine => Sentence::new(
            "The gap between reel and knife is {} (watch above {}, over limit above {}).",
            &values,
        )
        .judging(0),
        Level::Watch => Sentence::new(
            "The gap between reel and knife is {} (watch above {}, over limit above {}): leaves begin to tear and fold over.",
            &values,
        )
        .judging(0),
        Level::Over => Sentence::new(
            "The gap between reel and knife is {} (watch above {}, over limit above {}): leaves fold into it and are not cut.",
            &values,
        )
        .judging(0),
    };
    Some(Verdict { level, text })
}
