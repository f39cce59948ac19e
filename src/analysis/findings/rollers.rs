//! Rollers where they cannot be: in the reel, in the knife, or further out than a bracket reaches.

use kurbo::{Line, ParamCurveNearest as _, Point};

use super::{Case, FindingId, Level, Rule, Verdict};
use crate::geometry::{RollerOnPlate, underside_on_bar};
use crate::units::{Length, Sentence, Value};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Rollers,
    id: "rollers",
    title: "Rollers",
    number: None,
    measure: |_| None,
    judge,
    window: None,
    is_adjustable: true,
};

/// What a roller cannot be in one place with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum With {
    Reel,
    Knife,
}

/// One of both rollers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    Front,
    Rear,
}

impl Which {
    const BOTH: [Self; 2] = [Self::Front, Self::Rear];

    const fn of<'a>(self, case: &Case<'a>) -> &'a RollerOnPlate {
        let pose = &case.solution.pose;
        match self {
            Self::Front => &pose.front_roller,
            Self::Rear => &pose.rear_roller,
        }
    }
}

/// The deepest of the places where a roller is in one with reel or knife, and how deep.
fn overlap(case: &Case) -> Option<(Which, With, Length)> {
    let places = Which::BOTH.into_iter().flat_map(|which| {
        let roller = which.of(case);
        [
            (which, With::Reel, from_reel_mm(case, roller)),
            (which, With::Knife, from_knife_mm(case, roller)),
        ]
    });
    let deepest = places.min_by(|a, b| a.2.total_cmp(&b.2));
    let (which, with, clear_mm) = deepest.filter(|(.., clear_mm)| *clear_mm < 0.0)?;
    Some((which, with, Length::from_mm(-clear_mm)))
}

/// The first roller that is further from its bench place than a bracket carries it: by more than its
/// own diameter (common practice, no source).
fn too_far(case: &Case) -> Option<Which> {
    let is_far = |roller: &RollerOnPlate| roller.moved.mm().abs() > 2.0 * roller.radius_mm;
    Which::BOTH.into_iter().find(|which| is_far(which.of(case)))
}

/// The roller that is told of: the one that overlaps, or stands too far off; the one moved further
/// where neither does.
pub(super) fn at_fault<'a>(case: &Case<'a>) -> &'a RollerOnPlate {
    let overlapping = overlap(case).map(|(which, ..)| which);
    if let Some(which) = overlapping.or_else(|| too_far(case)) {
        return which.of(case);
    }
    let [front, rear] = Which::BOTH.map(|which| which.of(case));
    if front.moved.mm().abs() > rear.moved.mm().abs() {
        front
    } else {
        rear
    }
}

fn judge(case: &Case) -> Option<Verdict> {
    let watch = |text| {
        Some(Verdict {
            level: Level::Watch,
            text,
        })
    };
    if let Some((which, with, by)) = overlap(case) {
        let template = match (which, with) {
            (Which::Front, With::Reel) => {
                "The front roller and the reel overlap by {}: check the readings."
            }
            (Which::Rear, With::Reel) => {
                "The rear roller and the reel overlap by {}: check the readings."
            }
            (Which::Front, With::Knife) => {
                "The front roller and the knife overlap by {}: check the readings."
            }
            (Which::Rear, With::Knife) => {
                "The rear roller and the knife overlap by {}: check the readings."
            }
        };
        return watch(Sentence::new(template, &[by.into()]));
    }
    if let Some(which) = too_far(case) {
        let template = match which {
            Which::Front => {
                "The front roller stands {} from where it was measured, more than its own diameter."
            }
            Which::Rear => {
                "The rear roller stands {} from where it was measured, more than its own diameter."
            }
        };
        let moved = which.of(case).moved;
        return watch(Sentence::new(template, &[Value::Move(moved)]));
    }
    let [front, rear] = Which::BOTH.map(|which| which.of(case).moved);
    let text = Sentence::new(
        "From where they were measured: front roller {}, rear roller {}; both clear reel and knife.",
        &[Value::Move(front), Value::Move(rear)],
    );
    Some(Verdict {
        level: Level::Fine,
        text,
    })
}

/// Whether a roller and the knife are in one place: another knife may be too wide for the unit, or
/// reach too far.
pub(super) fn is_knife_in_one_place_with_roller(case: &Case) -> bool {
    let mut rollers = Which::BOTH.into_iter().map(|which| which.of(case));
    rollers.any(|roller| from_knife_mm(case, roller) < 0.0)
}

fn from_reel_mm(case: &Case, roller: &RollerOnPlate) -> f64 {
    let pose = &case.solution.pose;
    roller.centre.distance(pose.centre_on_plate) - pose.reel_radius_mm - roller.radius_mm
}

/// How clear a roller stands of the knife: its front face, its underside and its back.
fn from_knife_mm(case: &Case, roller: &RollerOnPlate) -> f64 {
    let plate_from_bar = case.solution.pose.plate_from_bar();
    let (profile, setting) = (&case.unit.profile, case.setting);
    let [lip_front, lip_back, body_front, body_back] = underside_on_bar(profile, setting);
    let edge = Point::from(setting.edge_on_bar(profile));
    let top_back = Point::new(body_back.x, 0.0);
    let outline = [edge, lip_front, lip_back, body_front, body_back, top_back];
    let outline = outline.map(|on_bar| plate_from_bar * on_bar);
    outline
        .windows(2)
        .map(|side| {
            let side = Line::new(side[0], side[1]);
            side.nearest(roller.centre, 1e-9).distance_sq.sqrt() - roller.radius_mm
        })
        .fold(f64::INFINITY, f64::min)
}
