//! A document in plain values: checked once, and no more after that.

use kurbo::Point;

use super::brackets::Brackets;
use super::closing::ClosingReadings;
use super::document::{BenchReadings, Document, HardwareReadings};
use super::field::{Field, KnifePart, KnifeText, Reading};
use super::fitted::Fitted;
use super::flaw::Flaw;
use super::grinding::Grinding;
use super::ground::{GroundEntry, ShapeEntry};
use super::limits::Limits;
use super::looked::LookedFor;
use super::relations;
use super::setting::SettingEntry;
use super::uncertain::{Follows, Uncertain, uncertain_readings};
use super::wear::Wear;
use super::{Knife, MowingEntry, RollerMoves};
use crate::geometry::{
    Bench, Closing, GroundShape, Hardware, HardwarePoint, KnifeSection, Number, Place, Profile,
    Roller, Setting, Sink, Stance, clip_length,
};
use crate::units::{Length, Measure, Quantity, Speed, System, Turning};

/// Speeds while mowing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mowing<N = f64> {
    /// Forward speed.
    pub ground_speed: Speed<N>,
    /// Reel speed.
    pub reel_speed: Turning<N>,
}

impl Mowing {
    /// The same without a derivative.
    pub(crate) fn exact<N: Number>(&self) -> Mowing<N> {
        Mowing {
            ground_speed: self.ground_speed.exact(),
            reel_speed: self.reel_speed.exact(),
        }
    }
}

/// A document that makes sense, in plain values.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// What does not change with the setting.
    pub profile: Profile,
    /// What is being tried.
    pub setting: Setting,
    /// The knife fitted.
    pub fitted: Fitted,
    /// Which values of the setting follow the bench's readings.
    pub follows: Follows,
    /// Points under the knife that could drag.
    pub hardware: Hardware,
    /// Reel diameter when new.
    pub new_diameter: Length,
    /// Scrap size.
    pub smallest_diameter: Length,
    /// Number of blades.
    pub blades: u32,
    /// Speeds while mowing.
    pub mowing: Option<Mowing>,
    /// The ground's shape.
    pub shape: GroundShape,
    /// How deep the rollers sink.
    pub sink: Sink,
    /// What is worn or out of true.
    pub wear: Wear,
    /// What of sink, shape and wear was measured, be it none.
    pub looked_for: LookedFor,
    /// What moves the rollers in their brackets.
    pub brackets: Brackets,
    /// How knives are ground here.
    pub grinding: Grinding,
    /// The limits in force.
    pub limits: Limits,
    /// The readings that carry a ±.
    pub uncertain: Vec<Uncertain>,
    /// The units its readings were taken in.
    pub system: System,
}

impl Unit {
    /// The points of the hardware on the bar, with the knife of a setting fitted.
    pub fn hardware_on_bar(&self, setting: &Setting) -> impl Iterator<Item = Point> + Clone {
        let fitted = setting.knife;
        let points = self.hardware.points().iter();
        points.map(move |point| Point::from(point.on_bar(&fitted)))
    }

    /// Forward travel between two clips, when the speeds are known.
    #[must_use]
    pub fn clip_length(&self) -> Option<Length> {
        self.mowing
            .map(|m| clip_length(m.ground_speed, m.reel_speed, self.blades))
    }
}

impl Document {
    /// Checks the document and turns it into plain values.
    ///
    /// # Errors
    /// The first value that makes no sense by itself, else the first that makes none beside
    /// another, with its field and what would be right.
    pub fn checked(&self) -> Result<Unit, Flaw> {
        Field::all(self).try_for_each(|field| field.check(self))?;
        let fitted = relations::check(self)?;
        let profile = Profile {
            bench: self.bench.values(),
            closing: self.closing.values(),
            knife: self.knife.section(),
        };
        let fitted_knife = match fitted {
            Fitted::Bench => &self.knife,
            Fitted::Option(index) => &self.options[index],
        };
        let fitted_section = self.section_of(fitted, fitted_knife);
        Ok(Unit {
            setting: self.setting.values(&profile.bench, fitted_section),
            profile,
            fitted,
            follows: Follows::of(&self.setting, fitted),
            hardware: Hardware::new(self.hardware.iter().map(HardwareReadings::values).collect()),
            new_diameter: self.reel.new_diameter.value(),
            smallest_diameter: self.reel.smallest_diameter.value(),
            blades: self.reel.blades,
            mowing: self.mowing.as_ref().map(MowingEntry::values),
            shape: self.ground.shape.value(),
            sink: self.ground.sink(),
            wear: Wear::of(&self.wear),
            looked_for: LookedFor::of(&self.ground, &self.wear),
            brackets: self.brackets.values(),
            grinding: self.grinding.values(),
            limits: Limits::in_force(self.turf, self.limits.as_ref(), self.system()),
            uncertain: uncertain_readings(self),
            system: self.system(),
        })
    }
}

