//! The reel at its worst place: the low end of the unit, the worse roller at its lowest.

use super::{Case, Judged, Level, Verdict, above_ground};
use crate::units::Sentence;

pub(super) fn measure(case: &Case) -> Option<Judged> {
    let wear = &case.unit.wear;
    if wear.lowers().mm() == 0.0 {
        return None;
    }
    Some(above_ground(case.solution.on_ground.reel_at_low_end))
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let judged = measure(case)?;
    let left = case.solution.on_ground.reel_at_low_end;
    let lowers = case.unit.wear.lowers();
    let level = judged.level();
    let (text, remedy) = if level == Level::Fine {
        let text = Sentence::new(
            "At the low end, with the worse roller at its lowest, the unit stands {} lower and the reel still clears the ground by {}.",
            &[lowers.into(), left.into()],
        );
        (text, None)
    } else {
        let text = Sentence::new(
            "At the low end, with the worse roller at its lowest, the unit stands {} lower and the reel's blades reach {} into the ground.",
            &[lowers.into(), (-left).into()],
        );
        let remedy = Sentence::new(
            "Bring the rollers parallel to the cut line and true them or their bearings; what is left over by then is told again.",
            &[],
        );
        (text, Some(remedy))
    };
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
