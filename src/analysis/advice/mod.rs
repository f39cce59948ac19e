//! What would clear a finding. Whatever is told is told as it reads in somebody's units, and was
//! tried so: typed back, it clears the finding and makes no other one worse. Where none does, what
//! stands in the way is told instead.
//!
//! Advice is worked out when somebody reads it, not when a unit is judged.

mod aim;
mod attitude;
mod lever;
mod other_knife;
mod speed;
mod top_angle;
mod trial;
mod way;

pub(in crate::analysis) use aim::{Aim, Aimed, NEAR_HEIGHT};
pub use attitude::AimedAttitude;
pub(in crate::analysis) use trial::Asked;
pub use trial::Certainty;
pub use way::Way;

use self::lever::{Lever, levers};
use self::other_knife::{listed_knife, other_reach, would_a_thinner_lip_clear};
use self::speed::{no_speed, speed};
use self::top_angle::top_angle;
use self::trial::{Undecided, titles, with_exact};
use super::caution::MOVING_ROLLERS;
use super::dial::{Dial, Scale};
use super::roller_steps::steps_told;
use super::{Case, FindingId, Level, Standings};
use crate::geometry::Setting;
use crate::unit::{Document, Fitted, Follows, Reading, Unit, Wear};
use crate::units::{Length, Sentence, System};

/// What can be done about a finding, and what stands in the way of the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What clears it.
    pub ways: Vec<Way>,
    /// The whole of it in words, in order.
    told: Vec<Told>,
    /// What stands in the way where no way was found.
    in_the_way: Option<String>,
    /// Another knife of the document that clears it; none where there is none, or the knife is not what
    /// the finding is about.
    pub knife: Option<Fitted>,
}

/// A part of what is told.
#[derive(Clone, Debug, PartialEq)]
enum Told {
    Said(Sentence),
    /// What is told in the units that the advice was asked for in: roller moves in turns and spacers,
    /// and what is undecided.
    Worded(String),
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
            knife: None,
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
                    match asked.clears(case.unit, &setting, "Light contact (zero gap)") {
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
                    let readings = [
                        Reading::FrontRunout,
                        Reading::RearRunout,
                        Reading::EndDifference,
                    ];
                    let unit = Unit {
                        wear: Wear::default(),
                        ..with_exact(case.unit, &readings)
                    };
                    let what = "Rollers true and parallel to the cut line";
                    advice.true_up(asked, &unit, (what, Way::Trued), &mut blocked);
                }
                Lever::RollersTrue => {
                    let readings = [Reading::FrontRunout, Reading::RearRunout];
                    let unit = Unit {
                        wear: Wear {
                            end_difference: case.unit.wear.end_difference,
                            ..Wear::default()
                        },
                        ..with_exact(case.unit, &readings)
                    };
                    let what = "Rollers that run true";
                    advice.true_up(asked, &unit, (what, Way::RollersTrue), &mut blocked);
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

    /// The same, with the knife of a document that clears the finding named where the unit as it is set
    /// would have to take another height of cut for the one fitted.
    #[must_use]
    pub fn in_document(
        document: &Document,
        case: &Case,
        finding: FindingId,
        system: System,
    ) -> Option<Self> {
        let mut advice = Self::of(case, finding, system)?;
        let asked = Asked {
            case: *case,
            now: &Standings::of(case),
            finding,
            follows: case.unit.follows,
        };
        let is_the_knife = advice
            .ways
            .iter()
            .all(|way| matches!(way, Way::HeightOfCut { .. } | Way::Other(_)));
        if is_the_knife && let Some((knife, told)) = listed_knife(&asked, document) {
            advice.knife = Some(knife);
            advice.told.push(Told::Worded(told));
        }
        Some(advice)
    }

    /// Tries a unit with less wear.
    fn true_up(
        &mut self,
        asked: Asked,
        unit: &Unit,
        (what, way): (&str, fn(Certainty) -> Way),
        blocked: &mut Vec<String>,
    ) {
        let setting = asked.case.setting;
        match asked.clears(unit, setting, what) {
            Ok(()) => {
                let (sure, open) = asked.sure_of(unit, setting, asked.follows);
                self.add(way(sure), open);
            }
            Err(why) => blocked.push(why),
        }
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
