//! Another angle of the knife's top face.

use super::trial::{Asked, Certainty, READINGS, Undecided, with_exact};
use super::way::Way;
use crate::unit::{Fitted, KnifePart, Reading};
use crate::units::{Angle, System, Value};

/// By how much a top face is relieved beyond what the reel takes (common practice, no source).
const MORE_RELIEF: Angle = Angle::from_deg(0.5);
/// How much where the readings' ± ask for more.
const MORE_RELIEF_STILL: [Angle; 4] = [
    MORE_RELIEF,
    Angle::from_deg(1.0),
    Angle::from_deg(1.5),
    Angle::from_deg(2.5),
];

/// A top face relieved by more than the reel takes, or what stands in its way: one that is sure, if
/// there is one.
pub(super) fn top_angle(asked: &Asked, system: System) -> Result<(Way, Undecided), String> {
    let is_sure = |(way, _): &(Way, _)| way.certainty() == Some(Certainty::Sure);
    let mut reliefs = MORE_RELIEF_STILL.into_iter();
    reliefs
        .find_map(|more| relieved(asked, more, system).ok().filter(is_sure))
        .map_or_else(|| relieved(asked, MORE_RELIEF, system), Ok)
}

/// A top face relieved by so much more than the reel takes, or what stands in its way.
fn relieved(asked: &Asked, more: Angle, system: System) -> Result<(Way, Undecided), String> {
    let mut in_the_way = None;
    let case = &asked.case;
    let wanted = case.solution.top_angle_needed + more;
    let mut to = Value::from(wanted).as_read_in(system);
    for _ in 0..READINGS {
        let relieved = Angle::from_deg(to.base());
        let reading = Reading::Knife(asked.follows.knife, KnifePart::TopAngle);
        let mut unit = with_exact(case.unit, &[reading]);
        let mut setting = *case.setting;
        setting.knife.top_angle = Some(relieved);
        if unit.fitted == Fitted::Bench {
            unit.profile.knife.top_angle = Some(relieved);
        }
        let front = setting.knife.front_angle.map_or(0.0, Angle::deg);
        let faces_meet = relieved.deg() + front < 90.0;
        if faces_meet {
            let what = format!("A top angle of {}", to.shown_in(system));
            match asked.clears(&unit, &setting, &what) {
                Ok(()) => {
                    let (sure, open) = asked.sure_of(&unit, &setting, asked.follows);
                    return Ok((Way::TopAngle(relieved, sure), open));
                }
                Err(why) => in_the_way = in_the_way.or(Some(why)),
            }
        }
        to = to.next_read_in(system, true);
    }
    Err(in_the_way.unwrap_or_else(|| "No top angle that a knife can have clears it.".to_owned()))
}
