//! What would clear a finding. Whatever is told is told as it reads in somebody's units, and was
//! tried so: typed back, it clears the finding and makes no other one worse. Where none does, what
//! stands in the way is told instead.
//!
//! Advice is worked out when somebody reads it, not when a unit is judged.

mod aim;
mod attitude;
mod trial;
mod way;

pub(in crate::analysis) use aim::{Aim, Aimed};
pub use attitude::AimedAttitude;
pub(in crate::analysis) use trial::Asked;
pub use trial::Certainty;
pub use way::Way;

use self::trial::Undecided;
use super::caution::MOVING_ROLLERS;
use super::dial::{Dial, Scale};
use super::roller_steps::steps_told;
use super::{Case, FindingId, Judged, Level, Side, Solution, Standings};
use crate::geometry::{Setting, ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Fitted, Follows, KnifePart, Mowing, Reading, Unit, Wear};
use crate::units::{Angle, Length, Measure, Sentence, Speed, System, Turning, Value};

/// How far inside its limits a clip length is aimed at, as a part of the limit.
const CLIP_ROOM: f64 = 0.03;
/// How far inside where the readings' ± ask for more, as parts of the limit.
const MORE_CLIP_ROOM: [f64; 4] = [CLIP_ROOM, 0.06, 0.1, 0.16];
/// The highest cut that is still the same kind of turf, over the height now (common practice, no
/// source).
pub(in crate::analysis) const NEAR_HEIGHT: f64 = 2.5;
/// By how much a top face is relieved beyond what the reel takes (common practice, no source).
const MORE_RELIEF: Angle = Angle::from_deg(0.5);
/// How much where the readings' ± ask for more.
const MORE_RELIEF_STILL: [Angle; 4] = [
    MORE_RELIEF,
    Angle::from_deg(1.0),
    Angle::from_deg(1.5),
    Angle::from_deg(2.5),
];
/// How many readings from a speed on are tried.
const READINGS: usize = 8;
/// By how much more or less reach it is seen what reach does to the sweep.
const LITTLE_REACH: Length = Length::from_mm(0.1);
/// The lips that are tried, as parts of what is left of the one fitted.
const THINNER: [f64; 5] = [0.75, 0.5, 0.25, 0.1, 0.01];

/// What can be done about a finding, and what stands in the way of the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What clears it.
    pub ways: Vec<Way>,
    /// The whole of it in words, in order.
    told: Vec<Told>,
    /// What stands in the way where no way was found.
    in_the_way: Option<String>,
}

/// A part of what is told.
#[derive(Clone, Debug, PartialEq)]
enum Told {
    Said(Sentence),
    /// What is told in the units that the advice was asked for in: roller moves in turns and spacers,
    /// and what is undecided.
    Worded(String),
}

/// What can be turned for a finding.
#[derive(Clone, Copy, Debug)]
enum Lever {
    Dial(Scale),
    GroundSpeed,
    ReelSpeed,
    LightContact,
    TopAngle,
    Trued,
    /// Another knife, of more reach or of less.
    Reach,
    /// Another knife, of a thinner lip.
    ThinnerLip,
    Other(&'static str),
}

impl Advice {
    /// The advice about a finding that is past a limit, for somebody who reads in `system`; none
    /// where it is fine or does not apply.
    #[must_use]
    pub fn of(case: &Case, finding: FindingId, system: System) -> Option<Self> {
        let now = Standings::of(case);
        let standing = now.get(finding)?;
        if standing.level == Level::Fine {
            return None;
        }
        let asked = Asked {
            case: *case,
            now: &now,
            finding,
            follows: case.unit.follows,
        };
        let mut advice = Self {
            ways: Vec::new(),
            told: Vec::new(),
            in_the_way: None,
        };
        let mut blocked = Vec::new();
        for lever in levers(finding, standing.level, standing.judged) {
            match lever {
                Lever::Dial(scale) => advice.turn(asked, scale, system, &mut blocked),
                Lever::GroundSpeed | Lever::ReelSpeed => match speed(&asked, lever, system) {
                    Some((way, undecided)) => advice.add(way, undecided),
                    None => blocked.push(no_speed(lever).to_owned()),
                },
                Lever::LightContact => {
                    let setting = Setting {
                        gap: Length::ZERO,
                        ..*case.setting
                    };
                    match tried(&asked, case.unit, &setting, "Light contact (zero gap)") {
                        Ok(()) => {
                            let follows = Follows {
                                gap: false,
                                ..asked.follows
                            };
                            let (sure, open) = asked.sure_of(case.unit, &setting, follows);
                            advice.add(Way::LightContact(sure), open);
                        }
                        Err(why) => blocked.push(why),
                    }
                }
                Lever::TopAngle => match top_angle(&asked, system) {
                    Ok((way, undecided)) => advice.add(way, undecided),
                    Err(why) => blocked.push(why),
                },
                Lever::Trued => {
                    let wear = [
                        Reading::FrontRunout,
                        Reading::RearRunout,
                        Reading::EndDifference,
                    ];
                    let unit = Unit {
                        wear: Wear::default(),
                        ..with_exact(case.unit, &wear)
                    };
                    let what = "Rollers true and parallel to the cut line";
                    match tried(&asked, &unit, case.setting, what) {
                        Ok(()) => {
                            let (sure, open) = asked.sure_of(&unit, case.setting, asked.follows);
                            advice.add(Way::Trued(sure), open);
                        }
                        Err(why) => blocked.push(why),
                    }
                }
                Lever::Reach => {
                    if let Some(told) = other_reach(case) {
                        advice.add(Way::Other(told), Undecided::default());
                    }
                }
                Lever::ThinnerLip => {
                    if would_a_thinner_lip_clear(&asked) {
                        let told = "A knife with a thinner lip would clear it.";
                        advice.add(Way::Other(told), Undecided::default());
                    }
                }
                Lever::Other(told) => advice.add(Way::Other(told), Undecided::default()),
            }
        }
        if advice.ways.iter().any(|way| way.roller_moves().is_some()) {
            let caution = Sentence::new(MOVING_ROLLERS, &[]);
            advice.told.push(Told::Said(caution));
        }
        let has_way = advice.ways.iter().any(|way| !matches!(way, Way::Other(_)));
        if blocked.is_empty() && advice.ways.is_empty() {
            let none = "No single adjustment clears it without making another finding worse.";
            blocked.push(none.to_owned());
        }
        advice.in_the_way = (!has_way && !blocked.is_empty()).then(|| blocked.join(" "));
        Some(advice)
    }

