//! The edge ahead of the reel's centre, where blades still descend as they meet it.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::units::{Angle, Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Ahead,
    id: "ahead",
    title: "Edge and centre",
    number: Some(NumberId::BehindCentre),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let most = case.unit.limits.ahead_of_centre;
    let bounds = [
        Some(Bound::new(Level::Watch, Side::AtLeast, Length::ZERO)),
        Some(Bound::new(Level::Over, Side::AtLeast, -most)),
    ];
    Some(Judged::by(case.solution.sweep.behind_centre, bounds))
}

fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    let behind = case.solution.sweep.behind_centre;
    margins_mm.push((behind + case.unit.limits.ahead_of_centre).mm());
}

fn judge(case: &Case) -> Option<Verdict> {
    let behind = case.solution.sweep.behind_centre;
    if behind.mm() >= 0.0 {
        let text = Sentence::new(
            "The edge stands {} behind the reel's centre.",
            &[behind.into()],
        );
        return Some(Verdict {
            level: Level::Fine,
            text,
            remedy: None,
        });
    }
    let most = case.unit.limits.ahead_of_centre;
    let level = measure(case)?.level();
    let text = Sentence::new(
        "The edge stands {} ahead of the reel's centre (over beyond {}): the blades are still coming down as they meet it.",
        &[(-behind).into(), most.into()],
    )
    .judging(0);
    // A little past the centre, so that rounding does not leave it ahead.
    let on_centre = case.solution.pose.attitude_on_centre() + Angle::from_deg(0.02);
    let remedy = case.advise_attitude(on_centre);
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
