//! The edge at or below the ground.

use super::{Case, Level, Verdict};
use crate::units::Sentence;

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let cut = case.solution.on_ground.cut;
    if cut.mm() > 0.0 {
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
