//! What is tried for each finding.

use crate::analysis::dial::Scale;
use crate::analysis::{FindingId, Judged, Level};

/// What can be turned for a finding.
#[derive(Clone, Copy, Debug)]
pub(super) enum Lever {
    Dial(Scale),
    GroundSpeed,
    ReelSpeed,
    LightContact,
    TopAngle,
    Trued,
    /// The rollers without runout, whatever the ends.
    RollersTrue,
    /// Another knife, of more reach or of less.
    Reach,
    /// Another knife, of a thinner lip.
    ThinnerLip,
    Other(&'static str),
}

/// What is tried for a finding, in the order it is told.
pub(super) fn levers(finding: FindingId, level: Level, judged: Option<Judged>) -> Vec<Lever> {
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
        FindingId::RunoutSwing => vec![Lever::RollersTrue],
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
