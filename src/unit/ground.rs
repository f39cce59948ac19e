//! The document's ground and wear: what the rollers stand on while mowing, and what is out of true.

use serde::{Deserialize, Serialize};

use crate::geometry::GapAt;
use crate::units::{Length, Quantity, System};

/// What the rollers stand on while mowing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct GroundEntry {
    /// How deep the rollers sink.
    pub roller_sink: Quantity<Length>,
    /// The ground's shape along the direction of travel.
    pub shape: ShapeEntry,
    /// A straightedge's reading that the shape can be filled from.
    pub straightedge: Option<StraightedgeEntry>,
}

impl Default for GroundEntry {
    fn default() -> Self {
        Self {
            roller_sink: no_length(),
            shape: ShapeEntry::Level,
            straightedge: None,
        }
    }
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

impl GapPlace {
    /// Every place, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Middle, Self::EachEnd, Self::OneEnd];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Middle => "the middle, ends resting",
            Self::EachEnd => "each end, middle resting",
            Self::OneEnd => "one end, other held flat",
        }
    }

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

/// What is worn or out of true, as a dial gauge and the two ends of the unit show it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct WearEntry {
    /// Full reading of a dial gauge on the front roller over a turn.
    pub front_runout: Quantity<Length>,
    /// Full reading of a dial gauge on the rear roller over a turn.
    pub rear_runout: Quantity<Length>,
    /// Height of cut at one end of the unit less that at the other, without its sign.
    pub end_difference: Quantity<Length>,
}

impl Default for WearEntry {
    fn default() -> Self {
        Self {
            front_runout: no_length(),
            rear_runout: no_length(),
            end_difference: no_length(),
        }
    }
}

/// The ground's shape along the direction of travel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ShapeEntry {
    /// As the plate.
    Level,
    /// A rise of this radius.
    Crest(Quantity<Length>),
    /// A dip of this radius.
    Hollow(Quantity<Length>),
}

/// Nothing, as it is written where a field was left out.
pub(super) fn no_length() -> Quantity<Length> {
    Quantity::from_value(Length::ZERO, System::Millimetre)
}