    fn add(&mut self, way: Way, undecided: Undecided) {
        self.ways.push(way);
        self.told.push(Told::Said(way.sentence()));
        if !undecided.is_none() {
            let open: Vec<_> = undecided.iter().collect();
            let told = format!("Undecided there: {}.", titles(&open));
            self.told.push(Told::Worded(told));
        }
    }

    /// Tries a dial.
    fn turn(&mut self, asked: Asked, scale: Scale, system: System, blocked: &mut Vec<String>) {
        let height = asked.case.solution.pose.height_of_cut.mm();
        if scale == Scale::Attitude && height <= 0.0 {
            blocked.push("The edge is in the ground: set the height of cut first.".to_owned());
            return;
        }
        let aim = Aim {
            asked,
            dial: Dial {
                case: asked.case,
                scale,
            },
            system,
        };
        // Another height is no advice once it is another kind of turf.
        let is_near = |to: &Aimed| {
            scale != Scale::HeightOfCut
                || asked.finding != FindingId::Sweep
                || to.to.base() <= NEAR_HEIGHT * height
        };
        match (aim.find().filter(is_near), scale) {
            (Some(aimed), _) => {
                let way = match scale {
                    Scale::HeightOfCut => Way::height_of_cut(&aimed),
                    _ => Way::attitude(&aimed),
                };
                self.add(way, aimed.undecided);
                let brackets = &asked.case.unit.brackets;
                let moves = way.roller_moves();
                let steps = moves.and_then(|moves| steps_told(moves, brackets, system));
                self.told.extend(steps.map(Told::Worded));
                let kept_clear = match aimed.certainty {
                    Certainty::Sure => aimed.why(),
                    // Said with the way itself.
                    Certainty::Reads => None,
                };
                self.told.extend(kept_clear.map(Told::Said));
            }
            (None, _) => blocked.push(told_blocked(scale, aim.in_the_way())),
        }
    }

    /// The whole of it as somebody reads it in `system`, the one it was asked for in.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let told = self.told.iter().map(|told| match told {
            Told::Said(said) => said.shown_in(system),
            Told::Worded(worded) => worded.clone(),
        });
        let told: Vec<_> = self.in_the_way.iter().cloned().chain(told).collect();
        told.join(" ")
    }
}

/// What is tried for a finding, in the order it is told.
fn levers(finding: FindingId, level: Level, judged: Option<Judged>) -> Vec<Lever> {
    let attitude = Lever::Dial(Scale::Attitude);
    let height = Lever::Dial(Scale::HeightOfCut);
    match finding {
        FindingId::Sweep => vec![attitude, height, Lever::Reach],
        FindingId::Ahead | FindingId::Attitude => vec![attitude],
        FindingId::Gap => vec![
            Lever::LightContact,
            Lever::Other(
                "Adjust reel to knife, the same at both ends: engine off, key out, reel drive disconnected, reel blocked while you turn the adjusters, cut-resistant gloves on. Then turn the reel slowly with a rod from the shaft's end, hands clear of every blade.",
            ),
        ],
        FindingId::TopFace => vec![
            Lever::TopAngle,
            Lever::Other(
                "Grind the top face to a larger angle, knife off the machine, guards on the grinder, eye, hearing and dust protection on; or fit a knife that has the angle.",
            ),
        ],
        FindingId::Reel => vec![height, attitude],
        FindingId::LowEnd => vec![Lever::Trued, height],
        FindingId::Cut => vec![height],
        FindingId::Underside => vec![attitude, height],
        FindingId::LowEndUnderside => vec![Lever::Trued, attitude, height],
        FindingId::Lip if judged.is_none_or(|judged| judged.level() < level) => {
            vec![Lever::Other("It needs another knife.")]
        }
        FindingId::Lip => vec![height, Lever::ThinnerLip],
        FindingId::Clip => vec![Lever::GroundSpeed, Lever::ReelSpeed],
        FindingId::Scrap if level == Level::Over => vec![Lever::Other("It needs a new reel.")],
        FindingId::Scrap => vec![Lever::Other(
            "Measure it again: engine off, key out, reel blocked, cut-resistant gloves on.",
        )],
        FindingId::Rollers => vec![Lever::Other(
            "Check how far the brackets go, then measure rollers, reel and knife again: engine off, key out, unit and reel blocked, cut-resistant gloves on.",
        )],
    }
}

