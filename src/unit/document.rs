//! The document: every value a person can edit, as typed. Its serde form is the unit file.

use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::brackets::BracketEntry;
use super::closing::ClosingReadings;
use super::examples::Examples;
use super::field::OneOf;
use super::fitted::Fitted;
use super::grinding::GrindingEntry;
use super::ground::{GroundEntry, WearEntry};
use super::left_out::without_some;
use super::pieces::Pieces;
use super::setting::SettingEntry;
use crate::geometry::{KnifeSection, Mount, Stance};
use crate::units::{Angle, Length, Quantity, Ratio, Share, Speed, System, Turning};

/// The file format this program writes, and the newest it reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Format;

impl Format {
    /// Its number.
    pub const NUMBER: u32 = 1;
}

/// A cutting unit and what is being tried on it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Document {
    /// The text it was read from, whose remarks and layout a save keeps.
    #[serde(skip)]
    pub as_read: AsRead,
    /// File format.
    pub format: Format,
    /// What the shop calls the unit.
    pub name: String,
    /// Its serial number, or whatever it is known by, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub serial: Option<String>,
    /// The set it mows in; the units of one set must agree.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set: Option<String>,
    /// The day it was measured, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
    /// Whatever else is worth knowing about it, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notes: Option<String>,
    /// Where it cuts; picks the starting limits.
    pub turf: Turf,
    /// The reel from new to scrap.
    pub reel: ReelReadings,
    /// What was measured with the unit standing on the plate.
    pub bench: BenchReadings,
    /// How reel and knife are brought together.
    pub closing: ClosingReadings,
    /// The knife that was on the unit on the bench.
    pub knife: Knife,
    /// Points of screws, bar and guards under the knife.
    #[serde(default)]
    pub hardware: Vec<HardwareReadings>,
    /// Knives to compare.
    #[serde(default)]
    pub options: Vec<Knife>,
    /// What is being tried.
    #[serde(default)]
    pub setting: SettingEntry,
    /// Speeds while mowing.
    #[serde(default)]
    pub mowing: Option<MowingEntry>,
    /// What the rollers stand on while mowing.
    #[serde(default)]
    pub ground: GroundEntry,
    /// What is worn or out of true.
    #[serde(default)]
    pub wear: WearEntry,
    /// What moves the rollers in their brackets.
    #[serde(default, skip_serializing_if = "BracketEntry::is_empty")]
    pub brackets: BracketEntry,
    /// How knives are ground here.
    #[serde(default, skip_serializing_if = "GrindingEntry::is_empty")]
    pub grinding: GrindingEntry,
    /// Limits of one's own trials.
    #[serde(default)]
    pub limits: Option<LimitEntries>,
    /// The readings that nobody measured on this unit yet.
    #[serde(default, skip_serializing_if = "Examples::is_empty")]
    pub examples: Examples,
}

/// The text that a document was read from; none for one that was made here.
///
/// It is nothing that a person edits: two documents of the same values are equal whatever texts they
/// were read from.
#[derive(Clone, Debug, Default)]
pub struct AsRead(Option<Arc<str>>);

impl AsRead {
    /// The text of a file.
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self(Some(text.into()))
    }

    /// The text, if there is one.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        self.0.as_deref()
    }
}

impl PartialEq for AsRead {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// Where a unit cuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Turf {
    /// Greens.
    Green,
    /// Tees.
    Tee,
    /// Fairways and sports ground.
    Fairway,
    /// Rough and park.
    Rough,
}

impl OneOf for Turf {
    const ALL: &'static [Self] = &[Self::Green, Self::Tee, Self::Fairway, Self::Rough];

    fn word(self) -> &'static str {
        self.name()
    }

    fn name(self) -> &'static str {
        match self {
            Self::Green => "Green",
            Self::Tee => "Tee",
            Self::Fairway => "Fairway",
            Self::Rough => "Rough",
        }
    }
}

/// The reel's size from new to scrap.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReelReadings {
    /// Diameter when new.
    pub new_diameter: Quantity<Length>,
    /// Scrap size.
    pub smallest_diameter: Quantity<Length>,
    /// Number of blades.
    pub blades: u32,
}

