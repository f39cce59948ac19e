//! The document's ground and wear: what the rollers stand on while mowing, and what is out of true.

use serde::{Deserialize, Serialize};

use super::field::OneOf;
use super::left_out::without_some;
use crate::geometry::GapAt;
use crate::units::{Length, Quantity, System};

/// What the rollers stand on while mowing.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct GroundEntry {
    /// How deep the rollers sink; left out where nobody measured it.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub roller_sink: Option<Quantity<Length>>,
    /// How deep the front roller sinks; as both of them when left out.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub front_sink: Option<Quantity<Length>>,
    /// How deep the rear roller sinks; as both of them when left out.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub rear_sink: Option<Quantity<Length>>,
    /// The ground's shape along the direction of travel.
    #[serde(skip_serializing_if = "ShapeEntry::is_not_measured")]
    pub shape: ShapeEntry,
    /// A straightedge's reading that the shape can be filled from.
    pub straightedge: Option<StraightedgeEntry>,
}

/// A straightedge laid on the ground along the direction of travel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StraightedgeEntry {
    /// Its length.
    pub length: Quantity<Length>,
    /// The gap under it, square to it.
    pub gap: Quantity<Length>,
    /// Where the gap was read.
    pub at: GapPlace,
}

/// Where the gap under a straightedge was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum GapPlace {
    /// Under its middle, both ends resting.
    #[default]
    Middle,
    /// Under each end alike, its middle resting.
    EachEnd,
    /// Under one end, the other held down flat.
    OneEnd,
}

impl OneOf for GapPlace {
    const ALL: &'static [Self] = &[Self::Middle, Self::EachEnd, Self::OneEnd];

    fn word(self) -> &'static str {
        match self {
            Self::Middle => "Middle",
            Self::EachEnd => "EachEnd",
            Self::OneEnd => "OneEnd",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Middle => "the middle, ends resting",
            Self::EachEnd => "each end, middle resting",
            Self::OneEnd => "one end, other held flat",
        }
    }
}

impl GapPlace {
    /// The same for the geometry.
    #[must_use]
    pub const fn gap_at(self) -> GapAt {
        match self {
            Self::Middle => GapAt::Middle,
            Self::EachEnd => GapAt::EachEnd,
            Self::OneEnd => GapAt::OneEnd,
        }
    }
}

/// What is worn or out of true, as a dial gauge and the two ends of the unit show it; each left out
/// where nobody measured it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct WearEntry {
    /// Full reading of a dial gauge on the front roller over a turn.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub front_runout: Option<Quantity<Length>>,
    /// Full reading of a dial gauge on the rear roller over a turn.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub rear_runout: Option<Quantity<Length>>,
    /// Height of cut at one end of the unit less that at the other, without its sign.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub end_difference: Option<Quantity<Length>>,
}

/// The ground's shape along the direction of travel.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum ShapeEntry {
    /// Nobody looked: taken as the plate.
    #[default]
    NotMeasured,
    /// As the plate.
    Level,
    /// A rise of this radius.
    Crest(Quantity<Length>),
    /// A dip of this radius.
    Hollow(Quantity<Length>),
}

/// What the ground is along the direction of travel, without how much.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroundForm {
    /// Nobody looked.
    NotMeasured,
    /// As the plate.
    Level,
    /// A rise.
    Crest,
    /// A dip.
    Hollow,
}

impl OneOf for GroundForm {
    const ALL: &'static [Self] = &[Self::NotMeasured, Self::Level, Self::Crest, Self::Hollow];

    fn word(self) -> &'static str {
        match self {
            Self::NotMeasured => "NotMeasured",
            Self::Level | Self::Crest | Self::Hollow => self.name(),
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::NotMeasured => "not measured",
            Self::Level => "Level",
            Self::Crest => "Crest",
            Self::Hollow => "Hollow",
        }
    }
}

impl ShapeEntry {
    /// What it is, without its radius.
    #[must_use]
    pub const fn form(&self) -> GroundForm {
        match self {
            Self::NotMeasured => GroundForm::NotMeasured,
            Self::Level => GroundForm::Level,
            Self::Crest(_) => GroundForm::Crest,
            Self::Hollow(_) => GroundForm::Hollow,
        }
    }

    /// Whether nobody looked.
    #[must_use]
    pub fn is_not_measured(&self) -> bool {
        self.form() == GroundForm::NotMeasured
    }

    /// Its radius; none for level ground.
    #[must_use]
    pub const fn radius(&self) -> Option<&Quantity<Length>> {
        match self {
            Self::NotMeasured | Self::Level => None,
            Self::Crest(radius) | Self::Hollow(radius) => Some(radius),
        }
    }

    /// Makes it another form. A radius stays; a new one is a place to begin, written in `system`.
    pub fn take_form(&mut self, form: GroundForm, system: System) {
        let radius = self.radius().cloned().unwrap_or_else(|| {
            let (radius, unit) = match system {
                System::Millimetre => (Length::from_mm(6000.0), "m"),
                System::InchDecimal | System::InchFraction => (Length::from_inches(240.0), "ft"),
            };
            Quantity::written_in(radius, unit, 0)
        });
        *self = match form {
            GroundForm::NotMeasured => Self::NotMeasured,
            GroundForm::Level => Self::Level,
            GroundForm::Crest => Self::Crest(radius),
            GroundForm::Hollow => Self::Hollow(radius),
        };
    }
}
