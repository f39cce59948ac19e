//! Measurement uncertainty: how far a solution's numbers can be off because the readings can.
//!
//! By JCGM 100:2008, the "Guide to the expression of uncertainty in measurement" (GUM): a ±
//! bounds a rectangular distribution, standard uncertainty half-width/√3 (4.3.7); readings are
//! independent, and their standard uncertainties combine by the first-order law of propagation
//! (5.1.2); the expanded uncertainty is *k* = 2 times the combined one (6.2.1, 6.3.3). The
//! sensitivities are derivatives of the very formulas that give the values, by dual numbers.
//!
//! The law is of first order: it holds while the numbers change in proportion to the readings over
//! the width of the ±. Where circles only just touch they do not, and no derivative counts there.

mod output;
mod stir;
mod told;

use num_dual::Dual64;

pub use output::Output;
pub use told::{off_in_words, share_in_words};

use self::output::{COUNT, Inputs, outputs};
use crate::geometry::Setting;
use crate::unit::{Follows, Reading, Uncertain, Unit};

/// The coverage factor *k* of an expanded uncertainty.
pub const COVERAGE_FACTOR: f64 = 2.0;

/// The standard uncertainty of a value that lies anywhere within ± `half_width`, each place as
/// likely (JCGM 100:2008, 4.3.7).
#[must_use]
pub fn standard_of_half_width(half_width: f64) -> f64 {
    half_width / 3_f64.sqrt()
}

/// The combined standard uncertainty of what follows from independent readings, from the
/// sensitivity to each and its standard uncertainty (JCGM 100:2008, 5.1.2).
#[must_use]
pub fn combined(parts: impl IntoIterator<Item = (f64, f64)>) -> f64 {
    let variances = parts
        .into_iter()
        .map(|(sensitivity, standard)| (sensitivity * standard).powi(2));
    variances.sum::<f64>().sqrt()
}

/// How far the numbers of one solution can be off.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Uncertainty {
    parts: Vec<Part>,
}

/// What one reading brings to every output.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Part {
    reading: Reading,
    standard: f64,
    sensitivities: [f64; COUNT],
    /// How far each output bends away from its slope over the width of the ±.
    bends: [f64; COUNT],
}

/// What one reading brings to the uncertainty of an output.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contribution {
    /// The reading.
    pub reading: Reading,
    /// By how much the output changes, with its sign, over the change of the reading; base units.
    pub sensitivity: f64,
    /// The standard uncertainty that the reading alone would give the output, in its base unit.
    pub standard: f64,
    /// Its share of the combined variance, of one.
    pub share: f64,
}

/// Sensitivities and shares of the variance below this are rounding.
const ROUNDING: f64 = 1e-12;

/// From this part of its ± on an output's bend is more than rounding off.
const ROUGH_PART: f64 = 0.25;
/// Bends below this are rounding: in millimetres, degrees or of one.
const LEAST_BEND: f64 = 1e-9;

/// How far each output lies, with a reading at both ends of its ±, from the straight line between.
fn bends(plain: &Inputs<f64>, uncertain: Uncertain, follows: Follows) -> [f64; COUNT] {
    let at = |by: f64| {
        let mut inputs = plain.clone();
        inputs.shift(uncertain.reading, follows, by);
        outputs(&inputs).ok()
    };
    let half_width = uncertain.half_width;
    match (at(-half_width), at(0.0), at(half_width)) {
        (Some(low), Some(middle), Some(high)) => std::array::from_fn(|index| {
            (low[index] + high[index] - 2.0 * middle[index]).abs() / 2.0
        }),
        _ => [f64::INFINITY; COUNT],
    }
}