/// The bench pose as measured; each reading may carry how far it can be off.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BenchReadings {
    /// Reel diameter.
    pub reel_diameter: Quantity<Length>,
    /// Plate to edge.
    pub height_of_cut: Quantity<Length>,
    /// Knife datum against the plate.
    pub attitude: Quantity<Angle>,
    /// Edge behind the vertical through the reel centre.
    pub behind_centre: Quantity<Length>,
    /// Reel surface to edge.
    #[serde(default)]
    pub gap: Quantity<Length>,
    /// The front roller.
    pub front_roller: RollerAhead,
    /// The rear roller.
    pub rear_roller: RollerBehind,
}

/// The front roller as measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RollerAhead {
    /// Diameter.
    pub diameter: Quantity<Length>,
    /// Centre ahead of the edge.
    pub ahead: Quantity<Length>,
}

/// The rear roller as measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RollerBehind {
    /// Diameter.
    pub diameter: Quantity<Length>,
    /// Centre behind the edge.
    pub behind: Quantity<Length>,
}

/// A knife and its section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Knife {
    /// What the shop calls it.
    pub name: String,
    /// Mounting-screw line to edge, along the datum.
    pub reach: Quantity<Length>,
    /// Edge to back.
    pub width: Quantity<Length>,
    /// Thickness of the lip.
    pub lip_thickness: Quantity<Length>,
    /// Edge to where the lip meets the body.
    pub lip_length: Quantity<Length>,
    /// Thickness of the body.
    pub body_thickness: Quantity<Length>,
    /// How far the top face falls below the datum, going back from the edge.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub top_angle: Option<Quantity<Angle>>,
    /// How far the front face leans back, going down from the edge.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub front_angle: Option<Quantity<Angle>>,
    /// Taken off its top face, square to it; none when left out.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub top_ground: Option<Quantity<Length>>,
    /// Taken off its front face, square to it; none when left out.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub face_ground: Option<Quantity<Length>>,
    /// What a supplier asks for one, as written; its first number goes into the total.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<String>,
    /// How many are wanted.
    #[serde(default, skip_serializing_if = "Pieces::is_one")]
    pub quantity: Pieces,
    /// Whatever else is worth knowing about it, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notes: Option<String>,
}

impl Knife {
    /// Its section, in plain values, ground as it is by itself. What a setting grinds off the knife
    /// fitted is in [`Document::section_of`].
    #[must_use]
    pub fn section(&self) -> KnifeSection {
        let off = |ground: &Option<Quantity<Length>>| {
            ground.as_ref().map_or(Length::ZERO, Quantity::value)
        };
        KnifeSection {
            reach: self.reach.value(),
            width: self.width.value(),
            lip_thickness: self.lip_thickness.value(),
            lip_length: self.lip_length.value(),
            body_thickness: self.body_thickness.value(),
            top_angle: self.top_angle.as_ref().map(Quantity::value),
            front_angle: self.front_angle.as_ref().map(Quantity::value),
            top_ground: off(&self.top_ground),
            face_ground: off(&self.face_ground),
        }
    }
}

/// A point under the knife that could drag.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HardwareReadings {
    /// Behind the bench edge, along the datum.
    pub behind: Quantity<Length>,
    /// Below the datum, or below the knife's body for a point on the knife.
    pub below: Quantity<Length>,
    /// What it sits on.
    #[serde(default)]
    pub on: MountEntry,
}

/// What a point of the hardware sits on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum MountEntry {
    /// The bar: it stays whatever knife is fitted.
    #[default]
    Bar,
    /// The knife: it hangs below the fitted knife's body.
    Knife,
}

impl OneOf for MountEntry {
    const ALL: &'static [Self] = &[Self::Bar, Self::Knife];

    fn word(self) -> &'static str {
        match self {
            Self::Bar => "Bar",
            Self::Knife => "Knife",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Bar => "the bed bar",
            Self::Knife => "the knife",
        }
    }
}

impl MountEntry {
    /// The same for the geometry.
    #[must_use]
    pub const fn mount(self) -> Mount {
        match self {
            Self::Bar => Mount::Bar,
            Self::Knife => Mount::Knife,
        }
    }
}

/// Speeds while mowing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MowingEntry {
    /// Forward speed.
    pub ground_speed: Quantity<Speed>,
    /// Reel speed.
    pub reel_speed: Quantity<Turning>,
}

