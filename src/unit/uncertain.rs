//! How far the readings can be off: which of them carry a ±, and which settings follow the bench.

use std::fmt;

use super::document::{ClosingReadings, Document, Fitted, Knife, SettingEntry};
use super::ground::ShapeEntry;
use crate::units::{Measure, Quantity};

/// A measure of a knife's section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KnifePart {
    /// Mounting-screw line to edge.
    Reach,
    /// Edge to back.
    Width,
    /// Thickness of the lip.
    LipThickness,
    /// Edge to where the lip meets the body.
    LipLength,
    /// Thickness of the body.
    BodyThickness,
}

/// A reading that may carry a ±. Its text is its path in the unit file: `bench.behind_centre`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// The bench's reel diameter.
    ReelDiameter,
    /// The bench's height of cut.
    HeightOfCut,
    /// The bench's attitude.
    Attitude,
    /// The bench's behind centre.
    BehindCentre,
    /// The bench's gap.
    Gap,
    /// The front roller's diameter.
    FrontDiameter,
    /// The front roller's centre ahead of the edge.
    FrontAhead,
    /// The rear roller's diameter.
    RearDiameter,
    /// The rear roller's centre behind the edge.
    RearBehind,
    /// The lean of the line that the reel slides on.
    Lean,
    /// The pivot ahead of the bench edge.
    PivotAhead,
    /// The pivot above the plate.
    PivotAbove,
    /// A measure of the bench knife or of an option.
    Knife(Fitted, KnifePart),
    /// A point of the hardware, behind the bench edge.
    HardwareBehind(usize),
    /// A point of the hardware, below the datum.
    HardwareBelow(usize),
    /// Forward speed.
    GroundSpeed,
    /// Reel speed.
    ReelSpeed,
    /// How deep the rollers sink.
    RollerSink,
    /// The radius of a crest or hollow.
    GroundRadius,
    /// The front roller's runout.
    FrontRunout,
    /// The rear roller's runout.
    RearRunout,
    /// How much higher one end of the unit cuts.
    EndDifference,
}

/// A reading and how far it can be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    /// The reading.
    pub reading: Reading,
    /// What stands after its ±, above nothing, in the base unit of its kind: millimetres, degrees,
    /// millimetres a second, revolutions a minute.
    pub half_width: f64,
}

/// Which values of a setting follow the bench's readings, their uncertainty included; the others
/// are exact.
// Each value follows or does not by itself.
#[allow(clippy::struct_excessive_bools)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Follows {
    /// The reel diameter is the bench's.
    pub reel_diameter: bool,
    /// The gap is the bench's.
    pub gap: bool,
    /// The attitude wanted is the bench's.
    pub attitude: bool,
    /// The height of cut wanted is the bench's.
    pub height_of_cut: bool,
    /// Whose readings the section of the knife fitted is.
    pub knife: Fitted,
}

impl Follows {
    /// Everything: the bench pose.
    pub const BENCH: Self = Self {
        reel_diameter: true,
        gap: true,
        attitude: true,
        height_of_cut: true,
        knife: Fitted::Bench,
    };

    /// Nothing but the bench knife: every value of the setting is exact.
    pub const NOTHING: Self = Self {
        reel_diameter: false,
        gap: false,
        attitude: false,
        height_of_cut: false,
        knife: Fitted::Bench,
    };

    /// What is left out of a setting follows. With the rollers given, attitude and height of cut
    /// follow from them instead.
    pub(super) fn of(entry: &SettingEntry, fitted: Fitted) -> Self {
        let is_wanted = entry.rollers.is_none();
        Self {
            reel_diameter: entry.reel_diameter.is_none(),
            gap: entry.gap.is_none(),
            attitude: is_wanted && entry.attitude.is_none(),
            height_of_cut: is_wanted && entry.height_of_cut.is_none(),
            knife: fitted,
        }
    }
}

