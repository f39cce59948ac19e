//! The sheet that is filled in at the surface plate, as typed. Its serde form is the file.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

pub use super::roller::Roller;
use super::step::Step;
use crate::unit::AsRead;
use crate::units::{Angle, Length, Quantity, System};

/// The format of sheets that this program writes, and the newest it reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SheetFormat;

impl SheetFormat {
    /// Its number.
    pub const NUMBER: u32 = 1;
}

/// What is written down while one unit's rollers are brought parallel to its cut line. Whatever was
/// not read yet is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Worksheet {
    /// The text it was read from, whose remarks and layout a save keeps.
    #[serde(skip)]
    pub as_read: AsRead,
    /// File format.
    pub plate_sheet: SheetFormat,
    /// The file of its unit, in the same folder; empty for none.
    #[serde(default)]
    pub unit: String,
    /// The day, as 2026-11-25; empty where it is not known.
    #[serde(default)]
    pub date: String,
    /// Who did it.
    #[serde(default)]
    pub by: String,
    /// The machine's hours; empty where they are not known.
    #[serde(default)]
    pub hours: String,
    /// Whatever else is worth knowing.
    #[serde(default)]
    pub notes: String,
    /// The width that the unit cuts.
    pub cut_width: Quantity<Length>,
    /// The gauge bar, measured under both ends of the knife.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bar: Option<BarEntry>,
    /// From the plate's peak to its valley over the places used; left out where it is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plate_flat_within: Option<Quantity<Length>>,
    /// The reel's diameter along it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reel: Option<ThreeEntry<Quantity<Length>>>,
    /// The gap between knife and reel along it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub knife_to_reel: Option<ThreeEntry<Feeler>>,
    /// The front roller.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front: Option<RollerEntry>,
    /// The rear roller.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear: Option<RollerEntry>,
    /// The height of cut measured off the bar, along the knife.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<ThreeEntry<Quantity<Length>>>,
    /// The attitude measured off the bar, at both ends of the knife.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub attitude: Option<EndsEntry>,
    /// How little runout is wanted; the turf's starting value when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub runout_wanted: Option<Quantity<Length>>,
    /// How much runout there may be at most; the turf's starting value when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub runout_most: Option<Quantity<Length>>,
    /// Steps without a reading that are done.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ticked: Vec<Step>,
    /// Steps that want doing again, because something before them was changed since.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub again: Vec<Step>,
}

impl Worksheet {
    /// The units it is written in, seen from its width of cut.
    #[must_use]
    pub fn system(&self) -> System {
        self.cut_width.system()
    }

    /// What was read at one of the rollers.
    #[must_use]
    pub const fn roller(&self, roller: Roller) -> Option<&RollerEntry> {
        match roller {
            Roller::Front => self.front.as_ref(),
            Roller::Rear => self.rear.as_ref(),
        }
    }

    /// The same, to be changed.
    pub const fn roller_mut(&mut self, roller: Roller) -> &mut Option<RollerEntry> {
        match roller {
            Roller::Front => &mut self.front,
            Roller::Rear => &mut self.rear,
        }
    }
}

/// The gauge bar under both ends of the knife.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BarEntry {
    /// Its thickness under the left end.
    pub left: Quantity<Length>,
    /// Its thickness under the right end.
    pub right: Quantity<Length>,
}

/// Readings at both ends.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EndsEntry {
    /// At the left end.
    pub left: Quantity<Angle>,
    /// At the right end.
    pub right: Quantity<Angle>,
}

/// Readings at the left, in the middle and at the right; whatever was not read is left out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThreeEntry<T> {
    /// At the left.
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub left: Option<T>,
    /// In the middle.
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub middle: Option<T>,
    /// At the right.
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub right: Option<T>,
}

/// What is left out, of a kind that may have no default of its own.
fn none<T>() -> Option<T> {
    None
}

impl<T> ThreeEntry<T> {
    /// What was read at a place.
    #[must_use]
    pub const fn at(&self, station: Station) -> Option<&T> {
        match station {
            Station::Left => self.left.as_ref(),
            Station::Middle => self.middle.as_ref(),
            Station::Right => self.right.as_ref(),
        }
    }

