//! The edge at or below the ground.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, WindowEnd, above_ground};
use crate::analysis::NumberId;
use crate::units::Sentence;

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Cut,
    id: "cut",
    title: "Effective height of cut",
    number: Some(NumberId::CutOnGround),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    Some(above_ground(case.solution.on_ground.cut))
}

fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(case.solution.on_ground.cut.mm());
}

fn judge(case: &Case) -> Option<Verdict> {
    let cut = case.solution.on_ground.cut;
    if measure(case)?.level() == Level::Fine {
        let text = Sentence::new("The edge stands {} above the ground.", &[cut.into()]);
        return Some(Verdict {
            level: Level::Fine,
            text,
        });
    }
    let text = Sentence::new("The edge stands {} below the ground.", &[(-cut).into()]);
    Some(Verdict {
        level: Level::Over,
        text,
    })
}
