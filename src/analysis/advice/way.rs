//! One thing that can be done about a finding, told so that what is typed back holds.

use super::aim::{Aimed, KeptClear};
use crate::analysis::FindingId;
use crate::units::{Angle, Length, Sentence, Speed, Turning, Value};

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
    },
    /// Another height of cut, attitude kept.
    HeightOfCut {
        /// The height to set.
        to: Length,
        /// How far both rollers move from where they stand.
        rollers: Length,
    },
    /// Another ground speed.
    GroundSpeed(Speed),
    /// Another reel speed.
    ReelSpeed(Turning),
    /// Reel and knife in light contact.
    LightContact,
    /// Another angle of the top face.
    TopAngle(Angle),
    /// Rollers without runout, both ends at one height.
    Trued,
    /// Another knife, a reel or a reading of which nobody knows the measures yet.
    Other(&'static str),
}

impl Way {
    /// How far it moves the front and the rear roller; none where it leaves them where they stand.
    pub(super) const fn roller_moves(&self) -> Option<(Length, Length)> {
        match *self {
            Self::Attitude { front, rear, .. } => Some((front, rear)),
            Self::HeightOfCut { rollers, .. } => Some((rollers, rollers)),
            Self::GroundSpeed(_)
            | Self::ReelSpeed(_)
            | Self::LightContact
            | Self::TopAngle(_)
            | Self::Trued
            | Self::Other(_) => None,
        }
    }

    pub(super) fn attitude(aimed: &Aimed) -> Self {
        let (front, rear) = aimed.rollers;
        Self::Attitude {
            to: Angle::from_deg(aimed.to.base()),
            front,
            rear,
        }
    }

    pub(super) fn height_of_cut(aimed: &Aimed) -> Self {
        Self::HeightOfCut {
            to: Length::from_mm(aimed.to.base()),
            rollers: aimed.rollers.0,
        }
    }

    /// It as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        match *self {
            Self::Attitude { to, front, rear } => Sentence::new(
                "At this height of cut an attitude of {} clears it and makes no other finding worse: front roller {}, rear roller {} from where they stand now.",
                &[to.into(), Value::Move(front), Value::Move(rear)],
            ),
            Self::HeightOfCut { to, rollers } => Sentence::new(
                "At this attitude a height of cut of {} clears it and makes no other finding worse: both rollers {} from where they stand now.",
                &[to.into(), Value::Move(rollers)],
            ),
            Self::GroundSpeed(to) => Sentence::new(
                "At a ground speed of {} it is within its limits. Use it only if the machine's manual allows it.",
                &[to.into()],
            ),
            Self::ReelSpeed(to) => Sentence::new(
                "At a reel speed of {} it is within its limits. Use it only if the machine's manual allows it.",
                &[to.into()],
            ),
            Self::LightContact => Sentence::new("Light contact (zero gap) clears it.", &[]),
            Self::TopAngle(to) => Sentence::new("A top angle of {} clears it.", &[to.into()]),
            Self::Trued => Sentence::new(
                "It goes away with the rollers true and parallel to the cut line: true them or replace their bearings, engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
                &[],
            ),
            Self::Other(told) => Sentence::new(told, &[]),
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
        let has_room = room.base() > 0.0;
        match (finding, has_room) {
            (FindingId::Underside, true) => Sentence::new(
                "It is the least attitude that clears the underside by its limit of {} and {} more.",
                &[limit, room],
            ),
            (FindingId::Underside, false) => Sentence::new(
                "It is the least attitude that clears the underside by its limit of {}.",
                &[limit],
            ),
            (_, true) => Sentence::new(
                "It is the least attitude that clears the underside at the low side by its limit of {} and {} more.",
                &[limit, room],
            ),
            (_, false) => Sentence::new(
                "It is the least attitude that clears the underside at the low side by its limit of {}.",
                &[limit],
            ),
        }
    }
}
