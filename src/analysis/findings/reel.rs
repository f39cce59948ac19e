//! The reel into the ground that the unit stands on.

use super::{Case, Judged, Level, Verdict, above_ground};
use crate::units::Sentence;

pub(super) fn measure(case: &Case) -> Option<Judged> {
    Some(above_ground(case.solution.on_ground.reel_clearance))
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let clearance = case.solution.on_ground.reel_clearance;
    if measure(case)?.level() == Level::Fine {
        let text = Sentence::new("The reel clears the ground by {}.", &[clearance.into()]);
        return Some(Verdict {
            level: Level::Fine,
            text,
            remedy: None,
        });
    }
    let text = Sentence::new(
        "The reel's blades reach {} into the ground.",
        &[(-clearance).into()],
    );
    let remedy = Some(case.advise_clearing(-clearance));
    Some(Verdict {
        level: Level::Over,
        text,
        remedy,
    })
}
