//! The knife's top face against the reel: with too little relief its heel stands in the reel.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::geometry::heel_to_reel;
use crate::units::{Angle, Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::TopFace,
    id: "top_face",
    title: "Top face of the knife",
    number: Some(NumberId::TopFaceClearance),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let clearance = case.solution.top_face_clearance?;
    let bound = Bound::new(Level::Over, Side::AtLeast, Angle::ZERO);
    Some(Judged::by(clearance, [Some(bound), None]))
}

/// A clearance of less, over the reel's radius, is rounding: tipping the unit leaves it as it is, and
/// zero would be passed and kept at every attitude.
const ROUNDING_MM: f64 = 1e-10;

/// As long as the reel's surface is over the angle of the clearance; no limit where it is not known.
fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    let radius_mm = case.solution.pose.reel_radius_mm;
    let clearance = case.solution.top_face_clearance;
    margins_mm.push(clearance.map_or(f64::INFINITY, |clearance| {
        clearance.rad() * radius_mm + ROUNDING_MM
    }));
}

fn judge(case: &Case) -> Option<Verdict> {
    let needed = case.solution.top_angle_needed;
    let given = case
        .setting
        .knife
        .top_angle
        .zip(case.solution.top_face_clearance);
    let (level, text) = match given {
        None if needed.deg() <= 0.0 => (
            Level::Fine,
            Sentence::new("The top face clears the reel with no relief.", &[]),
        ),
        None => (
            Level::Fine,
            Sentence::new(
                "The top face needs more than {} of relief: can your grinder give it? The knife's own top angle is not entered.",
                &[needed.into()],
            ),
        ),
        Some((top_angle, clearance)) => clear_by(case, top_angle, clearance),
    };
    Some(Verdict { level, text })
}

fn clear_by(case: &Case, top_angle: Angle, clearance: Angle) -> (Level, Sentence) {
    let needed = case.solution.top_angle_needed;
    if clearance.deg() >= 0.0 {
        let text = Sentence::new(
            "The top face has {} of relief and clears the reel, which needs {}.",
            &[top_angle.into(), needed.into()],
        );
        return (Level::Fine, text);
    }
    let pose = &case.solution.pose;
    let radius = Length::from_mm(pose.reel_radius_mm);
    let heel = heel_to_reel(radius, pose.gap, clearance);
    let values = |heel: Length| [top_angle.into(), needed.into(), heel.into()];
    let text = if heel.mm() < 0.0 {
        Sentence::new(
            "The top face has {} of relief, and the reel needs {}: behind the edge it stands {} inside the reel, which rides on the heel, and the edge does not cut.",
            &values(-heel),
        )
    } else {
        Sentence::new(
            "The top face has {} of relief, and the reel needs {}: behind the edge it comes within {} of the reel, closer than the edge, which does not cut.",
            &values(heel),
        )
    };
    (Level::Over, text)
}
