//! The lesson as it is written. Its serde form is the file.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::wrong_entry::WrongEntry;
use crate::unit::{AsRead, Document, Field, GroundEntry, SettingEntry};

/// The format of lessons that this program reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LessonFormat;

impl LessonFormat {
    /// Its number.
    pub const NUMBER: u32 = 1;
}

/// A lesson in steps.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lesson {
    /// File format.
    pub lesson: LessonFormat,
    /// What it is about.
    pub title: String,
    /// Its steps, one after the other.
    pub steps: Vec<Step>,
    /// The text it was read from, so that what did not change is written as it was.
    #[serde(skip)]
    pub as_read: AsRead,
}

/// One step: what is shown, and what is said about it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// A few words over it.
    pub title: String,
    /// What is said, two or three sentences; every number in it is a field, as `{sweep}`.
    pub text: String,
    /// What is shown; left out, the same as in the step before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<UnitUse>,
    /// What is shown beside it; left out, nothing is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second: Option<UnitUse>,
    /// What of its unit the presenter may turn; left out, nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slider: Option<super::turned::Turned>,
    /// How it is shown.
    #[serde(default, skip_serializing_if = "is_left_out")]
    pub view: LessonView,
    /// What stays in its place on the picture from step to step.
    #[serde(default, skip_serializing_if = "is_left_out")]
    pub held: Held,
    /// What is drawn more strongly than the rest.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub emphasis: Vec<Emphasis>,
    /// Whether the reel turns: over stems of grass, or by itself where it alone is emphasised.
    #[serde(default, skip_serializing_if = "is_left_out")]
    pub motion: bool,
    /// Up to four numbers, by their fields' names, shown large.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub numbers: Vec<String>,
    /// Whether these are hidden until somebody asks for them.
    #[serde(default, skip_serializing_if = "is_left_out")]
    pub numbers_hidden: bool,
    /// What the presenter is reminded of; nobody else sees it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// What was typed for its settings and is no value, in the order of their fields, the second unit's last;
    /// in no file.
    #[serde(skip)]
    pub wrong: Vec<WrongEntry>,
}

impl Step {
    /// Whether its reel turns: it is asked for, and the view has a reel that can.
    #[must_use]
    pub fn turns(&self) -> bool {
        self.motion && self.view.may_turn()
    }

    /// Whether it shows a chart or a map rather than a drawing of the unit.
    #[must_use]
    pub fn is_chart(&self) -> bool {
        self.view.is_chart() && !self.turns()
    }

    /// Whether it shows, once in motion, the whole reel with one blade that draws its circle, and no grass:
    /// where the reel alone is emphasised.
    #[must_use]
    pub fn is_of_one_blade(&self) -> bool {
        self.emphasis == [Emphasis::Reel]
    }

    /// Puts what stands wrong in a field in the place of what stood wrong there.
    pub fn put_wrong(&mut self, wrong: WrongEntry) {
        let place = |of: &WrongEntry| (of.of_second, of.field);
        match self.wrong.binary_search_by_key(&place(&wrong), place) {
            Ok(at) => self.wrong[at] = wrong,
            Err(at) => self.wrong.insert(at, wrong),
        }
    }

    /// Drops what stands wrong in a field for one of its units.
    pub fn drop_wrong_in(&mut self, of_second: bool, field: Field) {
        self.wrong
            .retain(|wrong| (wrong.of_second, wrong.field) != (of_second, field));
    }

    /// Drops what stands wrong for one of its units.
    pub fn drop_wrong(&mut self, of_second: bool) {
        self.wrong.retain(|wrong| wrong.of_second != of_second);
    }
}

fn is_left_out<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

/// A unit of a step, and what is tried on it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct UnitUse {
    /// A unit file of the lesson's own folder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// A unit written out here, as in a unit file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub embedded: Option<Box<Document>>,
    /// What is tried in place of the unit's own setting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setting: Option<SettingEntry>,
    /// What it stands on in place of the unit's own ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<GroundEntry>,
}

/// How a step is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum LessonView {
    /// The whole unit from the side.
    #[default]
    Whole,
    /// The clip point enlarged.
    Lens,
    /// The whole unit on its ground.
    Ground,
    /// The paths of the blade tips.
    Path,
    /// The height budgets.
    Budget,
    /// The attitude map.
    Map,
    /// Two units side by side at one scale, each in this view.
    SideBySide(SingleView),
}

