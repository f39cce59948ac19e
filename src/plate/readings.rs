//! A sheet that makes sense, in plain values.

use super::date::Day;
use super::sheet::{Roller, Side, Station};
use crate::geometry::{Eccentric, FittedCircle};
use crate::units::{Angle, Length};

/// A reading: what it says, and its standard uncertainty.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measured<M = Length> {
    /// What it says.
    pub value: M,
    /// Its standard uncertainty; zero where it says nothing of itself.
    pub standard: M,
}

/// The gap under an end of a roller, from one reading or the mean of two half a turn apart.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GapOfRoller {
    /// The gap.
    pub gap: Length,
    /// The standard uncertainty of what was read there.
    pub standard_read: Length,
    /// What the diameter's adds: zero where the gap was read under the roller.
    pub standard_diameter: Length,
    /// Whether it is the mean of two readings half a turn apart.
    pub is_of_half_turn: bool,
    /// How far apart those two are: how far the roller's surface goes up and down there.
    pub half_turn_apart: Option<Length>,
    /// Whether everything it comes from says how far it can be off.
    pub is_off_known: bool,
}

impl GapOfRoller {
    /// Its standard uncertainty.
    #[must_use]
    pub fn standard(&self) -> Length {
        Length::from_mm(self.standard_read.mm().hypot(self.standard_diameter.mm()))
    }
}

/// The gap between knife and reel at one place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GapOfKnife {
    /// The middle between the two leaves.
    pub gap: Length,
    /// How far it can be off either way.
    pub half_width: Length,
}

/// What was read along the reel or the knife.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AlongRead<T = Measured> {
    /// At the left.
    pub left: Option<T>,
    /// In the middle.
    pub middle: Option<T>,
    /// At the right.
    pub right: Option<T>,
}

/// What moves an end of a roller.
#[derive(Clone, Debug, PartialEq)]
pub enum AdjusterReadings {
    /// An eccentric.
    Eccentric(Eccentric),
    /// A thread.
    Thread {
        /// How far one turn moves it along.
        pitch: Length,
        /// How far it leans from the vertical.
        tilt: Angle,
    },
    /// Shims of these sizes.
    Shims(Vec<Length>),
}

/// The runout at one place along a roller.
#[derive(Clone, Debug, PartialEq)]
pub struct StationReadings {
    /// Where the indicator stood.
    pub station: Station,
    /// What was read, a slanting lever allowed for.
    pub readings: Vec<(Angle, Length)>,
    /// The circle fitted to it.
    pub circle: FittedCircle,
}

/// One roller.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RollerReadings {
    /// Between the two places that were read along the roller.
    pub measured_apart: Option<Length>,
    /// Between the two adjusters.
    pub adjusters_apart: Option<Length>,
    /// The gap under the left end.
    pub left: Option<GapOfRoller>,
    /// The gap under the right end.
    pub right: Option<GapOfRoller>,
    /// The end that is moved.
    pub adjust: Option<Side>,
    /// What moves it.
    pub adjuster: Option<AdjusterReadings>,
    /// How parallel it is wanted, over the width of cut.
    pub parallel_within: Option<Length>,
    /// How far it was out of parallel when the work began, where that was kept.
    pub out_before: Option<Length>,
    /// Its runout.
    pub runout: Vec<StationReadings>,
}

/// A sheet that makes sense, in plain values.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Readings {
    /// The file of its unit, in the same folder; none where it names none.
    pub unit: Option<String>,
    /// The day.
    pub day: Option<Day>,
    /// The machine's hours.
    pub hours: Option<f64>,
    /// The width that the unit cuts.
    pub cut_width: Length,
    /// The gauge bar under the left and the right end of the knife.
    pub bar: Option<[Measured; 2]>,
    /// From the plate's peak to its valley; zero where it is not known.
    pub plate_flat_within: Length,
    /// The reel's diameter.
    pub reel: AlongRead,
    /// The gap between knife and reel.
    pub knife_to_reel: AlongRead<GapOfKnife>,
    /// The front roller.
    pub front: Option<RollerReadings>,
    /// The rear roller.
    pub rear: Option<RollerReadings>,
    /// The height of cut measured off the bar.
    pub height: AlongRead,
    /// The attitude measured off the bar, left and right.
    pub attitude: Option<[Measured<Angle>; 2]>,
    /// How little runout is wanted; none where the turf's starting value holds.
    pub runout_wanted: Option<Length>,
    /// How much runout there may be; none where the turf's starting value holds.
    pub runout_most: Option<Length>,
}

impl Readings {
    /// What was read at one of the rollers.
    #[must_use]
    pub const fn roller(&self, roller: Roller) -> Option<&RollerReadings> {
        match roller {
            Roller::Front => self.front.as_ref(),
            Roller::Rear => self.rear.as_ref(),
        }
    }
}

impl<T> AlongRead<T> {
    /// What was read at a place.
    #[must_use]
    pub const fn at(&self, station: Station) -> Option<&T> {
        match station {
            Station::Left => self.left.as_ref(),
            Station::Middle => self.middle.as_ref(),
            Station::Right => self.right.as_ref(),
        }
    }

    /// Whether any of the three places was read.
    #[must_use]
    pub const fn is_read(&self) -> bool {
        self.left.is_some() || self.middle.is_some() || self.right.is_some()
    }

    /// Whether all three places were read.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.left.is_some() && self.middle.is_some() && self.right.is_some()
    }
}
