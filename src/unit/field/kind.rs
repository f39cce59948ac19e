//! What kind of thing a field holds.

use super::choice::{Offer, offers};
use crate::unit::Turf;
use crate::unit::closing::ClosingWay;
use crate::unit::document::MountEntry;
use crate::unit::ground::{GapPlace, GroundForm};
use crate::units::{self, Measure, System};

/// What kind of thing a field holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// An angle.
    Angle,
    /// A speed over the ground.
    Speed,
    /// A speed of turning.
    Turning,
    /// A share, in percent.
    Share,
    /// A bare ratio.
    Ratio,
    /// A whole number.
    Count,
    /// A text of one's own.
    Text,
    /// The name of one of the unit's knives.
    Knife,
    /// One of a few.
    Choice(Choice),
}

/// Something that is one of a few.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Where the unit cuts.
    Turf,
    /// How reel and knife are brought together.
    Closing,
    /// What a point of the hardware sits on.
    Mount,
    /// The ground's shape.
    GroundShape,
    /// Where the gap under a straightedge was read.
    GapPlace,
}

impl Kind {
    /// The most that can be worked with, in base units and as it is told to a person; none for what
    /// is no quantity.
    #[must_use]
    pub const fn most(self) -> Option<(f64, &'static str)> {
        match self {
            Self::Length => Some(units::Length::MOST),
            Self::Angle => Some(units::Angle::MOST),
            Self::Speed => Some(units::Speed::MOST),
            Self::Turning => Some(units::Turning::MOST),
            Self::Share => Some(units::Share::MOST),
            Self::Ratio => Some(units::Ratio::MOST),
            Self::Count | Self::Text | Self::Knife | Self::Choice(_) => None,
        }
    }

    /// The least that can be worked with where there must be more than zero, in base units and as it
    /// is told to a person; none where any such value can be.
    pub(in crate::unit) const fn least(self) -> Option<(f64, &'static str)> {
        match self {
            Self::Length => units::Length::LEAST,
            Self::Angle => units::Angle::LEAST,
            Self::Speed => units::Speed::LEAST,
            Self::Turning => units::Turning::LEAST,
            Self::Share => units::Share::LEAST,
            Self::Ratio => units::Ratio::LEAST,
            Self::Count | Self::Text | Self::Knife | Self::Choice(_) => None,
        }
    }

    /// The unit that a bare number gets from a person who works in `system`; none for what is no
    /// quantity, empty for a bare ratio.
    #[must_use]
    pub fn unit_in(self, system: System) -> Option<&'static str> {
        match self {
            Self::Length => Some(units::Length::unit_in(system).0),
            Self::Angle => Some(units::Angle::unit_in(system).0),
            Self::Speed => Some(units::Speed::unit_in(system).0),
            Self::Turning => Some(units::Turning::unit_in(system).0),
            Self::Share => Some(units::Share::unit_in(system).0),
            Self::Ratio => Some(units::Ratio::unit_in(system).0),
            Self::Count | Self::Text | Self::Knife | Self::Choice(_) => None,
        }
    }

    /// So many base units of it as a person who works in `system` writes them; none for what is no
    /// quantity.
    #[must_use]
    pub fn written(self, base: f64, system: System) -> Option<String> {
        match self {
            Self::Length => Some(units::Length::from_base(base).entry(system)),
            Self::Angle => Some(units::Angle::from_base(base).entry(system)),
            Self::Speed => Some(units::Speed::from_base(base).entry(system)),
            Self::Turning => Some(units::Turning::from_base(base).entry(system)),
            Self::Share => Some(units::Share::from_base(base).entry(system)),
            Self::Ratio => Some(units::Ratio::from_base(base).entry(system)),
            Self::Count | Self::Text | Self::Knife | Self::Choice(_) => None,
        }
    }

    /// How it is written in a unit file; a quantity tells its own kind.
    pub(in crate::unit) const fn wanted(self) -> &'static str {
        match self {
            Self::Length
            | Self::Angle
            | Self::Speed
            | Self::Turning
            | Self::Share
            | Self::Ratio => "its value in quotes, with its unit",
            Self::Count => "a whole number, like 8",
            Self::Text => "a text in quotes",
            Self::Knife => "the name of a knife in quotes, or None",
            Self::Choice(choice) => choice.wanted(),
        }
    }
}

impl Choice {
    /// What there is to choose from, in the order it is offered.
    #[must_use]
    pub fn offers(self) -> Vec<Offer> {
        match self {
            Self::Turf => offers::<Turf>(),
            Self::Closing => offers::<ClosingWay>(),
            Self::Mount => offers::<MountEntry>(),
            Self::GroundShape => offers::<GroundForm>(),
            Self::GapPlace => offers::<GapPlace>(),
        }
    }

    pub(super) const fn wanted(self) -> &'static str {
        match self {
            Self::Turf => "one of Green, Tee, Fairway, Rough, without quotes",
            Self::Closing => {
                "ReelSlides(lean: None), ReelPivots(ahead: …, above: …), KnifePivots(ahead: …, above: …) or KnifeSlides(lean: None)"
            }
            Self::Mount => "Bar or Knife, without quotes",
            Self::GroundShape => "Level, Crest(\"6 m\") or Hollow(\"6 m\")",
            Self::GapPlace => "one of Middle, EachEnd, OneEnd, without quotes",
        }
    }
}
