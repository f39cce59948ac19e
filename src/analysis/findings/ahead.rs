//! The edge ahead of the reel's centre, where blades still descend as they meet it.

use super::{Case, Level, Verdict};
use crate::units::{Angle, Sentence};

pub(super) fn judge(case: &Case) -> Option<Verdict> {
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
    let level = if -behind > most {
        Level::Over
    } else {
        Level::Watch
    };
    let text = Sentence::new(
        "The edge stands {} ahead of the reel's centre (over beyond {}): the blades are still coming down as they meet it.",
        &[(-behind).into(), most.into()],
    );
    // A little past the centre, so that rounding does not leave it ahead.
    let on_centre = case.solution.pose.attitude_on_centre() + Angle::from_deg(0.02);
    let remedy = case.advise_attitude(on_centre);
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
