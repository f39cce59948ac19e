//! The edge at or below the ground.

use super::{Case, Judged, Level, Verdict, above_ground};
use crate::units::Sentence;

pub(super) fn measure(case: &Case) -> Option<Judged> {
    Some(above_ground(case.solution.on_ground.cut))
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let cut = case.solution.on_ground.cut;
    if measure(case)?.level() == Level::Fine {
        let text = Sentence::new("The edge stands {} above the ground.", &[cut.into()]);
        return Some(Verdict {
            level: Level::Fine,
            text,
            remedy: None,
        });
    }
    let text = Sentence::new("The edge stands {} below the ground.", &[(-cut).into()]);
    let remedy = Some(case.advise_clearing(-cut));
    Some(Verdict {
        level: Level::Over,
        text,
        remedy,
    })
}
