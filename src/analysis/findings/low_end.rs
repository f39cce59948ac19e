//! Reel and underside at their worst place: the low end of the unit, the rollers at their lowest.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, WindowEnd, above_ground, with_room};
use crate::analysis::NumberId;
use crate::units::{Length, Sentence, Value};

pub(super) const REEL_RULE: Rule = Rule {
    finding: FindingId::LowEnd,
    id: "low_end",
    title: "Reel at the low side",
    number: Some(NumberId::ReelAtLowEnd),
    measure: measure_reel,
    judge: judge_reel,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm: reel_margins_mm,
    }),
    is_adjustable: true,
};

pub(super) const UNDERSIDE_RULE: Rule = Rule {
    finding: FindingId::LowEndUnderside,
    id: "low_end_underside",
    title: "Underside at the low side",
    number: Some(NumberId::UndersideAtLowEnd),
    measure: measure_underside,
    judge: judge_underside,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm: underside_margins_mm,
    }),
    is_adjustable: true,
};

/// Whether anything is worn or out of true: without it the worst place is every place.
fn is_worn(case: &Case) -> bool {
    case.unit.wear.is_any()
}

fn measure_reel(case: &Case) -> Option<Judged> {
    is_worn(case).then(|| above_ground(case.solution.on_ground.reel_at_low_end))
}

fn measure_underside(case: &Case) -> Option<Judged> {
    let least = case.unit.limits.underside;
    is_worn(case).then(|| with_room(case.solution.on_ground.underside_at_low_end, least))
}

fn reel_margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(if_worn(case, case.solution.on_ground.reel_at_low_end));
}

/// One for all its points: where another takes over, their least is a crest and no dip, and none of its
/// crossings is hidden between two samples.
fn underside_margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(if_worn(case, case.solution.on_ground.underside_at_low_end));
}

/// A clearance at the low side as a margin: no limit where no place is worse than another.
fn if_worn(case: &Case, clearance: Length) -> f64 {
    if is_worn(case) {
        clearance.mm()
    } else {
        f64::INFINITY
    }
}

fn judge_reel(case: &Case) -> Option<Verdict> {
    let level = measure_reel(case)?.level();
    let on_ground = &case.solution.on_ground;
    let left = on_ground.reel_at_low_end;
    let lowers = on_ground.reel_lowered + case.unit.wear.at_low_end();
    let text = if level == Level::Fine {
        Sentence::new(
            "At the low side, with the rollers at their lowest, the reel hangs {} lower and still clears the ground by {}.",
            &[lowers.into(), left.into()],
        )
    } else {
        Sentence::new(
            "At the low side, with the rollers at their lowest, the reel hangs {} lower and its blades reach {} into the ground.",
            &[lowers.into(), (-left).into()],
        )
    };
    Some(Verdict { level, text })
}

fn judge_underside(case: &Case) -> Option<Verdict> {
    let level = measure_underside(case)?.level();
    let on_ground = &case.solution.on_ground;
    let left = on_ground.underside_at_low_end;
    let lowers = on_ground.underside_lowered + case.unit.wear.at_low_end();
    let text = if level == Level::Over {
        Sentence::new(
            "At the low side, with the rollers at their lowest, the underside hangs {} lower and reaches {} into the ground.",
            &[lowers.into(), (-left).into()],
        )
    } else {
        let least = case.unit.limits.underside;
        Sentence::new(
            "At the low side, with the rollers at their lowest, the underside hangs {} lower and clears the ground by {} (minimum {}).",
            &[lowers.into(), left.into(), Value::Limit(least)],
        )
        .judging(1)
    };
    Some(Verdict { level, text })
}
