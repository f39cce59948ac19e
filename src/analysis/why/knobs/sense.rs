//! Changes that can be made and that nobody would make, with the reason.

use super::{Change, Knob, NotSensible};
use crate::analysis::advice::NEAR_HEIGHT;
use crate::analysis::ranges::MOST_OF_LIP;
use crate::analysis::{Case, FindingId, Level};
use crate::units::Measure as _;

/// Why nobody would make a change of a knob for a finding.
pub(super) fn not_sensible(
    case: &Case,
    finding: FindingId,
    knob: Knob,
    change: &Change,
) -> Option<NotSensible> {
    let mut forbids = change.others.iter().filter(|other| other.forbids());
    let knife = &case.setting.knife;
    let to = change.to.base();
    let height = case.solution.pose.height_of_cut.mm();
    let is_over = change
        .others
        .iter()
        .any(|other| other.id == FindingId::Attitude && other.after.level == Level::Over);
    match knob {
        Knob::Attitude
        | Knob::FrontRoller
        | Knob::RearRoller
        | Knob::FrontRollerHeightKept
        | Knob::RearRollerHeightKept
            if is_over =>
        {
            Some(NotSensible::BeyondBracket)
        }
        Knob::FaceGround | Knob::TopGround if finding == FindingId::Clip => {
            Some(NotSensible::GroundForClip)
        }
        Knob::FaceGround if to > MOST_OF_LIP * knife.lip_length.base() => {
            Some(NotSensible::MostOfTheLip)
        }
        Knob::TopGround if to > MOST_OF_LIP * knife.lip_thickness.base() => {
            Some(NotSensible::MostOfTheLip)
        }
        // An edge in the ground has no height to begin from.
        Knob::HeightOfCut
            if height > 0.0 && (to > NEAR_HEIGHT * height || to * NEAR_HEIGHT < height) =>
        {
            Some(NotSensible::OtherTurf)
        }
        _ => forbids.next().map(|other| {
            if other.may_go_over() {
                NotSensible::MayTurnOver(other.id)
            } else if other.before.level == Level::Over {
                NotSensible::FurtherOver(other.id)
            } else {
                NotSensible::TurnsOver(other.id)
            }
        }),
    }
}