/// A view of one unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SingleView {
    /// The whole unit from the side.
    Whole,
    /// The clip point enlarged.
    Lens,
    /// The whole unit on its ground.
    Ground,
    /// The height budgets.
    Budget,
}

/// What stays in its place on the picture.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Held {
    /// The ground under the edge.
    #[default]
    Ground,
    /// The knife's edge.
    Edge,
    /// The holes in the bed bar that every knife is screwed to.
    Screws,
    /// The reel's centre.
    ReelCentre,
}

/// What can be drawn more strongly than the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Emphasis {
    /// What is swept below the cut line.
    Sweep,
    /// The vertical through the reel's centre.
    BehindCentre,
    /// The cut line.
    HeightOfCut,
    /// The knife.
    Knife,
    /// The circle of the blade tips.
    Reel,
    /// The rollers.
    Rollers,
    /// Plate or ground.
    Ground,
}

impl LessonView {
    /// Every view, those of one unit first.
    pub const ALL: [Self; 10] = [
        Self::Whole,
        Self::Lens,
        Self::Ground,
        Self::Path,
        Self::Budget,
        Self::Map,
        Self::SideBySide(SingleView::Whole),
        Self::SideBySide(SingleView::Lens),
        Self::SideBySide(SingleView::Ground),
        Self::SideBySide(SingleView::Budget),
    ];

    /// What a person calls it.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Whole => "Whole unit",
            Self::Lens => "Clip point enlarged",
            Self::Ground => "Whole unit on the ground",
            Self::Path => "Paths of the blade tips",
            Self::Budget => "Height budget",
            Self::Map => "Attitude map",
            Self::SideBySide(SingleView::Whole) => "Side by side: whole units",
            Self::SideBySide(SingleView::Lens) => "Side by side: clip points enlarged",
            Self::SideBySide(SingleView::Ground) => "Side by side: on the ground",
            Self::SideBySide(SingleView::Budget) => "Side by side: height budgets",
        }
    }

    /// Whether the reel can turn in it: the blades' path is the one chart that is made by its turning.
    #[must_use]
    pub fn may_turn(self) -> bool {
        !self.is_chart() || self == Self::Path
    }
}

impl LessonView {
    /// Whether it is a chart or a map rather than a drawing of the unit.
    #[must_use]
    pub const fn is_chart(self) -> bool {
        match self {
            Self::Path | Self::Budget | Self::Map | Self::SideBySide(SingleView::Budget) => true,
            Self::Whole
            | Self::Lens
            | Self::Ground
            | Self::SideBySide(SingleView::Whole | SingleView::Lens | SingleView::Ground) => false,
        }
    }
}

impl SingleView {
    /// The same view of one unit alone.
    #[must_use]
    pub const fn alone(self) -> LessonView {
        match self {
            Self::Whole => LessonView::Whole,
            Self::Lens => LessonView::Lens,
            Self::Ground => LessonView::Ground,
            Self::Budget => LessonView::Budget,
        }
    }
}

impl Held {
    /// Every one of them.
    pub const ALL: [Self; 4] = [Self::Ground, Self::Edge, Self::Screws, Self::ReelCentre];

    /// What a person calls it.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Ground => "Ground under the edge",
            Self::Edge => "Knife edge",
            Self::Screws => "Screw holes of the bed bar",
            Self::ReelCentre => "Reel centre",
        }
    }
}

impl Emphasis {
    /// Every one of them.
    pub const ALL: [Self; 7] = [
        Self::Sweep,
        Self::BehindCentre,
        Self::HeightOfCut,
        Self::Knife,
        Self::Reel,
        Self::Rollers,
        Self::Ground,
    ];

    /// What a person calls it.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Sweep => "Sweep",
            Self::BehindCentre => "Behind centre",
            Self::HeightOfCut => "Height of cut",
            Self::Knife => "Knife",
            Self::Reel => "Reel",
            Self::Rollers => "Rollers",
            Self::Ground => "Ground",
        }
    }
}

impl Serialize for LessonFormat {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Self::NUMBER)
    }
}

impl<'de> Deserialize<'de> for LessonFormat {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match u32::deserialize(deserializer)? {
            Self::NUMBER => Ok(Self),
            other => Err(de::Error::custom(format!(
                "this program does not know lesson {other}; it reads lesson {}",
                Self::NUMBER
            ))),
        }
    }
}
