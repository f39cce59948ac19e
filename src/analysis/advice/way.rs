//! One thing that can be done about a finding, told so that what is typed back holds.

use super::aim::{Aimed, KeptClear};
use super::trial::Certainty;
use crate::analysis::FindingId;
use crate::analysis::caution::{at_grinder_or_lathe, hands_on};
use crate::units::{Angle, Length, Rollers, Sentence, Speed, Turning, Value};

/// One thing that can be done about a finding. Its quantities are as they read in the units that it
/// was asked for in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Another attitude, height of cut kept.
    Attitude {
        /// The attitude to set.
        to: Angle,
        /// How far the front roller moves from where it stands.
        front: Length,
        /// How far the rear roller moves from where it stands.
        rear: Length,
        /// How sure it is.
        certainty: Certainty,
    },
    /// Another height of cut, attitude kept.
    HeightOfCut {
        /// The height to set.
        to: Length,
        /// How far both rollers move from where they stand.
        rollers: Length,
        /// How sure it is.
        certainty: Certainty,
    },
    /// Another ground speed.
    GroundSpeed(Speed, Certainty),
    /// Another reel speed.
    ReelSpeed(Turning, Certainty),
    /// Reel and knife in light contact.
    LightContact(Certainty),
    /// Another angle of the top face.
    TopAngle(Angle, Certainty),
    /// Rollers without runout, both ends at one height.
    Trued(Certainty),
    /// Rollers without runout.
    RollersTrue(Certainty),
    /// Another knife, a reel or a reading of which nobody knows the measures yet.
    Other(&'static str),
}

impl Way {
    /// How far it moves the front and the rear roller; none where it leaves them where they stand.
    pub(super) const fn roller_moves(&self) -> Option<(Length, Length)> {
        match *self {
            Self::Attitude { front, rear, .. } => Some((front, rear)),
            Self::HeightOfCut { rollers, .. } => Some((rollers, rollers)),
            Self::GroundSpeed(..)
            | Self::ReelSpeed(..)
            | Self::LightContact(_)
            | Self::TopAngle(..)
            | Self::Trued(_)
            | Self::RollersTrue(_)
            | Self::Other(_) => None,
        }
    }

    /// How sure it is; none where it gives no number that could be.
    #[must_use]
    pub const fn certainty(&self) -> Option<Certainty> {
        match *self {
            Self::Attitude { certainty, .. }
            | Self::HeightOfCut { certainty, .. }
            | Self::GroundSpeed(_, certainty)
            | Self::ReelSpeed(_, certainty)
            | Self::LightContact(certainty)
            | Self::TopAngle(_, certainty)
            | Self::Trued(certainty)
            | Self::RollersTrue(certainty) => Some(certainty),
            Self::Other(_) => None,
        }
    }

    pub(super) fn attitude(aimed: &Aimed) -> Self {
        let (front, rear) = aimed.rollers;
        Self::Attitude {
            to: Angle::from_deg(aimed.to.base()),
            front,
            rear,
            certainty: aimed.certainty,
        }
    }

    pub(super) fn height_of_cut(aimed: &Aimed) -> Self {
        Self::HeightOfCut {
            to: Length::from_mm(aimed.to.base()),
            rollers: aimed.rollers.0,
            certainty: aimed.certainty,
        }
    }

