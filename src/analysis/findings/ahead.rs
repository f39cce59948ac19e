//! The edge ahead of the reel's centre, where blades still descend as they meet it.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::units::{Length, Sentence, Value};

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
    let limits = &case.unit.limits;
    let least = limits.behind_centre.unwrap_or(Length::ZERO);
    let bounds = [
        Bound::new(Level::Watch, Side::AtLeast, least),
        Bound::new(Level::Over, Side::AtLeast, -limits.ahead_of_centre),
    ];
    Some(Judged::by(
        case.solution.sweep.behind_centre,
        bounds.map(Some),
    ))
}

fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    let behind = case.solution.sweep.behind_centre;
    margins_mm.push((behind + case.unit.limits.ahead_of_centre).mm());
}

fn judge(case: &Case) -> Option<Verdict> {
    let behind = case.solution.sweep.behind_centre;
    let level = measure(case)?.level();
    let text = match case.unit.limits.behind_centre {
        _ if behind.mm() < 0.0 => {
            let most = case.unit.limits.ahead_of_centre;
            Sentence::new(
                "The edge stands {} ahead of the reel's centre (limit {}): the blades are still coming down as they meet it.",
                &[(-behind).into(), Value::Limit(most)],
            )
            .judging(0)
        }
        Some(least) => Sentence::new(
            "The edge stands {} behind the reel's centre (minimum {}).",
            &[behind.into(), Value::Limit(least)],
        )
        .judging(0),
        None => Sentence::new(
            "The edge stands {} behind the reel's centre.",
            &[behind.into()],
        ),
    };
    Some(Verdict { level, text })
}
