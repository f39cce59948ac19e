//! The readings: fields that are measured and move the unit's numbers.

use std::fmt;

use super::group::Group as G;
use super::table::{Row, row};
use super::{Field, Kind, Rule};
use crate::unit::Fitted;

/// A reading that may carry a ± and moves the unit's numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
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

/// A measure of a knife's section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
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

impl KnifePart {
    /// Every measure, in the order of the unit file.
    pub const ALL: [Self; 5] = [
        Self::Reach,
        Self::Width,
        Self::LipThickness,
        Self::LipLength,
        Self::BodyThickness,
    ];
}

impl Reading {
    pub(super) const BENCH: [Self; 9] = [
        Self::ReelDiameter,
        Self::HeightOfCut,
        Self::Attitude,
        Self::BehindCentre,
        Self::Gap,
        Self::FrontDiameter,
        Self::FrontAhead,
        Self::RearDiameter,
        Self::RearBehind,
    ];
    pub(super) const CLOSING: [Self; 3] = [Self::Lean, Self::PivotAhead, Self::PivotAbove];
    pub(super) const MOWING: [Self; 2] = [Self::GroundSpeed, Self::ReelSpeed];
    pub(super) const WEAR: [Self; 3] = [Self::FrontRunout, Self::RearRunout, Self::EndDifference];

    pub(super) const fn of_hardware(index: usize) -> [Self; 2] {
        [Self::HardwareBehind(index), Self::HardwareBelow(index)]
    }

    pub(super) const fn row(self) -> Row {
        use Kind::{Angle, Length, Speed, Turning};
        use Rule::{AboveZero, InProportion, NotNegative, Radius, WithinUpright};
        match self {
            Self::ReelDiameter => row(G::Bench, "reel_diameter", Length, AboveZero),
            Self::HeightOfCut => row(G::Bench, "height_of_cut", Length, AboveZero),
            Self::Attitude => row(G::Bench, "attitude", Angle, WithinUpright),
            Self::BehindCentre => row(G::Bench, "behind_centre", Length, InProportion),
            Self::Gap => row(G::Bench, "gap", Length, NotNegative),
            Self::FrontDiameter => row(G::FrontRoller, "diameter", Length, AboveZero),
            Self::FrontAhead => row(G::FrontRoller, "ahead", Length, AboveZero),
            Self::RearDiameter => row(G::RearRoller, "diameter", Length, AboveZero),
            Self::RearBehind => row(G::RearRoller, "behind", Length, AboveZero),
            Self::Lean => row(G::Closing, "lean", Angle, WithinUpright),
            Self::PivotAhead => row(G::Closing, "ahead", Length, InProportion),
            Self::PivotAbove => row(G::Closing, "above", Length, InProportion),
            Self::Knife(knife, part) => {
                let group = G::Knife(knife);
                match part {
                    KnifePart::Reach => row(group, "reach", Length, AboveZero),
                    KnifePart::Width => row(group, "width", Length, AboveZero),
                    KnifePart::LipThickness => row(group, "lip_thickness", Length, AboveZero),
                    KnifePart::LipLength => row(group, "lip_length", Length, AboveZero),
                    KnifePart::BodyThickness => row(group, "body_thickness", Length, AboveZero),
                }
            }
            Self::HardwareBehind(index) => row(G::Hardware(index), "behind", Length, InProportion),
            Self::HardwareBelow(index) => row(G::Hardware(index), "below", Length, InProportion),
            Self::GroundSpeed => row(G::Mowing, "ground_speed", Speed, AboveZero),
            Self::ReelSpeed => row(G::Mowing, "reel_speed", Turning, AboveZero),
            Self::RollerSink => row(G::Ground, "roller_sink", Length, NotNegative),
            // It stands in the shape's own brackets: Crest("6 m").
            Self::GroundRadius => row(G::Ground, "shape", Length, Radius),
            Self::FrontRunout => row(G::Wear, "front_runout", Length, NotNegative),
            Self::RearRunout => row(G::Wear, "rear_runout", Length, NotNegative),
            Self::EndDifference => row(G::Wear, "end_difference", Length, NotNegative),
        }
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Field::Reading(*self).fmt(f)
    }
}
