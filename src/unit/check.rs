//! From a document to a unit: what must hold before anything is reckoned, checked once.

use kurbo::Point;
use thiserror::Error;

use super::document::{
    BenchReadings, ClosingReadings, Document, Fitted, HardwarePoint, Knife, LimitEntries,
    SettingEntry,
};
use super::ground::{ShapeEntry, StraightedgeEntry, WearEntry};
use super::limits::Limits;
use super::uncertain::{Follows, Uncertain, uncertain_readings};
use super::wear::Wear;
use crate::geometry::{
    Bench, Closing, KnifeSection, Profile, Roller, Setting, Shape, Stance, clip_length,
    radius_under_straightedge,
};
use crate::units::{Angle, Length, Measure, Quantity, Speed, System, Turning};

/// A value that makes no sense, and the field it stands in.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{path}: {kind}")]
pub struct Flaw {
    /// The field, as the unit file names it: `bench.reel_diameter`, `options[0].reach`.
    pub path: String,
    /// What is wrong with it.
    pub kind: FlawKind,
}

/// What is wrong with a value, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FlawKind {
    /// Nothing or less where something must be.
    #[error("\"{0}\" must be more than nothing")]
    NotAboveNothing(String),
    /// Less than nothing.
    #[error("\"{0}\" must not be negative")]
    Negative(String),
    /// Far more than anything of its kind.
    #[error("\"{value}\" is out of all proportion; at most {most} can be worked with")]
    OutOfProportion {
        /// The value.
        value: String,
        /// The most of its kind.
        most: &'static str,
    },
    /// An attitude or lean past the upright.
    #[error("\"{0}\" must lie between -90 deg and 90 deg")]
    PastUpright(String),
    /// No blades.
    #[error("a reel needs at least one blade, and no more than 100")]
    Blades,
    /// More than what it must not pass.
    #[error("\"{value}\" must not be more than {of}, \"{most}\"")]
    MoreThan {
        /// The value.
        value: String,
        /// What it must not pass.
        of: &'static str,
        /// The value of that.
        most: String,
    },
    /// A range of one value.
    #[error("\"{0}\" is both the lowest and the highest; a range needs some width")]
    NoRange(String),
    /// A knife without a name.
    #[error("a knife needs a name, so that a setting can fit it")]
    NoName,
    /// Two knives of one name.
    #[error("two knives are called \"{0}\"; give each a name of its own")]
    NameTwice(String),
    /// The setting fits a knife that is not there.
    #[error("no knife is called \"{wanted}\"; there are {known}")]
    NoSuchKnife {
        /// The name wanted.
        wanted: String,
        /// Those there are.
        known: String,
    },
    /// Rollers given together with what follows from them.
    #[error(
        "with the rollers given, attitude and height of cut follow from them; leave this out, or set rollers to None"
    )]
    BesideRollers,
    /// A gap under a straightedge that no crest or hollow leaves.
    #[error(
        "\"{0}\" under this straightedge is a step, no crest or hollow; it must stay under half the straightedge, or under all of it where one end lies flat"
    )]
    Step(String),
    /// A setting with a plus-or-minus.
    #[error("\"{0}\" is a setting and taken as exact; only bench measurements carry ±")]
    SettingWithHalfWidth(String),
}

/// Speeds while mowing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mowing {
    /// Forward speed.
    pub ground_speed: Speed,
    /// Reel speed.
    pub reel_speed: Turning,
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
    /// Points under the knife that could drag, on the bar.
    pub hardware: Vec<Point>,
    /// Reel diameter when new.
    pub new_diameter: Length,
    /// Scrap size.
    pub smallest_diameter: Length,
    /// Number of blades.
    pub blades: u32,
    /// Speeds while mowing.
    pub mowing: Option<Mowing>,
    /// The ground's shape.
    pub shape: Shape,
    /// How deep the rollers sink.
    pub roller_sink: Length,
    /// What is worn or out of true.
    pub wear: Wear,
    /// The limits in force.
    pub limits: Limits,
    /// The readings that carry a ±.
    pub uncertain: Vec<Uncertain>,
    /// The units its readings were taken in.
    pub system: System,
}

