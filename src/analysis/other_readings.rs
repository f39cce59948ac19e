//! Fields of a unit worked out from other readings, each with its own ±.

use num_dual::Dual64;

use super::uncertainty::{COVERAGE_FACTOR, combined, standard_of_half_width};
use crate::geometry::{
    GapAt, Misread, behind_centre_from_rise, behind_centre_from_square, radius_under_straightedge,
    rise_from_block,
};
use crate::unit::BenchReadings;
use crate::units::{Length, Measure as _, Quantity, System};

/// A length that follows from readings, and how far it can be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Derived {
    /// The length.
    pub value: Length,
    /// Its combined standard uncertainty (JCGM 100:2008, 5.1.2).
    pub standard: Length,
}

impl Derived {
    /// Its expanded uncertainty, k = 2.
    #[must_use]
    pub fn expanded(&self) -> Length {
        self.standard * COVERAGE_FACTOR
    }

    /// As a reading of its own: the ± of a unit file bounds a rectangular distribution, so the one
    /// written carries the same standard uncertainty on, half-width u·√3.
    #[must_use]
    pub fn as_reading(&self, system: System) -> Quantity<Length> {
        let value = Quantity::from_value(self.value, system);
        let half_width = Length::from_mm(self.standard.mm() * 3_f64.sqrt());
        if half_width.mm() <= 0.0 {
            return value;
        }
        let text = format!("{} ± {}", value.text(), half_width.entry(system));
        Quantity::parse(&text).unwrap_or(value)
    }
}

/// Another way to behind centre.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BehindFrom {
    /// The edge's rise over the reel's lowest point.
    #[default]
    Rise,
    /// The tallest gauge block that goes under the reel to the bar, against the front face.
    BlockUnderReel,
    /// A gauge block from the front face to a square at the reel's foremost blade.
    BlockToSquare,
}

impl BehindFrom {
    /// The three, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Rise, Self::BlockUnderReel, Self::BlockToSquare];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rise => "the rise",
            Self::BlockUnderReel => "a block under the reel",
            Self::BlockToSquare => "a block to a square",
        }
    }

    /// What its reading is called.
    #[must_use]
    pub const fn reading(self) -> &'static str {
        match self {
            Self::Rise => "Rise of the edge",
            Self::BlockUnderReel => "Height of the block",
            Self::BlockToSquare => "Length of the block",
        }
    }

    /// How the reading is taken.
    #[must_use]
    pub const fn how(self) -> &'static str {
        match self {
            Self::Rise => {
                "On the plate, reel blocked: how far the knife's edge stands above the lowest point of the reel's blades."
            }
            Self::BlockUnderReel => {
                "On the plate, reel blocked: the tallest gauge block, or stack, that can be pushed under the reel back to the bar until it rests against the knife's front face. The height of cut and this block give the rise."
            }
            Self::BlockToSquare => {
                "On the plate, reel blocked: a square stands against the reel's foremost blade; the gauge block that just fills the way from the knife's front face to the square. The block touches the front face at its edge: a face that leans stands back under it."
            }
        }
    }

    /// Whether it leaves open on which side of the centre the edge stands.
    #[must_use]
    pub const fn has_two_sides(self) -> bool {
        !matches!(self, Self::BlockToSquare)
    }

    /// Behind centre from the reading, with the reel, gap and height of cut of the bench.
    ///
    /// # Errors
    /// When the reading cannot be on this reel.
    pub fn behind_centre(
        self,
        bench: &BenchReadings,
        reading: &Quantity<Length>,
        is_ahead: bool,
    ) -> Result<Derived, Misread> {
        let readings = [
            &bench.reel_diameter,
            &bench.gap,
            &bench.height_of_cut,
            reading,
        ];
        let found = propagate(readings, |[diameter, gap, height, reading]| {
            let radius = diameter * 0.5;
            match self {
                Self::Rise => behind_centre_from_rise(radius, gap, reading),
                Self::BlockUnderReel => {
                    behind_centre_from_rise(radius, gap, rise_from_block(height, reading))
                }
                Self::BlockToSquare => Ok(behind_centre_from_square(radius, reading)),
            }
        })?;
        let sign = if is_ahead && self.has_two_sides() {
            -1.0
        } else {
            1.0
        };
        Ok(Derived {
            value: found.value * sign,
            ..found
        })
    }
}

/// What a straightedge says about the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GroundFound {
    /// No gap.
    Level,
    /// A crest of this radius.
    Crest(Derived),
    /// A hollow of this radius.
    Hollow(Derived),
}

/// The ground's shape from a straightedge and the gap under it.
///
/// # Errors
/// When the gap is too large for any crest or hollow.
pub fn ground_from_straightedge(
    length: &Quantity<Length>,
    gap: &Quantity<Length>,
    at: GapAt,
) -> Result<GroundFound, Misread> {
    if radius_under_straightedge(length.value().mm(), gap.value().mm(), at)?.is_none() {
        return Ok(GroundFound::Level);
    }
    let radius = propagate([length, gap], |[length, gap]| {
        let radius = radius_under_straightedge(length, gap, at)?;
        Ok(radius.unwrap_or_else(|| Dual64::from_re(f64::INFINITY)))
    })?;
    Ok(match at {
        GapAt::Middle => GroundFound::Hollow(radius),
        GapAt::EachEnd | GapAt::OneEnd => GroundFound::Crest(radius),
    })
}

/// The value of a formula, and its uncertainty by the first-order law: one pass over the formula for
/// every reading.
fn propagate<const COUNT: usize>(
    readings: [&Quantity<Length>; COUNT],
    formula: impl Fn([Dual64; COUNT]) -> Result<Dual64, Misread>,
) -> Result<Derived, Misread> {
    let exact = readings.map(|reading| Dual64::from_re(reading.value().mm()));
    let value = formula(exact)?.re;
    let mut parts = [(0.0, 0.0); COUNT];
    for (index, part) in parts.iter_mut().enumerate() {
        let half_width = readings[index].half_width().map_or(0.0, Length::mm);
        if half_width > 0.0 {
            let mut stirred = exact;
            stirred[index].eps = 1.0;
            *part = (formula(stirred)?.eps, standard_of_half_width(half_width));
        }
    }
    Ok(Derived {
        value: Length::from_mm(value),
        standard: Length::from_mm(combined(parts)),
    })
}