/// Limits of one's own trials; whatever is left out is the turf's starting value.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LimitEntries {
    /// Share of the height of cut above which the sweep should be watched.
    pub sweep_watch: Option<Quantity<Share>>,
    /// Share of the height of cut above which the sweep is too much.
    pub sweep_over: Option<Quantity<Share>>,
    /// Gap above which reel and knife want bringing together.
    pub gap_watch: Option<Quantity<Length>>,
    /// Gap above which they cut no more.
    pub gap_over: Option<Quantity<Length>>,
    /// Least clearance of the knife's underside.
    pub underside: Option<Quantity<Length>>,
    /// How far the edge may run ahead of centre.
    pub ahead_of_centre: Option<Quantity<Length>>,
    /// How far the edge must stand behind centre at least.
    pub behind_centre: Option<Quantity<Length>>,
    /// Clip length over height of cut below which it should be watched.
    pub clip_least: Option<Quantity<Ratio>>,
    /// Clip length over height of cut above which it should be watched.
    pub clip_watch: Option<Quantity<Ratio>>,
    /// Clip length over height of cut above which it is too much.
    pub clip_over: Option<Quantity<Ratio>>,
    /// The attitudes that the roller brackets allow.
    pub attitude_range: Option<AttitudeRange>,
    /// The least room in attitude that a knife is to leave from a new reel to a scrap one.
    pub room: Option<Quantity<Angle>>,
}

/// The attitudes that the roller brackets allow.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AttitudeRange {
    /// The least.
    pub low: Quantity<Angle>,
    /// The most.
    pub high: Quantity<Angle>,
}

impl Document {
    /// Which knife the setting fits. None when no knife has the name it gives.
    #[must_use]
    pub fn fitted(&self) -> Option<Fitted> {
        match &self.setting.knife {
            None => Some(Fitted::Bench),
            Some(name) if *name == self.knife.name => Some(Fitted::Bench),
            Some(name) => self
                .options
                .iter()
                .position(|option| option.name == *name)
                .map(Fitted::Option),
        }
    }

    /// The bench knife and every option, in the order they are listed.
    pub fn knives(&self) -> impl Iterator<Item = (Fitted, &Knife)> {
        let options = self.options.iter().enumerate();
        std::iter::once((Fitted::Bench, &self.knife))
            .chain(options.map(|(index, knife)| (Fitted::Option(index), knife)))
    }

    /// The section of one of its knives, ground as it is judged: what the setting says is off belongs
    /// to the knife that it fits, every other knife has its own.
    #[must_use]
    pub fn section_of(&self, place: Fitted, knife: &Knife) -> KnifeSection {
        let own = knife.section();
        let is_fitted = match &self.setting.knife {
            None => place == Fitted::Bench,
            Some(name) => *name == knife.name,
        };
        if !is_fitted {
            return own;
        }
        let set = |ground: &Option<Quantity<Length>>, own: Length| {
            ground.as_ref().map_or(own, Quantity::value)
        };
        KnifeSection {
            top_ground: set(&self.setting.top_ground, own.top_ground),
            face_ground: set(&self.setting.face_ground, own.face_ground),
            ..own
        }
    }

    /// Name of the knife the setting fits.
    #[must_use]
    pub fn fitted_name(&self) -> &str {
        self.setting.knife.as_ref().unwrap_or(&self.knife.name)
    }

    /// The units this document's readings were taken in, seen from its height of cut.
    #[must_use]
    pub fn system(&self) -> System {
        self.bench.height_of_cut.system()
    }

    /// Sets the range of attitude that the brackets allow, or leaves it out.
    pub fn set_attitude_range(&mut self, range: Option<AttitudeRange>) {
        self.limits.get_or_insert_default().attitude_range = range;
        self.drop_empty_limits();
    }

    /// Limits of which none is set are no limits of the unit's own.
    pub(super) fn drop_empty_limits(&mut self) {
        let is_empty = |limits: &mut LimitEntries| *limits == LimitEntries::default();
        self.limits.take_if(is_empty);
    }

    /// Sets attitude and height as wanted, the rollers as given, or one of each, written in `system`,
    /// exact enough that switching from one to another keeps the pose.
    ///
    /// What equals the bench's own reading is still written out: a way of setting was chosen.
    pub fn set_stance(&mut self, stance: Stance, system: System) {
        self.setting.set_stance(stance, system);
    }
}

impl Serialize for Format {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Self::NUMBER)
    }
}

impl<'de> Deserialize<'de> for Format {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match u32::deserialize(deserializer)? {
            Self::NUMBER => Ok(Self),
            other => Err(de::Error::custom(format!(
                "this program does not know format {other}; it reads and writes format {}",
                Self::NUMBER
            ))),
        }
    }
}