    /// It as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        let is_sure = self.certainty() != Some(Certainty::Reads);
        let told = |sure: &'static str, reads: &'static str| if is_sure { sure } else { reads };
        match *self {
            Self::Attitude {
                to, front, rear, ..
            } => Sentence::new(
                told(
                    "At this height of cut an attitude of {} clears it and makes no other finding worse: {}, {}, from where they are now.",
                    "At this height of cut it reads OK at an attitude of {}, but undecided: a limit lies within the ±: {}, {}, from where they are now.",
                ),
                &[
                    to.into(),
                    Value::MoveOf(Rollers::Front, front),
                    Value::MoveOf(Rollers::Rear, rear),
                ],
            ),
            Self::HeightOfCut { to, rollers, .. } => Sentence::new(
                told(
                    "At this attitude a height of cut of {} clears it and makes no other finding worse: {} from where they are now.",
                    "At this attitude it reads OK at a height of cut of {}, but undecided: a limit lies within the ±: {} from where they are now.",
                ),
                &[to.into(), Value::MoveOf(Rollers::Both, rollers)],
            ),
            Self::GroundSpeed(to, _) => Sentence::new(
                told(
                    "At a ground speed of {} it is within its limits. Use it only if the machine's manual allows it.",
                    "At a ground speed of {} it reads OK, but undecided: a limit lies within the ±. Use it only if the machine's manual allows it.",
                ),
                &[to.into()],
            ),
            Self::ReelSpeed(to, _) => Sentence::new(
                told(
                    "At a reel speed of {} it is within its limits. Use it only if the machine's manual allows it.",
                    "At a reel speed of {} it reads OK, but undecided: a limit lies within the ±. Use it only if the machine's manual allows it.",
                ),
                &[to.into()],
            ),
            Self::LightContact(_) => Sentence::new(
                told(
                    "Light contact (zero gap) clears it.",
                    "With light contact (zero gap) it reads OK, but undecided: a limit lies within the ±.",
                ),
                &[],
            ),
            Self::TopAngle(to, _) => Sentence::new(
                told(
                    "A top angle of {} clears it.",
                    "With a top angle of {} it reads OK, but undecided: a limit lies within the ±.",
                ),
                &[to.into()],
            ),
            Self::Trued(_) => Sentence::new(
                told(
                    concat!(
                        "It goes away with the rollers true and parallel to the cut line: true them or replace their bearings, ",
                        hands_on!(),
                        ". ",
                        at_grinder_or_lathe!()
                    ),
                    concat!(
                        "With the rollers true and parallel to the cut line it reads OK, but undecided: a limit lies within the ±: true them or replace their bearings, ",
                        hands_on!(),
                        ". ",
                        at_grinder_or_lathe!()
                    ),
                ),
                &[],
            ),
            Self::RollersTrue(_) => Sentence::new(
                told(
                    concat!(
                        "It goes away with the rollers true: clean them, check their bearings, then true or replace them, ",
                        hands_on!(),
                        ". ",
                        at_grinder_or_lathe!()
                    ),
                    concat!(
                        "With the rollers true it reads OK, but undecided: a limit lies within the ±: clean them, check their bearings, then true or replace them, ",
                        hands_on!(),
                        ". ",
                        at_grinder_or_lathe!()
                    ),
                ),
                &[],
            ),
            Self::Other(told) => Sentence::new(told, &[]),
        }
    }
}

impl Aimed {
    /// Why it is aimed at: that the readings leave it undecided before that it is the least.
    #[must_use]
    pub(in crate::analysis) fn why(&self) -> Option<Sentence> {
        match self.certainty {
            Certainty::Reads => Some(Sentence::new(
                "It reads OK there, but undecided: a limit lies within the ±.",
                &[],
            )),
            Certainty::Sure => self.kept_clear.map(|kept| kept.sentence()),
        }
    }
}

impl KeptClear {
    /// Why an attitude that was aimed at is the least that will do.
    #[must_use]
    pub(in crate::analysis) fn sentence(&self) -> Sentence {
        let Self {
            finding,
            limit,
            room,
        } = *self;
        let left = room.with_base(limit.base() + room.base());
        if finding == FindingId::Underside {
            Sentence::new(
                "It is the least attitude that leaves {} under the knife (OK limit {}).",
                &[left, limit],
            )
        } else {
            Sentence::new(
                "It is the least attitude that leaves {} under the knife at the low side (OK limit {}).",
                &[left, limit],
            )
        }
    }
}
