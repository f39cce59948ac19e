//! How far rollers that run out swing the edge over a turn: from some amount on the cut shows it, however
//! clear reel and knife stand.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict};
use crate::analysis::NumberId;
use crate::geometry::RollerOnPlate;
use crate::units::{Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::RunoutSwing,
    id: "runout_swing",
    title: "Roller runout",
    number: Some(NumberId::RunoutSwing),
    measure,
    judge,
    window: None,
    is_adjustable: true,
};

/// From what swing of the cut over a roller's turn on the eye sees a mark, here as in what can make a
/// mark: a twentieth of the height of cut (common practice, no source).
pub(in crate::analysis) fn seen_swing(height_of_cut: Length) -> Length {
    height_of_cut * 0.05
}

fn measure(case: &Case) -> Option<Judged> {
    let seen = seen_swing(case.solution.pose.height_of_cut);
    let bound = Bound::new(Level::Watch, Side::AtMost, seen);
    let swing = case.solution.on_ground.edge_swing;
    case.unit
        .wear
        .has_runout()
        .then(|| Judged::by(swing, [Some(bound)]))
}

fn judge(case: &Case) -> Option<Verdict> {
    let level = measure(case)?.level();
    let swing = case.solution.on_ground.edge_swing;
    let seen = seen_swing(case.solution.pose.height_of_cut);
    let template = match level {
        Level::Fine => "Over a turn of the rollers the edge swings by {} (watch above {}).",
        Level::Watch | Level::Over => {
            "Over a turn of the rollers the edge swings by {} (watch above {}): the cut shows it as a band at every turn."
        }
    };
    let text = Sentence::new(template, &[swing.into(), seen.into()]).judging(0);
    Some(Verdict { level, text })
}

/// The roller whose runout swings the edge more.
pub(super) fn of_roller<'a>(case: &Case<'a>) -> &'a RollerOnPlate {
    let pose = &case.solution.pose;
    let (front, rear) = (&pose.front_roller, &pose.rear_roller);
    let lever_mm = |from: &RollerOnPlate| (pose.edge_on_plate.x - from.centre.x).abs();
    let wear = &case.unit.wear;
    if wear.front_runout.mm() * lever_mm(rear) > wear.rear_runout.mm() * lever_mm(front) {
        front
    } else {
        rear
    }
}
