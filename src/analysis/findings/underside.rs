//! The underside of the knife or its hardware too low, or in the ground.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, WindowEnd, with_room};
use crate::analysis::{Lowest, NumberId};
use crate::units::{Sentence, Value};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Underside,
    id: "underside",
    title: "Underside of the knife",
    number: Some(NumberId::UndersideOnGround),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Watch,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let clearance = case.solution.on_ground.underside_clearance;
    Some(with_room(clearance, case.unit.limits.underside))
}

/// One for every point that can be lowest: the lowest of several is not smooth where another takes over.
fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    let ground = &case.solution.terrain;
    margins_mm.extend(case.underside_that_can_be_lowest().map(|place| {
        let clearance = ground.clearance(place);
        (clearance - case.unit.limits.underside).mm()
    }));
}

fn judge(case: &Case) -> Option<Verdict> {
    let clearance = case.solution.on_ground.underside_clearance;
    let least = case.unit.limits.underside;
    let level = measure(case)?.level();
    let is_knife = case.solution.on_ground.lowest == Lowest::Knife;
    let text = match (level, is_knife) {
        (Level::Over, true) => Sentence::new(
            "The knife's underside drags: it reaches {} into the ground.",
            &[(-clearance).into()],
        ),
        (Level::Over, false) => Sentence::new(
            "The hardware under the knife drags: it reaches {} into the ground.",
            &[(-clearance).into()],
        ),
        (_, true) => Sentence::new(
            "The knife's underside clears the ground by {} (minimum {}).",
            &[clearance.into(), Value::Limit(least)],
        )
        .judging(0),
        (_, false) => Sentence::new(
            "The hardware under the knife clears the ground by {} (minimum {}).",
            &[clearance.into(), Value::Limit(least)],
        )
        .judging(0),
    };
    Some(Verdict { level, text })
}
