//! Fields of a unit worked out from other readings, each with its own ±.

use num_dual::Dual64;

use super::uncertainty::{combined, expanded, standard_of_half_width};
use crate::geometry::{
    GapAt, Misread, behind_centre_from_rise, behind_centre_from_square, radius_under_straightedge,
    rise_from_block,
};
use crate::unit::{BenchReadings, WIDEST_GROUND};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// What follows from readings, and how far it can be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Derived<M = Length> {
    /// It.
    pub value: M,
    /// Its combined standard uncertainty (JCGM 100:2008, 5.1.2).
    pub standard: M,
    /// Its expanded uncertainty: so much holds about 95 % of what the readings leave open.
    pub expanded: M,
}

impl<M: Measure> Derived<M> {
    /// The half-width of the even spread that carries the same standard uncertainty on: u·√3.
    #[must_use]
    pub fn half_width(&self) -> M {
        M::from_base(self.standard.base() * 3_f64.sqrt())
    }

    /// Whether any reading behind it carries a ±.
    #[must_use]
    pub fn has_off(&self) -> bool {
        self.standard.base() > 0.0
    }

    /// As a reading of its own: the ± of a unit file bounds a rectangular distribution, so the one
    /// written carries the same standard uncertainty on.
    #[must_use]
    pub fn as_reading(&self, system: System) -> Quantity<M> {
        let value = Quantity::from_value(self.value, system);
        let half_width = self.half_width();
        if half_width.base() <= 0.0 {
            return value;
        }
        // A ± that the usual digits would round away keeps more of them.
        let usual = Quantity::<M>::from_value(half_width, system);
        let written = if usual.value().base() > 0.0 {
            usual
        } else {
            Quantity::exactly(half_width, system)
        };
        let text = format!("{} ± {}", value.text(), written.text());
        Quantity::parse(&text).unwrap_or(value)
    }
}