impl Knife {
    /// Checks a knife by itself.
    ///
    /// # Errors
    /// The first value that makes no sense, its field as that of the bench knife.
    pub fn checked(&self) -> Result<KnifeSection, Flaw> {
        let name = Field::KnifeText(Fitted::Bench, KnifeText::Name);
        name.check_entry(self.written(KnifeText::Name))?;
        let quantity = Field::KnifeText(Fitted::Bench, KnifeText::Quantity);
        quantity.check_entry(self.written(KnifeText::Quantity))?;
        for part in KnifePart::ALL {
            let field = Field::Reading(Reading::Knife(Fitted::Bench, part));
            field.check_entry(self.part(part))?;
        }
        relations::knife(Fitted::Bench, self)?;
        Ok(self.section())
    }
}

impl BenchReadings {
    fn values(&self) -> Bench {
        Bench {
            reel_diameter: self.reel_diameter.value(),
            height_of_cut: self.height_of_cut.value(),
            attitude: self.attitude.value(),
            behind_centre: self.behind_centre.value(),
            gap: self.gap.value(),
            front_roller: Roller {
                diameter: self.front_roller.diameter.value(),
                from_edge: self.front_roller.ahead.value(),
            },
            rear_roller: Roller {
                diameter: self.rear_roller.diameter.value(),
                from_edge: self.rear_roller.behind.value(),
            },
        }
    }
}

impl ClosingReadings {
    fn values(&self) -> Closing {
        let point = |ahead: &Quantity<Length>, above: &Quantity<Length>| {
            Place::new(ahead.value().mm(), above.value().mm())
        };
        match self {
            Self::ReelSlides { lean } => Closing::ReelSlides {
                lean: lean.as_ref().map(Quantity::value),
            },
            Self::ReelPivots { ahead, above } => Closing::ReelPivots {
                pivot_in_frame: point(ahead, above),
            },
            Self::KnifePivots { ahead, above } => Closing::KnifePivots {
                pivot_in_frame: point(ahead, above),
            },
            Self::KnifeSlides { lean } => Closing::KnifeSlides {
                lean: lean.as_ref().map(Quantity::value),
            },
        }
    }
}

impl HardwareReadings {
    fn values(&self) -> HardwarePoint {
        HardwarePoint {
            behind: self.behind.value(),
            below: self.below.value(),
            on: self.on.mount(),
        }
    }
}

impl GroundEntry {
    /// How deep the rollers sink.
    #[must_use]
    pub fn sink(&self) -> Sink {
        Sink {
            rollers: self
                .roller_sink
                .as_ref()
                .map_or(Length::ZERO, Quantity::value),
            front: self.front_sink.as_ref().map(Quantity::value),
            rear: self.rear_sink.as_ref().map(Quantity::value),
        }
    }
}

impl SettingEntry {
    /// What is left out is as on the bench.
    fn values(&self, bench: &Bench, knife: KnifeSection) -> Setting {
        fn or<M: Measure>(entry: Option<&Quantity<M>>, otherwise: M) -> M {
            entry.map_or(otherwise, Quantity::value)
        }
        let none = Length::ZERO;
        Setting {
            reel_diameter: or(self.reel_diameter.as_ref(), bench.reel_diameter),
            gap: or(self.gap.as_ref(), bench.gap),
            knife,
            extension: or(self.extension.as_ref(), none),
            stance: self.stance(bench),
        }
    }

    fn stance(&self, bench: &Bench) -> Stance {
        let wanted = self.height_of_cut.as_ref();
        let height_of_cut = wanted.map_or(bench.height_of_cut, Quantity::value);
        let moved = |roller: fn(&RollerMoves) -> &Option<Quantity<Length>>| {
            let moves = self.rollers.as_ref()?;
            roller(moves).as_ref().map(Quantity::value)
        };
        match (moved(|m| &m.front_move), moved(|m| &m.rear_move)) {
            (Some(front_move), Some(rear_move)) => Stance::Rollers {
                front_move,
                rear_move,
            },
            (Some(front_move), None) => Stance::FrontRoller {
                front_move,
                height_of_cut,
            },
            (None, Some(rear_move)) => Stance::RearRoller {
                rear_move,
                height_of_cut,
            },
            (None, None) => {
                let wanted = self.attitude.as_ref();
                Stance::Wanted {
                    attitude: wanted.map_or(bench.attitude, Quantity::value),
                    height_of_cut,
                }
            }
        }
    }
}

impl MowingEntry {
    fn values(&self) -> Mowing {
        Mowing {
            ground_speed: self.ground_speed.value(),
            reel_speed: self.reel_speed.value(),
        }
    }
}

impl ShapeEntry {
    fn value(&self) -> GroundShape {
        match self {
            Self::NotMeasured | Self::Level => GroundShape::Level,
            Self::Crest(radius) => GroundShape::Crest(radius.value()),
            Self::Hollow(radius) => GroundShape::Hollow(radius.value()),
        }
    }
}
