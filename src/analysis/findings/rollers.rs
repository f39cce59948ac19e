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

fn judge(case: &Case) -> Option<Verdict> {
    let pose = &case.solution.pose;
    let (front, rear) = (&pose.front_roller, &pose.rear_roller);
    let from_reel = |roller: &RollerOnPlate| {
        roller.centre.distance(pose.centre_on_plate) - pose.reel_radius_mm - roller.radius_mm
    };
    let overlaps = [
        (
            "The front roller and the reel overlap by {}: check the readings.",
            from_reel(front),
        ),
        (
            "The rear roller and the reel overlap by {}: check the readings.",
            from_reel(rear),
        ),
        (
            "The rear roller and the knife overlap by {}: check the readings.",
            from_knife_mm(case, rear),
        ),
    ];
    let deepest = overlaps.into_iter().min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((template, clear_mm)) = deepest
        && clear_mm < 0.0
    {
        let text = Sentence::new(template, &[Length::from_mm(-clear_mm).into()]);
        return Some(Verdict {
            level: Level::Watch,
            text,
        });
    }
    let far = [
        (
            "The front roller stands {} from where it was measured, more than its own diameter.",
            front,
        ),
        (
            "The rear roller stands {} from where it was measured, more than its own diameter.",
            rear,
        ),
    ]
    .into_iter()
    // Common practice, no source: no bracket carries a roller by more than its own diameter.
    .find(|(_, roller)| roller.moved.mm().abs() > 2.0 * roller.radius_mm);
    if let Some((template, roller)) = far {
        let text = Sentence::new(template, &[Value::Move(roller.moved)]);
        return Some(Verdict {
            level: Level::Watch,
            text,
        });
    }
    let text = Sentence::new(
        "From where they were measured: front roller {}, rear roller {}; both clear reel and knife.",
        &[Value::Move(front.moved), Value::Move(rear.moved)],
    );
    Some(Verdict {
        level: Level::Fine,
        text,
    })
}

/// Whether the rear roller and the knife are in one place: another knife may be too wide for the unit.
pub(super) fn is_knife_in_one_place_with_roller(case: &Case) -> bool {
    from_knife_mm(case, &case.solution.pose.rear_roller) < 0.0
}

/// How clear a roller stands of the knife's body, its back and its underside.
fn from_knife_mm(case: &Case, roller: &RollerOnPlate) -> f64 {
    let plate_from_bar = case.solution.pose.plate_from_bar();
    let [.., body_front, body_back] = underside_on_bar(&case.unit.profile, case.setting);
    let top_back = Point::new(body_back.x, 0.0);
    [(body_front, body_back), (body_back, top_back)]
        .into_iter()
        .map(|(from, to)| {
            let side = Line::new(plate_from_bar * from, plate_from_bar * to);
            side.nearest(roller.centre, 1e-9).distance_sq.sqrt() - roller.radius_mm
        })
        .fold(f64::INFINITY, f64::min)
}