impl Unit {
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
    /// The first value that makes no sense, with its field and what would be right.
    pub fn checked(&self) -> Result<Unit, Flaw> {
        let new_diameter = above_nothing("reel.new_diameter", &self.reel.new_diameter)?;
        let smallest_diameter =
            above_nothing("reel.smallest_diameter", &self.reel.smallest_diameter)?;
        not_more_than(
            "reel.smallest_diameter",
            &self.reel.smallest_diameter,
            "the new diameter",
            &self.reel.new_diameter,
        )?;
        if !(1..=100).contains(&self.reel.blades) {
            return Err(flaw("reel.blades", FlawKind::Blades));
        }
        let profile = Profile {
            bench: bench(&self.bench)?,
            closing: closing(&self.closing)?,
            knife: knife("knife", &self.knife)?,
        };
        for (index, option) in self.options.iter().enumerate() {
            knife(&format!("options[{index}]"), option)?;
        }
        distinct_names(self)?;
        let fitted = self.fitted().ok_or_else(|| {
            let names = std::iter::once(&self.knife).chain(&self.options);
            flaw(
                "setting.knife",
                FlawKind::NoSuchKnife {
                    wanted: self.setting.knife.clone().unwrap_or_default(),
                    known: names
                        .map(|k| format!("\"{}\"", k.name))
                        .collect::<Vec<_>>()
                        .join(", "),
                },
            )
        })?;
        let fitted_section = match fitted {
            Fitted::Bench => profile.knife,
            Fitted::Option(index) => self.options[index].section(),
        };
        let mowing = match &self.mowing {
            None => None,
            Some(entry) => Some(Mowing {
                ground_speed: above_nothing("mowing.ground_speed", &entry.ground_speed)?,
                reel_speed: above_nothing("mowing.reel_speed", &entry.reel_speed)?,
            }),
        };
        Ok(Unit {
            setting: setting(&self.setting, &profile.bench, fitted_section)?,
            profile,
            fitted,
            follows: Follows::of(&self.setting, fitted),
            hardware: hardware(&self.hardware)?,
            new_diameter,
            smallest_diameter,
            blades: self.reel.blades,
            mowing,
            shape: match &self.ground.shape {
                ShapeEntry::Level => Shape::Level,
                ShapeEntry::Crest(radius) => Shape::Crest(self::radius("ground.shape", radius)?),
                ShapeEntry::Hollow(radius) => Shape::Hollow(self::radius("ground.shape", radius)?),
            },
            roller_sink: {
                straightedge(self.ground.straightedge.as_ref())?;
                not_negative("ground.roller_sink", &self.ground.roller_sink)?
            },
            wear: wear(&self.wear)?,
            limits: {
                self.limits.as_ref().map_or(Ok(()), check_limits)?;
                Limits::in_force(self.turf, self.limits.as_ref())
            },
            uncertain: uncertain_readings(self),
            system: self.system(),
        })
    }
}

fn bench(readings: &BenchReadings) -> Result<Bench, Flaw> {
    let (front, rear) = (&readings.front_roller, &readings.rear_roller);
    Ok(Bench {
        reel_diameter: above_nothing("bench.reel_diameter", &readings.reel_diameter)?,
        height_of_cut: above_nothing("bench.height_of_cut", &readings.height_of_cut)?,
        attitude: within_upright("bench.attitude", &readings.attitude)?,
        behind_centre: in_proportion("bench.behind_centre", &readings.behind_centre)?,
        gap: not_negative("bench.gap", &readings.gap)?,
        front_roller: Roller {
            diameter: above_nothing("bench.front_roller.diameter", &front.diameter)?,
            from_edge: above_nothing("bench.front_roller.ahead", &front.ahead)?,
        },
        rear_roller: Roller {
            diameter: above_nothing("bench.rear_roller.diameter", &rear.diameter)?,
            from_edge: above_nothing("bench.rear_roller.behind", &rear.behind)?,
        },
    })
}

fn closing(readings: &ClosingReadings) -> Result<Closing, Flaw> {
    let point = |ahead: &Quantity<Length>, above: &Quantity<Length>| {
        let ahead = in_proportion("closing.ahead", ahead)?;
        let above = in_proportion("closing.above", above)?;
        Ok(Point::new(ahead.mm(), above.mm()))
    };
    Ok(match readings {
        ClosingReadings::ReelSlides { lean } => Closing::ReelSlides {
            lean: lean
                .as_ref()
                .map(|lean| within_upright("closing.lean", lean))
                .transpose()?,
        },
        ClosingReadings::ReelPivots { ahead, above } => Closing::ReelPivots {
            pivot_in_frame: point(ahead, above)?,
        },
        ClosingReadings::KnifePivots { ahead, above } => Closing::KnifePivots {
            pivot_in_frame: point(ahead, above)?,
        },
    })
}

fn wear(readings: &WearEntry) -> Result<Wear, Flaw> {
    Ok(Wear {
        front_runout: not_negative("wear.front_runout", &readings.front_runout)?,
        rear_runout: not_negative("wear.rear_runout", &readings.rear_runout)?,
        end_difference: not_negative("wear.end_difference", &readings.end_difference)?,
    })
}