impl Uncertainty {
    /// Works out how far the numbers of a unit in one of its settings can be off.
    ///
    /// `follows` says which values of the setting are the bench's own readings (`unit.follows` for
    /// the setting in force). Nothing is uncertain about a setting that has no solution.
    #[must_use]
    pub fn of(unit: &Unit, setting: &Setting, follows: Follows) -> Self {
        if unit.uncertain.is_empty() {
            return Self::default();
        }
        let exact = Inputs::<Dual64>::exact(unit, setting);
        let plain = Inputs::<f64>::exact(unit, setting);
        let parts = unit.uncertain.iter().filter_map(|uncertain| {
            let mut inputs = exact.clone();
            if !inputs.stir(uncertain.reading, follows) {
                return None;
            }
            Some(Part {
                reading: uncertain.reading,
                standard: standard_of_half_width(uncertain.half_width),
                sensitivities: outputs(&inputs)
                    .ok()?
                    .map(|output| beyond_rounding(output.eps)),
                bends: bends(&plain, *uncertain, follows),
            })
        });
        Self {
            parts: parts.collect(),
        }
    }

    /// The combined standard uncertainty of an output, in its base unit: millimetres, degrees, or
    /// a plain ratio. Nothing for an output that the solution does not have.
    #[must_use]
    pub fn standard(&self, output: Output) -> f64 {
        combined(self.parts.iter().map(|part| part.on(output)))
    }

    /// The expanded uncertainty, [`COVERAGE_FACTOR`] times the combined standard uncertainty.
    #[must_use]
    pub fn expanded(&self, output: Output) -> f64 {
        COVERAGE_FACTOR * self.standard(output)
    }

    /// How far an output can stray, besides its ±, from what the first-order law takes to be
    /// straight: without end where the geometry cannot exist a little way off.
    fn bend(&self, output: Output) -> f64 {
        let bends = self.parts.iter().map(|part| part.bends[output.index()]);
        bends.sum()
    }

    /// Whether an output bends so much over the width of the readings' ± that its own is no more
    /// than rough (JCGM 100:2008, 5.1.2, note: where the model is not linear).
    #[must_use]
    pub fn is_rough(&self, output: Output) -> bool {
        let bend = self.bend(output);
        bend > LEAST_BEND && bend > ROUGH_PART * self.expanded(output)
    }

    /// Within how much of an output nothing is shown: its ±, and its bend where that is rough.
    #[must_use]
    pub fn in_doubt_within(&self, output: Output) -> f64 {
        let off = self.expanded(output);
        if self.is_rough(output) {
            off + self.bend(output)
        } else {
            off
        }
    }

    /// The readings by how much of the variance of an output each brings, largest first; those
    /// that bring nothing are left out.
    #[must_use]
    pub fn ranking(&self, output: Output) -> Vec<Contribution> {
        let whole = self.standard(output);
        let contributions = self.parts.iter().map(|part| {
            let (sensitivity, reading_standard) = part.on(output);
            let standard = sensitivity.abs() * reading_standard;
            Contribution {
                reading: part.reading,
                sensitivity,
                standard,
                share: (standard / whole).powi(2),
            }
        });
        let mut ranking: Vec<_> = contributions
            .filter(|contribution| contribution.share > ROUNDING)
            .collect();
        ranking.sort_by(|a, b| b.share.total_cmp(&a.share));
        ranking
    }
}

/// What cancels leaves rounding; nothing then.
fn beyond_rounding(sensitivity: f64) -> f64 {
    if sensitivity.abs() > ROUNDING {
        sensitivity
    } else {
        0.0
    }
}

impl Part {
    /// The sensitivity of an output to the reading, and the reading's standard uncertainty.
    fn on(&self, output: Output) -> (f64, f64) {
        (self.sensitivities[output.index()], self.standard)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_width_gives_what_the_guide_gives() {
        // JCGM 100:2008, 4.3.7, example 2 (from memory): a bound of 0.40e-6 per degree gives 0.23e-6.
        assert!((standard_of_half_width(0.40e-6) - 0.23e-6).abs() < 0.005e-6);
    }

    #[test]
    fn independent_parts_combine_by_their_squares() {
        assert!((combined([(2.0, 1.5), (-1.0, 4.0)]) - 5.0).abs() < 1e-15);
        assert!(combined([]).abs() < f64::MIN_POSITIVE);
    }
}
