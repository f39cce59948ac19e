//! A lip thicker than the height of cut allows, or ground away.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, WindowEnd, with_room};
use crate::analysis::NumberId;
use crate::units::{Angle, Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Lip,
    id: "lip",
    title: "Lip of the knife",
    number: Some(NumberId::LipBottom),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let clearance = Length::from_mm(case.solution.lip_bottom_on_plate.y);
    Some(with_room(clearance, case.unit.limits.underside))
}

/// What is left of the lip's thickness and of its length.
fn left(case: &Case) -> [Length; 2] {
    let knife = &case.setting.knife;
    let edge = knife.edge_from_unground();
    [
        knife.lip_thickness - Length::from_mm(edge.y),
        knife.lip_length - Length::from_mm(edge.x),
    ]
}

/// Whether grinding has taken all of it.
fn is_ground_away(left: [Length; 2]) -> bool {
    left.iter().any(|left| left.mm() <= 0.0)
}

/// No attitude brings back a lip that is ground away.
fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    margins_mm.push(if is_ground_away(left(case)) {
        f64::NEG_INFINITY
    } else {
        case.solution.lip_bottom_on_plate.y
    });
}

fn judge(case: &Case) -> Option<Verdict> {
    let [left, lip_left] = left(case);
    if is_ground_away([left, lip_left]) {
        let text = Sentence::new(
            "The lip is ground away: {} of its thickness and {} of its length are left.",
            &[left.into(), lip_left.into()],
        );
        return Some(Verdict {
            level: Level::Over,
            text,
        });
    }
    let pose = &case.solution.pose;
    let least = case.unit.limits.underside;
    let room = pose.height_of_cut - least;
    let level = measure(case)?.level();
    let lowered = lowered_by_thickness(case);
    let allowed = room * (1.0 / lowered);
    let text = if lowered <= 0.0 && level == Level::Fine {
        Sentence::new(
            "The lip is {} thick; its front face leans back so far that its bottom is no lower than the edge.",
            &[left.into()],
        )
    } else if lowered > 0.0 && room.mm() > 0.0 {
        Sentence::new(
            "The lip is {} thick; this height of cut allows {}.",
            &[left.into(), allowed.into()],
        )
        .judging(0)
    } else {
        Sentence::new(
            "The lip is {} thick; this height of cut leaves no room for a lip.",
            &[left.into()],
        )
    };
    Some(Verdict { level, text })
}

/// How much lower a lip's bottom lies for its thickness: down from the edge along the front face, which
/// leans back, and back is up at an attitude.
fn lowered_by_thickness(case: &Case) -> f64 {
    let attitude = case.solution.pose.attitude.rad();
    let front_angle = case.setting.knife.front_angle.unwrap_or(Angle::ZERO).rad();
    attitude.cos() - front_angle.tan() * attitude.sin()
}
