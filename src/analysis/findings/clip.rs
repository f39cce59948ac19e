//! Clip length against the height of cut: too long and ribs stand across the travel.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::units::{Measure as _, Sentence, Speed, Turning};

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
        Some(Bound::new(Level::Watch, Side::AtMost, limits.clip_watch)),
        Some(Bound::new(Level::Over, Side::AtMost, limits.clip_over)),
    ];
    Some(Judged::by(ratio, bounds))
}

fn judge(case: &Case) -> Option<Verdict> {
    let numbers = case.solution.mowing?;
    let speeds = case.unit.mowing?;
    let ratio = numbers.clip_to_cut?;
    let limits = &case.unit.limits;
    let level = measure(case)?.level();
    let text = Sentence::new(
        "The clip length is {}, {} times the height of cut (watch above {}, over above {}).",
        &[
            numbers.clip_length.into(),
            ratio.into(),
            limits.clip_watch.into(),
            limits.clip_over.into(),
        ],
    )
    .judging(1);
    let share = limits.clip_watch.number() / ratio.number();
    let remedy = (level > Level::Fine && share > 0.0).then(|| {
        // Clip length goes with the ground speed and against the reel's.
        let slower = Speed::from_base(speeds.ground_speed.base() * share);
        let faster = Turning::from_base(speeds.reel_speed.base() / share);
        Sentence::new(
            "Driving at {} or slower, or turning the reel at {} or faster as far as its manual allows, would bring it back.",
            &[slower.into(), faster.into()],
        )
    });
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