/// What was read in another way.
#[derive(Clone, Copy, Debug)]
pub struct Taken<'a> {
    /// The rise, or the block's height or length.
    pub reading: &'a Quantity<Length>,
    /// Height over the plate where a block to a square touches the knife's front face; the other
    /// ways do without.
    pub touches_at: &'a Quantity<Length>,
    /// How far the knife's front face leans back, where it is known; square to the datum where not.
    pub front_angle: Option<&'a Quantity<Angle>>,
    /// Whether the edge stands ahead of centre, where the way leaves it open.
    pub is_ahead: bool,
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
                "On the plate, engine off, key out, reel drive disconnected: how far the knife's edge stands above the lowest point of the reel's blades. A tip must stand there: rock the reel by hand, gloved, one person, to the largest reading, then block it."
            }
            Self::BlockUnderReel => {
                "On the plate, engine off, key out, reel drive disconnected: the tallest gauge block, or stack, that goes under the reel, pushed with a stick, back to the bar until it rests against the knife's front face. The height of cut and this block give the rise. A tip must stand lowest: rock the reel by hand, gloved, one person, to the smallest reading, then block it before the block goes under."
            }
            Self::BlockToSquare => {
                "On the plate, engine off, key out, reel drive disconnected: a square stands against the reel's foremost blade; the gauge block that just fills the way from the knife's front face to the square, below the reel. Note how high over the plate it touches the face: at its top edge where the face leans back. A tip must stand foremost: rock the reel by hand, gloved, one person, to the largest reading, then block it."
            }
        }
    }

    /// Which bench measurements it stands on.
    #[must_use]
    pub const fn stands_on(self) -> &'static str {
        match self {
            Self::Rise => "Reel diameter and gap",
            Self::BlockUnderReel => "Reel diameter, gap and height of cut",
            Self::BlockToSquare => "Reel diameter, height of cut and attitude",
        }
    }

    /// Whether it leaves open on which side of the centre the edge stands.
    ///
    /// A block pushed to the front face goes under the reel's lowest point only where the edge is
    /// behind it.
    #[must_use]
    pub const fn has_two_sides(self) -> bool {
        matches!(self, Self::Rise)
    }

    /// Whether it asks where the block touches the front face.
    #[must_use]
    pub const fn asks_where_it_touches(self) -> bool {
        matches!(self, Self::BlockToSquare)
    }

    /// Behind centre from what was read, with reel, gap, height of cut and attitude of the bench.
    ///
    /// # Errors
    /// When the reading cannot be on this reel, or its ± leaves none of it.
    pub fn behind_centre(
        self,
        bench: &BenchReadings,
        taken: Taken<'_>,
    ) -> Result<Derived, Misread> {
        let readings = [
            Input::of(&bench.reel_diameter),
            Input::of(&bench.gap),
            Input::of(&bench.height_of_cut),
            Input::of(&bench.attitude),
            taken.front_angle.map_or(Input::ZERO, Input::of),
            Input::of(taken.touches_at),
            Input::of(taken.reading),
        ];
        let [diameter, gap, height, _, _, _, reading] = readings;
        match self {
            Self::Rise => is_above_its_off(diameter, gap, reading)?,
            Self::BlockUnderReel => {
                let rise = Input {
                    value: rise_from_block(height.value, reading.value),
                    half_width: height.half_width + reading.half_width,
                };
                is_above_its_off(diameter, gap, rise)?;
            }
            Self::BlockToSquare => {}
        }
        let formula = |[diameter, gap, height, attitude, front, touches, reading]: [Dual64; 7]| {
            let radius = diameter * 0.5;
            match self {
                Self::Rise => behind_centre_from_rise(radius, gap, reading),
                Self::BlockUnderReel => {
                    behind_centre_from_rise(radius, gap, rise_from_block(height, reading))
                }
                Self::BlockToSquare => {
                    let leans_rad = Angle::from_deg(attitude + front).rad();
                    behind_centre_from_square(radius, reading, height, touches, leans_rad)
                }
            }
        };
        let found = propagate(readings, formula)?;
        let sign = if taken.is_ahead && self.has_two_sides() {
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

impl BehindFrom {
    /// What behind centre would come out as on the same unit, had the tip stood so far round the reel
    /// from the place that is read: the reel reaches less far there by `R·(1 − cos)`.
    ///
    /// # Errors
    /// When such a reading cannot be on this reel: it would have been noticed.
    pub fn with_tip_off(
        self,
        bench: &BenchReadings,
        taken: Taken<'_>,
        off: Angle,
    ) -> Result<Length, Misread> {
        let radius = bench.reel_diameter.value() * 0.5;
        let short = radius * (1.0 - off.rad().cos());
        let read = taken.reading.value();
        let read = match self {
            Self::Rise | Self::BlockToSquare => read - short,
            Self::BlockUnderReel => read + short,
        };
        let reading = Quantity::exactly(read, System::Millimetre);
        let taken = Taken {
            reading: &reading,
            ..taken
        };
        Ok(self.behind_centre(bench, taken)?.value)
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
    let radius_mm = radius_under_straightedge(length.value().mm(), gap.value().mm(), at)?;
    if radius_mm.is_none_or(|radius_mm| radius_mm > WIDEST_GROUND.mm()) {
        return Ok(GroundFound::Level);
    }
    if let Some(off) = gap.half_width()
        && off >= gap.value()
    {
        let gap = gap.value();
        return Err(Misread::GapLostInItsOff { gap, off });
    }
    let readings = [Input::of(length), Input::of(gap)];
    let radius = propagate(readings, |[length, gap]| {
        let radius = radius_under_straightedge(length, gap, at)?;
        Ok(radius.unwrap_or_else(|| Dual64::from_re(f64::INFINITY)))
    })?;
    Ok(match at {
        GapAt::Middle => GroundFound::Hollow(radius),
        GapAt::EachEnd | GapAt::OneEnd => GroundFound::Crest(radius),
    })
}

/// A reading in base units, and how far it can be off.
#[derive(Clone, Copy, Debug)]
pub(super) struct Input {
    value: f64,
    half_width: f64,
}

impl Input {
    /// Zero, and sure of it.
    pub(super) const ZERO: Self = Self {
        value: 0.0,
        half_width: 0.0,
    };

    pub(super) fn of<M: Measure>(reading: &Quantity<M>) -> Self {
        Self {
            value: reading.value().base(),
            half_width: reading.half_width().map_or(0.0, M::base),
        }
    }
}

/// Behind centre goes with the root of rise and gap. Where those may be zero the root has no
/// slope, and the first-order law would call the answer sure: no answer is given there.
fn is_above_its_off(diameter: Input, gap: Input, rise: Input) -> Result<(), Misread> {
    let off = rise.half_width + gap.half_width;
    if off <= 0.0 || rise.value + gap.value > off {
        return Ok(());
    }
    let farthest = behind_centre_from_rise(
        0.5 * (diameter.value + diameter.half_width),
        gap.value + gap.half_width,
        rise.value + rise.half_width,
    );
    // A rise that is off the reel whatever its ± is told as it was read.
    let within = farthest
        .or_else(|_| behind_centre_from_rise(0.5 * diameter.value, gap.value, rise.value))?;
    Err(Misread::RiseLostInItsOff {
        rise: Length::from_mm(rise.value),
        off: Length::from_mm(off),
        within: Length::from_mm(within),
    })
}

/// The value of a formula, and its uncertainty by the first-order law: one pass over the formula for
/// every reading.
pub(super) fn propagate<M: Measure, const COUNT: usize>(
    readings: [Input; COUNT],
    formula: impl Fn([Dual64; COUNT]) -> Result<Dual64, Misread>,
) -> Result<Derived<M>, Misread> {
    let exact = readings.map(|reading| Dual64::from_re(reading.value));
    let value = formula(exact)?.re;
    let mut parts = [(0.0, 0.0); COUNT];
    for (index, part) in parts.iter_mut().enumerate() {
        let half_width = readings[index].half_width;
        if half_width > 0.0 {
            let mut stirred = exact;
            stirred[index].eps = 1.0;
            *part = (formula(stirred)?.eps, standard_of_half_width(half_width));
        }
    }
    Ok(Derived {
        value: M::from_base(value),
        standard: M::from_base(combined(parts)),
        expanded: M::from_base(expanded(parts)),
    })
}
