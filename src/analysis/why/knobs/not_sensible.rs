//! Why nobody would make a change that can be made.

use crate::analysis::FindingId;

/// Why nobody would make a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSensible {
    /// It turns this finding to over.
    TurnsOver(FindingId),
    /// It leaves undecided whether this finding is over.
    MayTurnOver(FindingId),
    /// It takes this finding further over.
    FurtherOver(FindingId),
    /// A roller would stand where the bracket does not reach.
    BeyondBracket,
    /// Most of the lip would be ground away.
    MostOfTheLip,
    /// Metal would be ground off for what the speeds decide.
    GroundForClip,
    /// The height of cut would be that of other turf.
    OtherTurf,
}

impl NotSensible {
    /// The reason as a sentence.
    #[must_use]
    pub fn told(self) -> String {
        match self {
            Self::TurnsOver(id) => {
                format!(
                    "It takes another finding over limit: {}.",
                    id.title().to_lowercase()
                )
            }
            Self::MayTurnOver(id) => {
                format!(
                    "It may take another finding over limit: {} would be undecided.",
                    id.title().to_lowercase()
                )
            }
            Self::FurtherOver(id) => {
                format!(
                    "It takes another finding further over limit: {}.",
                    id.title().to_lowercase()
                )
            }
            Self::BeyondBracket => {
                "The attitude would be outside what the roller brackets allow.".to_owned()
            }
            Self::MostOfTheLip => "More than half of the lip would be ground away.".to_owned(),
            Self::GroundForClip => {
                "Clip length is a matter of speeds, and metal ground off does not come back."
                    .to_owned()
            }
            Self::OtherTurf => "That height of cut belongs to other turf.".to_owned(),
        }
    }
}
