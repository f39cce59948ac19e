//! A lip thicker than the height of cut allows, or ground away.

use super::{Case, FindingId, Judged, Level, Rule, Verdict, with_room};
use crate::analysis::NumberId;
use crate::units::{Angle, Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Lip,
    id: "lip",
    title: "Lip of the knife",
    number: Some(NumberId::LipBottom),
    measure,
    judge,
    window: None,
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let clearance = Length::from_mm(case.solution.lip_bottom_on_plate.y);
    Some(with_room(clearance, case.unit.limits.underside))
}

fn judge(case: &Case) -> Option<Verdict> {
    let setting = case.setting;
    let edge = setting.knife.edge_from_unground();
    let left = setting.knife.lip_thickness - Length::from_mm(edge.y);
    let lip_left = setting.knife.lip_length - Length::from_mm(edge.x);
    if left.mm() <= 0.0 || lip_left.mm() <= 0.0 {
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
