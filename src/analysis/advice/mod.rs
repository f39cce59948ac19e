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
pub use way::Way;

use super::dial::{Dial, Scale};
use super::{Case, FindingId, Judged, Level, Side, Standings, moves_told};
use crate::geometry::{Setting, ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Fitted, Mowing, Unit, Wear};
use crate::units::{Angle, Length, Measure, Sentence, Speed, System, Turning, Value};

/// How far inside its limits a clip length is aimed at, as a part of the limit.
const CLIP_ROOM: f64 = 0.03;
/// The highest cut that is still the same kind of turf, over the height now (common practice, no
/// source).
pub(in crate::analysis) const NEAR_HEIGHT: f64 = 2.5;
/// By how much a top face is relieved beyond what the reel takes (common practice, no source).
const MORE_RELIEF: Angle = Angle::from_deg(0.5);
/// How many readings from a speed on are tried.
const READINGS: usize = 8;

/// What can be done about a finding, and what stands in the way of the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What clears it.
    pub ways: Vec<Way>,
    /// The whole of it in words, in order.
    sentences: Vec<Sentence>,
    /// The roller moves of an attitude in turns and spacers, where these are known.
    moves: Option<String>,
    /// What stands in the way where no way was found.
    in_the_way: Option<String>,
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
        };
        let mut advice = Self {
            ways: Vec::new(),
            sentences: Vec::new(),
            moves: None,
            in_the_way: None,
        };
        let mut blocked = Vec::new();
        for lever in levers(finding, standing.level, standing.judged) {
            match lever {
                Lever::Dial(scale) => advice.turn(asked, scale, system, &mut blocked),
                Lever::GroundSpeed | Lever::ReelSpeed => {
                    advice.ways.extend(speed(&asked, lever, system));
                }
                Lever::LightContact => {
                    let setting = Setting {
                        gap: Length::ZERO,
                        ..*case.setting
                    };
                    let holds = asked.holding(case.unit, &setting).is_some();
                    advice.ways.extend(holds.then_some(Way::LightContact));
                }
                Lever::TopAngle => advice.ways.extend(top_angle(&asked, system)),
                Lever::Trued => {
                    let unit = Unit {
                        wear: Wear::default(),
                        ..case.unit.clone()
                    };
                    let holds = asked.holding(&unit, case.setting).is_some();
                    advice.ways.extend(holds.then_some(Way::Trued));
                }
                Lever::Other(told) => advice.ways.push(Way::Other(told)),
            }
        }
        for way in &advice.ways {
            if !matches!(way, Way::Attitude { .. }) {
                advice.sentences.push(way.sentence());
            }
        }
        let has_way = advice.ways.iter().any(|way| !matches!(way, Way::Other(_)));
        if blocked.is_empty() && advice.ways.is_empty() {
            let none = "No adjustment by itself clears it and leaves every other finding as it is.";
            blocked.push(none.to_owned());
        }
        advice.in_the_way = (!has_way && !blocked.is_empty()).then(|| blocked.join(" "));
        Some(advice)
    }

    /// Tries a dial.
    fn turn(&mut self, asked: Asked, scale: Scale, system: System, blocked: &mut Vec<String>) {
        let height = asked.case.solution.pose.height_of_cut.mm();
        if scale == Scale::Attitude && height <= 0.0 {
            blocked
                .push("The edge stands in the ground: the height of cut comes first.".to_owned());
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
            (Some(aimed), Scale::HeightOfCut) => self.ways.push(Way::height_of_cut(&aimed)),
            (Some(aimed), _) => {
                let way = Way::attitude(&aimed);
                self.ways.push(way);
                self.sentences.push(way.sentence());
                let kept_clear = aimed.kept_clear.map(|kept| kept.sentence());
                self.sentences.extend(kept_clear);
                let brackets = &asked.case.unit.brackets;
                self.moves = moves_told(aimed.rollers, brackets, system);
            }
            (None, _) => blocked.push(told_blocked(scale, aim.in_the_way())),
        }
    }

    /// The whole of it as somebody reads it in `system`, the one it was asked for in.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let told = self.sentences.iter().map(|said| said.shown_in(system));
        let told = self.in_the_way.iter().cloned().chain(told);
        let told: Vec<_> = told.chain(self.moves.clone()).collect();
        told.join(" ")
    }
}