impl KnifePart {
    /// Its name in the unit file.
    const fn field(self) -> &'static str {
        match self {
            Self::Reach => "reach",
            Self::Width => "width",
            Self::LipThickness => "lip_thickness",
            Self::LipLength => "lip_length",
            Self::BodyThickness => "body_thickness",
        }
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match *self {
            Self::ReelDiameter => "bench.reel_diameter",
            Self::HeightOfCut => "bench.height_of_cut",
            Self::Attitude => "bench.attitude",
            Self::BehindCentre => "bench.behind_centre",
            Self::Gap => "bench.gap",
            Self::FrontDiameter => "bench.front_roller.diameter",
            Self::FrontAhead => "bench.front_roller.ahead",
            Self::RearDiameter => "bench.rear_roller.diameter",
            Self::RearBehind => "bench.rear_roller.behind",
            Self::Lean => "closing.lean",
            Self::PivotAhead => "closing.ahead",
            Self::PivotAbove => "closing.above",
            Self::Knife(Fitted::Bench, part) => return write!(f, "knife.{}", part.field()),
            Self::Knife(Fitted::Option(index), part) => {
                return write!(f, "options[{index}].{}", part.field());
            }
            Self::HardwareBehind(index) => return write!(f, "hardware[{index}].behind"),
            Self::HardwareBelow(index) => return write!(f, "hardware[{index}].below"),
            Self::GroundSpeed => "mowing.ground_speed",
            Self::ReelSpeed => "mowing.reel_speed",
            Self::RollerSink => "ground.roller_sink",
            Self::GroundRadius => "ground.shape",
            Self::FrontRunout => "wear.front_runout",
            Self::RearRunout => "wear.rear_runout",
            Self::EndDifference => "wear.end_difference",
        })
    }
}

/// The readings of a document that carry a ± of more than nothing, in the order of the file.
pub(super) fn uncertain_readings(document: &Document) -> Vec<Uncertain> {
    let mut found = Found(Vec::new());
    let bench = &document.bench;
    found.note(Reading::ReelDiameter, &bench.reel_diameter);
    found.note(Reading::HeightOfCut, &bench.height_of_cut);
    found.note(Reading::Attitude, &bench.attitude);
    found.note(Reading::BehindCentre, &bench.behind_centre);
    found.note(Reading::Gap, &bench.gap);
    found.note(Reading::FrontDiameter, &bench.front_roller.diameter);
    found.note(Reading::FrontAhead, &bench.front_roller.ahead);
    found.note(Reading::RearDiameter, &bench.rear_roller.diameter);
    found.note(Reading::RearBehind, &bench.rear_roller.behind);
    match &document.closing {
        ClosingReadings::ReelSlides { lean } => {
            if let Some(lean) = lean {
                found.note(Reading::Lean, lean);
            }
        }
        ClosingReadings::ReelPivots { ahead, above }
        | ClosingReadings::KnifePivots { ahead, above } => {
            found.note(Reading::PivotAhead, ahead);
            found.note(Reading::PivotAbove, above);
        }
    }
    for (which, knife) in document.knives() {
        found.note_knife(which, knife);
    }
    for (index, point) in document.hardware.iter().enumerate() {
        found.note(Reading::HardwareBehind(index), &point.behind);
        found.note(Reading::HardwareBelow(index), &point.below);
    }
    if let Some(mowing) = &document.mowing {
        found.note(Reading::GroundSpeed, &mowing.ground_speed);
        found.note(Reading::ReelSpeed, &mowing.reel_speed);
    }
    found.note(Reading::RollerSink, &document.ground.roller_sink);
    match &document.ground.shape {
        ShapeEntry::Level => {}
        ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) => {
            found.note(Reading::GroundRadius, radius);
        }
    }
    let wear = &document.wear;
    found.note(Reading::FrontRunout, &wear.front_runout);
    found.note(Reading::RearRunout, &wear.rear_runout);
    found.note(Reading::EndDifference, &wear.end_difference);
    found.0
}

struct Found(Vec<Uncertain>);

impl Found {
    fn note<M: Measure>(&mut self, reading: Reading, quantity: &Quantity<M>) {
        let half_width = quantity.half_width().map_or(0.0, Measure::base);
        if half_width > 0.0 {
            self.0.push(Uncertain {
                reading,
                half_width,
            });
        }
    }

    fn note_knife(&mut self, which: Fitted, knife: &Knife) {
        let reading = |part| Reading::Knife(which, part);
        self.note(reading(KnifePart::Reach), &knife.reach);
        self.note(reading(KnifePart::Width), &knife.width);
        self.note(reading(KnifePart::LipThickness), &knife.lip_thickness);
        self.note(reading(KnifePart::LipLength), &knife.lip_length);
        self.note(reading(KnifePart::BodyThickness), &knife.body_thickness);
    }
}