/// Why a dial brings no advice.
fn told_blocked(scale: Scale, in_the_way: Option<Vec<FindingId>>) -> String {
    let what = match scale {
        Scale::HeightOfCut => "height of cut",
        _ => "attitude",
    };
    match in_the_way {
        None => format!("No {what} by itself clears it."),
        Some(worse) if worse.is_empty() => {
            format!("The {what} that would clear it by itself is out of the range you can set.")
        }
        Some(worse) => {
            format!(
                "The {what} that would clear it by itself makes another finding worse: {}.",
                titles(&worse)
            )
        }
    }
}

fn titles(findings: &[FindingId]) -> String {
    let titles: Vec<_> = findings
        .iter()
        .map(|id| id.title().to_lowercase())
        .collect();
    titles.join(", ")
}

/// Tries a change that has no scale, or says what stands in its way.
fn tried(asked: &Asked, unit: &Unit, setting: &Setting, what: &str) -> Result<(), String> {
    let Some((_, then)) = Asked::tried(unit, setting) else {
        return Err(format!("{what}: reel and knife do not meet there."));
    };
    if !then.is_fine(asked.finding) {
        return Err(format!("{what} would not clear it alone."));
    }
    let worse: Vec<_> = asked.now.worsened(&then).collect();
    if worse.is_empty() {
        return Ok(());
    }
    Err(format!(
        "{what} would clear it, but makes another finding worse: {}.",
        titles(&worse)
    ))
}

/// Why a speed brings no advice.
const fn no_speed(lever: Lever) -> &'static str {
    match lever {
        Lever::GroundSpeed => "No ground speed that can be set clears it.",
        _ => "No reel speed that can be set clears it.",
    }
}

/// What is told of a knife's reach about the sweep: more of it carries the edge ahead, which is towards
/// the reel's centre only for an edge behind it.
fn other_reach(case: &Case) -> Option<&'static str> {
    let sweep_with = |by: Length| {
        let mut setting = *case.setting;
        setting.knife.reach = setting.knife.reach + by;
        let solution = Solution::of(case.unit, &setting).ok()?;
        Some(solution.sweep.below_cut)
    };
    let now = case.solution.sweep.below_cut;
    if sweep_with(LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a longer reach sweeps less; so does a thinner one at less attitude.")
    } else if sweep_with(-LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a shorter reach sweeps less.")
    } else {
        None
    }
}

/// Whether there is a knife of a thinner lip that clears the finding.
fn would_a_thinner_lip_clear(asked: &Asked) -> bool {
    let case = &asked.case;
    let knife = &case.setting.knife;
    let ground = Length::from_mm(knife.edge_from_unground().y);
    let left = knife.lip_thickness - ground;
    let with = |part: f64| {
        let thickness = ground + left * part;
        let mut unit = case.unit.clone();
        let mut setting = *case.setting;
        setting.knife.lip_thickness = thickness;
        if unit.fitted == Fitted::Bench {
            unit.profile.knife.lip_thickness = thickness;
        }
        asked.holding(&unit, &setting).is_some()
    };
    THINNER.into_iter().any(with)
}

/// A unit of which some readings are typed anew, without a ±.
fn with_exact(unit: &Unit, readings: &[Reading]) -> Unit {
    let mut unit = unit.clone();
    unit.uncertain
        .retain(|uncertain| !readings.contains(&uncertain.reading));
    unit
}

/// A top face relieved by more than the reel takes, or what stands in its way: one that is sure, if
/// there is one.
fn top_angle(asked: &Asked, system: System) -> Result<(Way, Undecided), String> {
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
            match tried(asked, &unit, &setting, &what) {
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

/// Whether a quantity that must be more than zero is one that can be worked with.
fn is_within<M: Measure>(quantity: M) -> bool {
    let least = M::LEAST.map_or(0.0, |(least, _)| least);
    quantity.base() > 0.0 && (least..=M::MOST.0).contains(&quantity.base())
}

/// Another speed, inside the limit that is passed. Clip length goes with the ground speed and
/// against the reel's. One that is sure, if there is one.
fn speed(asked: &Asked, lever: Lever, system: System) -> Option<(Way, Undecided)> {
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