/// What is tried for a finding, in the order it is told.
fn levers(finding: FindingId, level: Level, judged: Option<Judged>) -> Vec<Lever> {
    let attitude = Lever::Dial(Scale::Attitude);
    let height = Lever::Dial(Scale::HeightOfCut);
    match finding {
        FindingId::Sweep => vec![
            attitude,
            height,
            Lever::Other(
                "A knife with a longer reach sweeps less; so does a thinner one at less attitude.",
            ),
        ],
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
        FindingId::Lip => vec![height, Lever::Other("So would a knife with a thinner lip.")],
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
            let worse: Vec<_> = worse.iter().map(|id| id.title().to_lowercase()).collect();
            format!(
                "The {what} that would clear it by itself makes another finding worse: {}.",
                worse.join(", ")
            )
        }
    }
}

/// A top face relieved by more than the reel takes.
fn top_angle(asked: &Asked, system: System) -> Option<Way> {
    let case = &asked.case;
    let wanted = case.solution.top_angle_needed + MORE_RELIEF;
    let mut to = Value::from(wanted).as_read_in(system);
    for _ in 0..READINGS {
        let relieved = Angle::from_deg(to.base());
        let mut unit = case.unit.clone();
        let mut setting = *case.setting;
        setting.knife.top_angle = Some(relieved);
        if unit.fitted == Fitted::Bench {
            unit.profile.knife.top_angle = Some(relieved);
        }
        let front = setting.knife.front_angle.map_or(0.0, Angle::deg);
        let faces_meet = relieved.deg() + front < 90.0;
        if faces_meet && asked.holding(&unit, &setting).is_some() {
            return Some(Way::TopAngle(relieved));
        }
        to = to.next_read_in(system, true);
    }
    None
}

/// Whether a quantity that must be more than zero is one that can be worked with.
fn is_within<M: Measure>(quantity: M) -> bool {
    let least = M::LEAST.map_or(0.0, |(least, _)| least);
    quantity.base() > 0.0 && (least..=M::MOST.0).contains(&quantity.base())
}

/// Another speed, inside the limit that is passed. Clip length goes with the ground speed and
/// against the reel's.
fn speed(asked: &Asked, lever: Lever, system: System) -> Option<Way> {
    let case = &asked.case;
    let mowing = case.unit.mowing?;
    let judged = asked.now.get(asked.finding)?.judged?;
    let ratio = judged.value.base();
    let passed = judged
        .limits()
        .filter(|bound| bound.level == Level::Watch)
        .find(|bound| bound.margin(ratio) < 0.0)?;
    let is_too_long = passed.side == Side::AtMost;
    let inside = if is_too_long {
        1.0 - CLIP_ROOM
    } else {
        1.0 + CLIP_ROOM
    };
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
        let (tried, way) = match to {
            Value::Speed(ground_speed) => (
                Mowing {
                    ground_speed,
                    ..mowing
                },
                Way::GroundSpeed(ground_speed),
            ),
            Value::Turning(reel_speed) => (
                Mowing {
                    reel_speed,
                    ..mowing
                },
                Way::ReelSpeed(reel_speed),
            ),
            _ => return None,
        };
        let unit = Unit {
            mowing: Some(tried),
            ..case.unit.clone()
        };
        // Nor one that no field would take.
        let can_be_typed = match to {
            Value::Speed(speed) => is_within::<Speed>(speed),
            Value::Turning(turning) => is_within::<Turning>(turning),
            _ => false,
        };
        if can_be_typed && asked.holding(&unit, case.setting).is_some() {
            return Some(way);
        }
        // Slower over the ground for a shorter clip, or a reel that turns faster.
        to = to.next_read_in(system, is_ground != is_too_long);
    }
    None
}