    /// Left, middle and right, with their names in the file.
    #[must_use]
    pub fn each(&self) -> [(&'static str, Option<&T>); 3] {
        [
            ("left", self.left.as_ref()),
            ("middle", self.middle.as_ref()),
            ("right", self.right.as_ref()),
        ]
    }
}

/// A leaf that goes in and the next one that does not. Written with its name before the brackets.
#[derive(Clone, Debug, PartialEq)]
pub struct Feeler {
    /// The thickest leaf that goes.
    pub goes: Quantity<Length>,
    /// The thinnest leaf that does not.
    pub stops_at: Quantity<Length>,
}

/// How a gap was read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum GapEntry {
    /// With feeler leaves.
    Feeler {
        /// The thickest leaf that goes.
        goes: Quantity<Length>,
        /// The thinnest leaf that does not.
        stops_at: Quantity<Length>,
    },
    /// As the gap itself.
    Gap(Quantity<Length>),
    /// As the height of the roller's top over the plate, which its diameter is taken from.
    Height(Quantity<Length>),
}

impl GapEntry {
    /// Whether it was read over the roller's top.
    #[must_use]
    pub const fn is_over_top(&self) -> bool {
        matches!(self, Self::Height(_))
    }
}

/// A feeler alone is written as the gap of that kind.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
enum FeelerAlone {
    Feeler {
        goes: Quantity<Length>,
        stops_at: Quantity<Length>,
    },
}

impl Serialize for Feeler {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { goes, stops_at } = self.clone();
        FeelerAlone::Feeler { goes, stops_at }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Feeler {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let FeelerAlone::Feeler { goes, stops_at } = FeelerAlone::deserialize(deserializer)?;
        Ok(Self { goes, stops_at })
    }
}

/// A side of the unit, seen from behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Side {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

impl Side {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Left, Self::Right];

    /// Its word in a sentence.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// One roller: how its ends were read, and what moves them.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RollerEntry {
    /// Between the two places that were read along the roller.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured_apart: Option<Quantity<Length>>,
    /// Between the two adjusters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub adjusters_apart: Option<Quantity<Length>>,
    /// The gap under the left end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<GapEntry>,
    /// The gap under the right end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right: Option<GapEntry>,
    /// The same at the left after half a turn of the roller.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left_half_turn: Option<GapEntry>,
    /// The same at the right after half a turn of the roller.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right_half_turn: Option<GapEntry>,
    /// The roller's diameter where the left height was read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left_diameter: Option<Quantity<Length>>,
    /// The roller's diameter where the right height was read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right_diameter: Option<Quantity<Length>>,
    /// The end that is moved.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub adjust: Option<Side>,
    /// What moves it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub adjuster: Option<AdjusterEntry>,
    /// How parallel it is wanted, over the width of cut; the turf's starting value when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub parallel_within: Option<Quantity<Length>>,
    /// How far it was out of parallel over the width of cut when the work began, right end high positive.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out_before: Option<Quantity<Length>>,
    /// How far the indicator's lever stands from square to the way the roller's surface moves.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lever_angle: Option<Quantity<Angle>>,
    /// Its runout, at as many places along it as were read.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub runout: Vec<RunoutEntry>,
}

/// What moves an end of a roller.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum AdjusterEntry {
    /// An eccentric.
    Eccentric {
        /// How far its centre stands from the bolt's.
        throw: Quantity<Length>,
        /// Where it stands: 0° level, positive up.
        now: Quantity<Angle>,
    },
    /// A thread.
    Thread {
        /// How far one turn moves it along.
        pitch: Quantity<Length>,
        /// How far it leans from the vertical.
        #[serde(default)]
        tilt: Quantity<Angle>,
    },
    /// Shims, of the sizes in stock.
    Shims(Vec<Quantity<Length>>),
}

/// Where along a roller an indicator stood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Station {
    /// Near its left end.
    Left,
    /// Half way along it.
    Middle,
    /// Near its right end.
    Right,
}

impl Station {
    /// All three, from the left.
    pub const ALL: [Self; 3] = [Self::Left, Self::Middle, Self::Right];

    /// Its word in a sentence and in a report.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Middle => "middle",
            Self::Right => "right",
        }
    }
}

/// An indicator's readings round a turn of the roller, at one place along it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunoutEntry {
    /// Where the indicator stood.
    pub station: Station,
    /// The roller's angle and what was read.
    pub readings: Vec<RunoutReading>,
}

/// One reading of an indicator: the roller's angle, and what was read there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunoutReading(pub Quantity<Angle>, pub Quantity<Length>);

impl Serialize for SheetFormat {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Self::NUMBER)
    }
}

impl<'de> Deserialize<'de> for SheetFormat {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match u32::deserialize(deserializer)? {
            Self::NUMBER => Ok(Self),
            other => Err(de::Error::custom(format!(
                "this program does not know plate sheet {other}; it reads and writes plate sheet {}",
                Self::NUMBER
            ))),
        }
    }
}
