//! The reel into the ground that the unit stands on.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, WindowEnd, above_ground};
use crate::analysis::NumberId;
use crate::units::Sentence;

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Reel,
    id: "reel",
    title: "Reel clearance to soil",
    number: Some(NumberId::ReelOnGround),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    Some(above_ground(case.solution.on_ground.reel_clearance))
}

fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(case.solution.on_ground.reel_clearance.mm());
}

fn judge(case: &Case) -> Option<Verdict> {
    let clearance = case.solution.on_ground.reel_clearance;
    if measure(case)?.level() == Level::Fine {
        let text = Sentence::new("The reel clears the ground by {}.", &[clearance.into()]);
        return Some(Verdict {
            level: Level::Fine,
            text,
        });
    }
    let text = Sentence::new(
        "The reel's blades reach {} into the ground.",
        &[(-clearance).into()],
    );
    Some(Verdict {
        level: Level::Over,
        text,
    })
}