fn straightedge(entry: Option<&StraightedgeEntry>) -> Result<(), Flaw> {
    let Some(entry) = entry else {
        return Ok(());
    };
    above_nothing("ground.straightedge.length", &entry.length)?;
    let gap = not_negative("ground.straightedge.gap", &entry.gap)?;
    let length = entry.length.value();
    match radius_under_straightedge(length.mm(), gap.mm(), entry.at.gap_at()) {
        Ok(_) => Ok(()),
        Err(_) => Err(flaw(
            "ground.straightedge.gap",
            FlawKind::Step(entry.gap.text().to_owned()),
        )),
    }
}

fn hardware(points: &[HardwarePoint]) -> Result<Vec<Point>, Flaw> {
    let checked = points.iter().enumerate().map(|(index, point)| {
        let behind = in_proportion(&format!("hardware[{index}].behind"), &point.behind)?;
        let below = in_proportion(&format!("hardware[{index}].below"), &point.below)?;
        Ok(Point::new(behind.mm(), below.mm()))
    });
    checked.collect()
}

fn knife(path: &str, knife: &Knife) -> Result<KnifeSection, Flaw> {
    let field = |name: &str| format!("{path}.{name}");
    if knife.name.trim().is_empty() {
        return Err(flaw(&field("name"), FlawKind::NoName));
    }
    above_nothing(&field("reach"), &knife.reach)?;
    above_nothing(&field("width"), &knife.width)?;
    above_nothing(&field("lip_thickness"), &knife.lip_thickness)?;
    above_nothing(&field("lip_length"), &knife.lip_length)?;
    above_nothing(&field("body_thickness"), &knife.body_thickness)?;
    not_more_than(
        &field("lip_length"),
        &knife.lip_length,
        "the knife's width",
        &knife.width,
    )?;
    Ok(knife.section())
}

fn distinct_names(document: &Document) -> Result<(), Flaw> {
    let mut seen = vec![document.knife.name.as_str()];
    for (index, option) in document.options.iter().enumerate() {
        if seen.contains(&option.name.as_str()) {
            let kind = FlawKind::NameTwice(option.name.clone());
            return Err(flaw(&format!("options[{index}].name"), kind));
        }
        seen.push(&option.name);
    }
    Ok(())
}

fn setting(entry: &SettingEntry, bench: &Bench, knife: KnifeSection) -> Result<Setting, Flaw> {
    let positive = |path, entry: &Option<Quantity<Length>>, otherwise| match entry {
        None => Ok(otherwise),
        Some(entry) => exact(path, entry).and_then(|_| above_nothing(path, entry)),
    };
    let taken = |path, entry: &Option<Quantity<Length>>, otherwise| match entry {
        None => Ok(otherwise),
        Some(entry) => exact(path, entry).and_then(|_| not_negative(path, entry)),
    };
    let extension = match &entry.extension {
        None => Length::ZERO,
        Some(extension) => exact("setting.extension", extension)?,
    };
    let stance = match &entry.rollers {
        Some(_) if entry.attitude.is_some() => {
            return Err(flaw("setting.attitude", FlawKind::BesideRollers));
        }
        Some(_) if entry.height_of_cut.is_some() => {
            return Err(flaw("setting.height_of_cut", FlawKind::BesideRollers));
        }
        Some(moves) => {
            let front_move = exact("setting.rollers.front_move", &moves.front_move)?;
            let rear_move = exact("setting.rollers.rear_move", &moves.rear_move)?;
            Stance::Rollers {
                front_move,
                rear_move,
            }
        }
        None => Stance::Wanted {
            attitude: match &entry.attitude {
                None => bench.attitude,
                Some(attitude) => exact("setting.attitude", attitude)
                    .and_then(|_| within_upright("setting.attitude", attitude))?,
            },
            height_of_cut: positive(
                "setting.height_of_cut",
                &entry.height_of_cut,
                bench.height_of_cut,
            )?,
        },
    };
    Ok(Setting {
        reel_diameter: positive(
            "setting.reel_diameter",
            &entry.reel_diameter,
            bench.reel_diameter,
        )?,
        gap: taken("setting.gap", &entry.gap, bench.gap)?,
        knife,
        extension,
        top_ground: taken("setting.top_ground", &entry.top_ground, Length::ZERO)?,
        face_ground: taken("setting.face_ground", &entry.face_ground, Length::ZERO)?,
        stance,
    })
}

