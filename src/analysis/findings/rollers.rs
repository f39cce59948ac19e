//! Rollers where they cannot be: in the reel, in the knife, or further out than a bracket reaches.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::geometry::RollerOnPlate;
use crate::units::{Length, Rollers, Sentence, Value};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Rollers,
    id: "rollers",
    title: "Rollers",
    number: Some(NumberId::RollerToKnife),
    // A roller in the reel or too far from its bench place is told of as well.
    measure: |_| None,
    judge,
    window: Some(WindowEnd {
        past: Level::Watch,
        margins_mm,
    }),
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

    const fn to_knife(self, case: &Case) -> Length {
        let [front, rear] = case.solution.rollers_to_knife;
        match self {
            Self::Front => front,
            Self::Rear => rear,
        }
    }
}

/// The deepest of the places where a roller is in one with reel or knife, and how deep.
fn overlap(case: &Case) -> Option<(Which, With, Length)> {
    let places = Which::BOTH.into_iter().flat_map(|which| {
        let roller = which.of(case);
        [
            (which, With::Reel, from_reel_mm(case, roller)),
            (which, With::Knife, which.to_knife(case).mm()),
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
                "The front roller and the knife overlap by {}: check the readings. If they are right, it cannot be set so, and no knife passes in Knives that needs it."
            }
            (Which::Rear, With::Knife) => {
                "The rear roller and the knife overlap by {}: check the readings. If they are right, it cannot be set so, and no knife passes in Knives that needs it."
            }
        };
        return watch(Sentence::new(template, &[by.into()]));
    }
    if let Some(which) = too_far(case) {
        let template = match which {
            Which::Front => {
                "The front roller is {} away from where it was measured, more than its own diameter."
            }
            Which::Rear => {
                "The rear roller is {} away from where it was measured, more than its own diameter."
            }
        };
        let moved = Length::from_mm(which.of(case).moved.mm().abs());
        return watch(Sentence::new(template, &[moved.into()]));
    }
    let [front, rear] = Which::BOTH.map(|which| which.of(case).moved);
    let text = Sentence::new(
        "Set so, from where they were measured: {}, {}; both clear reel and knife.",
        &[
            Value::MoveOf(Rollers::Front, front),
            Value::MoveOf(Rollers::Rear, rear),
        ],
    );
    Some(Verdict {
        level: Level::Fine,
        text,
    })
}

/// The nearer roller to the knife. Both in one place end a window: another knife may be too wide for the
/// unit, or reach too far. In the report that is watched alone, since a roller or the knife may as well
/// have been measured wrong.
pub(super) fn to_knife(case: &Case) -> Judged {
    let [front, rear] = case.solution.rollers_to_knife;
    let nearer = if rear < front { rear } else { front };
    let bound = Bound::new(Level::Watch, Side::AtLeast, Length::ZERO);
    Judged::by(nearer, [Some(bound)])
}

/// One for both rollers and every side of the knife: where another takes over, the least is a crest and
/// no dip, and none of its crossings is hidden between two samples.
fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(to_knife(case).margin());
}

fn from_reel_mm(case: &Case, roller: &RollerOnPlate) -> f64 {
    let pose = &case.solution.pose;
    roller.centre.distance(pose.centre_on_plate) - pose.reel_radius_mm - roller.radius_mm
}
