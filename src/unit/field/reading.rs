//! The readings: fields that are measured and move the unit's numbers.

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
    /// How deep the front roller sinks.
    FrontSink,
    /// How deep the rear roller sinks.
    RearSink,
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
    /// How far the top face falls below the datum.
    TopAngle,
    /// How far the front face leans back.
    FrontAngle,
    /// Taken off the top face.
    TopGround,
    /// Taken off the front face.
    FaceGround,
}

impl KnifePart {
    /// Every measure, in the order of the unit file.
    pub const ALL: [Self; 9] = [
        Self::Reach,
        Self::Width,
        Self::LipThickness,
        Self::LipLength,
        Self::BodyThickness,
        Self::TopAngle,
        Self::FrontAngle,
        Self::TopGround,
        Self::FaceGround,
    ];

    /// Whether a knife does without it.
    #[must_use]
    pub const fn can_be_left_out(self) -> bool {
        match self {
            Self::Reach
            | Self::Width
            | Self::LipThickness
            | Self::LipLength
            | Self::BodyThickness => false,
            Self::TopAngle | Self::FrontAngle | Self::TopGround | Self::FaceGround => true,
        }
    }
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
}
