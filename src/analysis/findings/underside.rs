//! The underside of the knife or its hardware too low, or in the ground.

use super::super::Lowest;
use super::{Case, INSIDE, Judged, Level, Verdict, with_room};
use crate::geometry::attitude_for_underside;
use crate::units::Sentence;

pub(super) fn measure(case: &Case) -> Option<Judged> {
    let clearance = case.solution.on_ground.underside_clearance;
    Some(with_room(clearance, case.unit.limits.underside))
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let clearance = case.solution.on_ground.underside_clearance;
    let least = case.unit.limits.underside;
    let level = measure(case)?.level();
    let is_knife = case.solution.on_ground.lowest == Lowest::Knife;
    let text = match (level, is_knife) {
        (Level::Over, true) => Sentence::new(
            "The knife's underside drags: it reaches {} into the ground.",
            &[(-clearance).into()],
        ),
        (Level::Over, false) => Sentence::new(
            "The hardware under the knife drags: it reaches {} into the ground.",
            &[(-clearance).into()],
        ),
        (_, true) => Sentence::new(
            "The knife's underside clears the ground by {} (at least {} wanted).",
            &[clearance.into(), least.into()],
        ),
        (_, false) => Sentence::new(
            "The hardware under the knife clears the ground by {} (at least {} wanted).",
            &[clearance.into(), least.into()],
        ),
    };
    let remedy = (level > Level::Fine).then(|| {
        let short = least * (1.0 + INSIDE) - clearance;
        // Closed form over the plate; on other ground what it gives is tried, and told if it holds.
        let wanted = case.solution.underside_clearance + short;
        let points = case.unit.hardware.iter().copied();
        attitude_for_underside(
            &case.solution.pose,
            &case.unit.profile,
            case.setting,
            points,
            wanted,
        )
        .and_then(|attitude| case.advise_attitude(attitude))
        .unwrap_or_else(|| case.advise_raising(short))
    });
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
