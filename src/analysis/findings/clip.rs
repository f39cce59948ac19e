//! Clip length against the height of cut: too long and ribs stand across the travel, too short and
//! power and edges are spent for no benefit.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::units::Sentence;

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Clip,
    id: "clip",
    title: "Clip length",
    number: Some(NumberId::ClipToCut),
    measure,
    judge,
    window: None,
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let ratio = case.solution.mowing?.clip_to_cut?;
    let limits = &case.unit.limits;
    let bounds = [
        Bound::new(Level::Watch, Side::AtMost, limits.clip_watch),
        Bound::new(Level::Over, Side::AtMost, limits.clip_over),
        Bound::new(Level::Watch, Side::AtLeast, limits.clip_least),
    ];
    Some(Judged::by(ratio, bounds.map(Some)))
}

fn judge(case: &Case) -> Option<Verdict> {
    let numbers = case.solution.mowing?;
    let ratio = numbers.clip_to_cut?;
    let limits = &case.unit.limits;
    let level = measure(case)?.level();
    let text = if ratio < limits.clip_least {
        Sentence::new(
            "The clip length is {}, {} times the height of cut (watch below {}): the reel turns faster than this cut needs, which takes power and wears the edges for no benefit.",
            &[
                numbers.clip_length.into(),
                ratio.into(),
                limits.clip_least.into(),
            ],
        )
    } else {
        Sentence::new(
            "The clip length is {}, {} times the height of cut (watch above {}, over limit above {}).",
            &[
                numbers.clip_length.into(),
                ratio.into(),
                limits.clip_watch.into(),
                limits.clip_over.into(),
            ],
        )
    };
    Some(Verdict {
        level,
        text: text.judging(1),
    })
}
