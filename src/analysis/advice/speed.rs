//! Another ground speed or reel speed.

use super::lever::Lever;
use super::trial::{Asked, Certainty, READINGS, Undecided, with_exact};
use super::way::Way;
use crate::analysis::{Level, Side};
use crate::geometry::{ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Mowing, Reading, Unit};
use crate::units::{Measure, Speed, System, Turning, Value};

/// How far inside its limits a clip length is aimed at, as a part of the limit.
const CLIP_ROOM: f64 = 0.03;
/// How far inside where the readings' ± ask for more, as parts of the limit.
const MORE_CLIP_ROOM: [f64; 4] = [CLIP_ROOM, 0.06, 0.1, 0.16];

/// Why a speed brings no advice.
pub(super) const fn no_speed(lever: Lever) -> &'static str {
    match lever {
        Lever::GroundSpeed => "No ground speed that can be set clears it.",
        _ => "No reel speed that can be set clears it.",
    }
}

/// Whether a quantity that must be more than zero is one that can be worked with.
fn is_within<M: Measure>(quantity: M) -> bool {
    let least = M::LEAST.map_or(0.0, |(least, _)| least);
    quantity.base() > 0.0 && (least..=M::MOST.0).contains(&quantity.base())
}

/// Another speed, inside the limit that is passed. Clip length goes with the ground speed and
/// against the reel's. One that is sure, if there is one.
pub(super) fn speed(asked: &Asked, lever: Lever, system: System) -> Option<(Way, Undecided)> {
    let is_sure = |(way, _): &(Way, _)| way.certainty() == Some(Certainty::Sure);
    let mut rooms = MORE_CLIP_ROOM.into_iter();
    rooms
        .find_map(|room| driven(asked, lever, room, system).filter(is_sure))
        .or_else(|| driven(asked, lever, CLIP_ROOM, system))
}

/// Another speed, by such a part of the limit inside it.
fn driven(asked: &Asked, lever: Lever, room: f64, system: System) -> Option<(Way, Undecided)> {
    let case = &asked.case;
    let mowing = case.unit.mowing?;
    let judged = asked.now.get(asked.finding)?.judged?;
    let ratio = judged.value.base();
    let passed = judged
        .limits()
        .filter(|bound| bound.level == Level::Watch)
        .find(|bound| bound.margin(ratio) < 0.0)?;
    let is_too_long = passed.side == Side::AtMost;
    let inside = if is_too_long { 1.0 - room } else { 1.0 + room };
    let clip = case.solution.pose.height_of_cut * (passed.at_base * inside);
    if clip.mm() <= 0.0 {
        return None;
    }
    let is_ground = matches!(lever, Lever::GroundSpeed);
    let mut to: Value = if is_ground {
        ground_speed_for_clip(clip, mowing.reel_speed, case.unit.blades).into()
    } else {
        reel_speed_for_clip(clip, mowing.ground_speed, case.unit.blades).into()
    };
    to = to.as_read_in(system);
    for _ in 0..READINGS {
        let (tried, reading) = match to {
            Value::Speed(ground_speed) => (
                Mowing {
                    ground_speed,
                    ..mowing
                },
                Reading::GroundSpeed,
            ),
            Value::Turning(reel_speed) => (
                Mowing {
                    reel_speed,
                    ..mowing
                },
                Reading::ReelSpeed,
            ),
            _ => return None,
        };
        let unit = Unit {
            mowing: Some(tried),
            ..with_exact(case.unit, &[reading])
        };
        // Nor one that no field would take.
        let can_be_typed = match to {
            Value::Speed(speed) => is_within::<Speed>(speed),
            Value::Turning(turning) => is_within::<Turning>(turning),
            _ => false,
        };
        if can_be_typed && asked.holding(&unit, case.setting).is_some() {
            let (sure, open) = asked.sure_of(&unit, case.setting, asked.follows);
            let way = match to {
                Value::Speed(speed) => Way::GroundSpeed(speed, sure),
                Value::Turning(turning) => Way::ReelSpeed(turning, sure),
                _ => return None,
            };
            return Some((way, open));
        }
        // Slower over the ground for a shorter clip, or a reel that turns faster.
        to = to.next_read_in(system, is_ground != is_too_long);
    }
    None
}