fn check_limits(entries: &LimitEntries) -> Result<(), Flaw> {
    fn given<M: Measure>(path: &str, entry: Option<&Quantity<M>>) -> Result<(), Flaw> {
        entry.map_or(Ok(()), |entry| not_negative(path, entry).map(drop))
    }
    given("limits.sweep_watch", entries.sweep_watch.as_ref())?;
    given("limits.sweep_over", entries.sweep_over.as_ref())?;
    given("limits.underside", entries.underside.as_ref())?;
    given("limits.ahead_of_centre", entries.ahead_of_centre.as_ref())?;
    given("limits.clip_watch", entries.clip_watch.as_ref())?;
    given("limits.clip_over", entries.clip_over.as_ref())?;
    if let (Some(watch), Some(over)) = (&entries.sweep_watch, &entries.sweep_over) {
        not_more_than("limits.sweep_watch", watch, "sweep_over", over)?;
    }
    if let (Some(watch), Some(over)) = (&entries.clip_watch, &entries.clip_over) {
        not_more_than("limits.clip_watch", watch, "clip_over", over)?;
    }
    if let Some(range) = &entries.attitude_range {
        within_upright("limits.attitude_range.low", &range.low)?;
        within_upright("limits.attitude_range.high", &range.high)?;
        not_more_than(
            "limits.attitude_range.low",
            &range.low,
            "the highest",
            &range.high,
        )?;
        if range.low.value() == range.high.value() {
            let value = range.low.text().to_owned();
            return Err(flaw("limits.attitude_range.low", FlawKind::NoRange(value)));
        }
    }
    Ok(())
}

fn flaw(path: &str, kind: FlawKind) -> Flaw {
    Flaw {
        path: path.to_owned(),
        kind,
    }
}

impl Knife {
    /// Checks a knife by itself.
    ///
    /// # Errors
    /// The first value that makes no sense, its path as that of the bench knife.
    pub fn checked(&self) -> Result<KnifeSection, Flaw> {
        knife("knife", self)
    }
}

/// Keeps what is reckoned and drawn within what numbers and loops are good for.
fn in_proportion<M: Measure>(path: &str, quantity: &Quantity<M>) -> Result<M, Flaw> {
    let (most, written) = M::MOST;
    if quantity.value().base().abs() <= most {
        return Ok(quantity.value());
    }
    let value = quantity.text().to_owned();
    Err(flaw(
        path,
        FlawKind::OutOfProportion {
            value,
            most: written,
        },
    ))
}

/// A crest or hollow may be as wide as the country; past this it is level to the last digit.
fn radius(path: &str, quantity: &Quantity<Length>) -> Result<Length, Flaw> {
    const MOST_MM: f64 = 1e7;
    let (value, most) = (quantity.text().to_owned(), "10000 m");
    match quantity.value() {
        radius if radius.mm() > MOST_MM => {
            Err(flaw(path, FlawKind::OutOfProportion { value, most }))
        }
        radius if radius.mm() > 0.0 => Ok(radius),
        _ => Err(flaw(path, FlawKind::NotAboveNothing(value))),
    }
}

fn above_nothing<M: Measure>(path: &str, quantity: &Quantity<M>) -> Result<M, Flaw> {
    in_proportion(path, quantity)?;
    if quantity.value().base() > 0.0 {
        Ok(quantity.value())
    } else {
        Err(flaw(
            path,
            FlawKind::NotAboveNothing(quantity.text().to_owned()),
        ))
    }
}

fn not_negative<M: Measure>(path: &str, quantity: &Quantity<M>) -> Result<M, Flaw> {
    in_proportion(path, quantity)?;
    if quantity.value().base() >= 0.0 {
        Ok(quantity.value())
    } else {
        Err(flaw(path, FlawKind::Negative(quantity.text().to_owned())))
    }
}

fn within_upright(path: &str, quantity: &Quantity<Angle>) -> Result<Angle, Flaw> {
    if quantity.value().deg().abs() < 90.0 {
        Ok(quantity.value())
    } else {
        Err(flaw(
            path,
            FlawKind::PastUpright(quantity.text().to_owned()),
        ))
    }
}

fn not_more_than<M: Measure>(
    path: &str,
    value: &Quantity<M>,
    of: &'static str,
    most: &Quantity<M>,
) -> Result<(), Flaw> {
    if value.value() <= most.value() {
        return Ok(());
    }
    let (value, most) = (value.text().to_owned(), most.text().to_owned());
    Err(flaw(path, FlawKind::MoreThan { value, of, most }))
}

fn exact<M: Measure>(path: &str, quantity: &Quantity<M>) -> Result<M, Flaw> {
    if quantity.half_width().is_none() {
        return in_proportion(path, quantity);
    }
    let kind = FlawKind::SettingWithHalfWidth(quantity.text().to_owned());
    Err(flaw(path, kind))
}
