//! The name of every field: what flaws, drafts, budget steps and help hold.
//!
//! This file knows neither what stands in a field nor what can be wrong with it.

use super::reading::Reading;
use crate::unit::Fitted;

/// A field of a unit. Its text is its path in the unit file: `bench.reel_diameter`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// What the shop calls the unit.
    Name,
    /// Its serial number.
    Serial,
    /// The set it mows in.
    Set,
    /// The day it was measured.
    Date,
    /// Whatever else is worth knowing about it.
    Notes,
    /// Where it cuts.
    Turf,
    /// Reel diameter when new.
    NewDiameter,
    /// Scrap size.
    SmallestDiameter,
    /// Number of blades.
    Blades,
    /// How reel and knife are brought together.
    Closing,
    /// What is written about a knife.
    KnifeText(Fitted, KnifeText),
    /// What a point of the hardware sits on.
    HardwareOn(usize),
    /// What is measured and moves the unit's numbers.
    Reading(Reading),
    /// Reel diameter after grinding.
    WantedReelDiameter,
    /// Height of cut wanted.
    WantedHeightOfCut,
    /// Attitude wanted.
    WantedAttitude,
    /// Gap wanted.
    WantedGap,
    /// The knife fitted.
    FittedKnife,
    /// Edge further ahead than the fitted knife's reach gives.
    Extension,
    /// Taken off the top face.
    TopGround,
    /// Taken off the front face.
    FaceGround,
    /// How far the front roller was moved in its bracket.
    FrontMove,
    /// How far the rear roller was moved in its bracket.
    RearMove,
    /// The ground's shape.
    GroundShape,
    /// Length of the straightedge laid on the ground.
    StraightedgeLength,
    /// The gap under it.
    StraightedgeGap,
    /// Where the gap was read.
    StraightedgeAt,
    /// How far one turn of the front adjuster moves the front roller.
    FrontPitch,
    /// How far one turn of the rear adjuster moves the rear roller.
    RearPitch,
    /// The sizes of spacers in stock.
    Spacers,
    /// What one grind takes off a knife's top face.
    AGrind,
    /// The least thickness of lip that may be left.
    LeastLip,
    /// Share of the height of cut above which the sweep should be watched.
    SweepWatch,
    /// Share of the height of cut above which the sweep is too much.
    SweepOver,
    /// Gap above which reel and knife want bringing together.
    GapWatch,
    /// Gap above which they cut no more.
    GapOver,
    /// Least clearance of the knife's underside.
    LeastUnderside,
    /// How far the edge may run ahead of centre.
    MostAheadOfCentre,
    /// How far the edge must stand behind centre at least.
    LeastBehindCentre,
    /// Clip length over height of cut below which it should be watched.
    ClipLeast,
    /// Clip length over height of cut above which it should be watched.
    ClipWatch,
    /// Clip length over height of cut above which it is too much.
    ClipOver,
    /// The least attitude that the roller brackets allow.
    LeastAttitude,
    /// The most attitude that the roller brackets allow.
    MostAttitude,
    /// The least room in attitude that a knife is to leave.
    LeastRoom,
}

/// What is written about a knife.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KnifeText {
    /// What the shop calls it.
    Name,
    /// What a supplier asks for it.
    Price,
    /// How many are wanted.
    Quantity,
    /// Whatever else is worth knowing.
    Notes,
}

impl From<Reading> for Field {
    fn from(reading: Reading) -> Self {
        Self::Reading(reading)
    }
}
