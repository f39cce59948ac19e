//! Measurement uncertainty: how far a solution's numbers can be off because the readings can.
//!
//! By JCGM 100:2008, the "Guide to the expression of uncertainty in measurement" (GUM): a ±
//! bounds a rectangular distribution, standard uncertainty half-width/√3 (4.3.7); readings are
//! independent, and their standard uncertainties combine by the first-order law of propagation
//! (5.1.2). The expanded uncertainty holds about 95 % of what they leave open (6.3.3): where many
//! readings share in it that is twice the combined one, where one evenly spread reading dominates less
//! (`coverage.rs`). The sensitivities are derivatives of the very formulas that give the values, by
//! dual numbers.
//!
//! The law is of first order: it holds while the numbers change in proportion to the readings over
//! the width of the ±. Where circles only just touch they do not, and no derivative counts there.

mod coverage;
mod in_words;
mod open_lean;
mod perturbed;
mod sure;

use num_dual::Dual64;

pub use coverage::{COVERAGE, expanded};
pub use in_words::{ENTERED_AND_WORKED_OUT, off_in_words, share_in_words};
pub use open_lean::LEAN_OFF;
pub(in crate::analysis) use open_lean::open_lean;
pub use sure::{Rests, Sure};

use self::perturbed::Inputs;
use super::numbers::{NumberId, Numbers};
use crate::geometry::{Number, Setting};
use crate::unit::{Follows, Reading, Uncertain, Unit};

/// How many numbers there are.
const COUNT: usize = NumberId::ALL.len();

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
    is_lean_open: bool,
    rests: Rests,
}

/// What one reading brings to every number.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Part {
    reading: Reading,
    standard: f64,
    sensitivities: [f64; COUNT],
    /// How far each number bends away from its slope over the width of the ±.
    bends: [f64; COUNT],
}

/// What one reading brings to the uncertainty of a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contribution {
    /// The reading.
    pub reading: Reading,
    /// By how much the number changes, with its sign, over the change of the reading; base units.
    pub sensitivity: f64,
    /// The standard uncertainty that the reading alone would give the number, in its base unit.
    pub standard: f64,
    /// Its share of the combined variance, of one.
    pub share: f64,
}

/// Sensitivities and shares of the variance below this are rounding.
const ROUNDING: f64 = 1e-12;

/// From this part of its ± on a number's bend is more than rounding off.
const ROUGH_PART: f64 = 0.25;
/// Bends below this are rounding: in millimetres, degrees or of one.
const LEAST_BEND: f64 = 1e-9;

/// Every number in turn, in the order of [`NumberId::ALL`]; zero for one that there is not.
fn bases<N: Number>(numbers: &Numbers<N>) -> [N; COUNT] {
    NumberId::ALL.map(|id| numbers.base(id).unwrap_or_else(|| N::exact(0.0)))
}

/// How often a ± is halved to find a place beside the reading where the geometry exists.
const HALVINGS: i32 = 30;

/// How far each number lies, with a reading at both ends of its ±, from the straight line between.
/// Without end where one end cannot exist and the number moves with the reading.
fn bends(plain: &Inputs<f64>, uncertain: Uncertain, follows: Follows) -> [f64; COUNT] {
    let at = |by: f64| {
        let mut inputs = plain.clone();
        inputs.shift(uncertain.reading, follows, by);
        inputs.numbers().ok().map(|numbers| bases(&numbers))
    };
    let half_width = uncertain.half_width;
    match (at(-half_width), at(0.0), at(half_width)) {
        (Some(low), Some(middle), Some(high)) => std::array::from_fn(|place| {
            (low[place] + high[place] - 2.0 * middle[place]).abs() / 2.0
        }),
        (_, Some(middle), _) => {
            let beside = |side: f64| {
                let mut by = (0..HALVINGS).map(|halved| side * half_width / 2_f64.powi(halved));
                by.find_map(&at)
            };
            let sides = [beside(-1.0), beside(1.0)];
            std::array::from_fn(|place| {
                let moves =
                    |there: &[f64; COUNT]| (there[place] - middle[place]).abs() > LEAST_BEND;
                let is_moved = sides.iter().flatten().any(moves);
                if is_moved { f64::INFINITY } else { 0.0 }
            })
        }
        _ => [f64::INFINITY; COUNT],
    }
}

impl Uncertainty {
    /// Works out how far the numbers of a unit in one of its settings can be off.
    ///
    /// `follows` says which values of the setting are the bench's own readings (`unit.follows` for
    /// the setting in force). A slide's lean that is not given counts as well, with [`LEAN_OFF`]. A
    /// setting that has no solution has no uncertainty.
    #[must_use]
    pub fn of(unit: &Unit, setting: &Setting, follows: Follows) -> Self {
        Self::by(open_lean(unit), unit, setting, follows)
    }

    /// The same by the readings alone, which have a ± of their own: what they leave open between
    /// knives, whose slide is one and the same.
    #[must_use]
    pub fn of_readings(unit: &Unit, setting: &Setting, follows: Follows) -> Self {
        Self::by(None, unit, setting, follows)
    }

    fn by(more: Option<Uncertain>, unit: &Unit, setting: &Setting, follows: Follows) -> Self {
        if unit.uncertain.is_empty() && more.is_none() {
            return Self::default();
        }
        let exact = Inputs::<Dual64>::exact(unit, setting);
        let plain = Inputs::<f64>::exact(unit, setting);
        let uncertain = unit.uncertain.iter().copied().chain(more);
        let parts = uncertain.filter_map(|uncertain| {
            let mut inputs = exact.clone();
            if !inputs.derive_by(uncertain.reading, follows) {
                return None;
            }
            Some(Part {
                reading: uncertain.reading,
                standard: standard_of_half_width(uncertain.half_width),
                sensitivities: bases(&inputs.numbers().ok()?)
                    .map(|number| beyond_rounding(number.eps)),
                bends: bends(&plain, uncertain, follows),
            })
        });
        Self {
            parts: parts.collect(),
            is_lean_open: more.is_some(),
            rests: Rests::default(),
        }
    }

    /// Whether a lean that is not given counts among the readings.
    #[must_use]
    pub fn is_lean_open(&self) -> bool {
        self.is_lean_open
    }

    /// Whether any number that is told can be off, as far as is known.
    #[must_use]
    pub fn has_any(&self) -> bool {
        let told = NumberId::ALL.into_iter().filter(|number| number.has_off());
        self.parts.iter().any(|part| {
            told.clone()
                .any(|number| part.sensitivities[number as usize] != 0.0)
        })
    }

    /// The combined standard uncertainty of a number, in its base unit: millimetres, degrees, or
    /// a plain ratio. Zero for a number that the solution does not have.
    #[must_use]
    pub fn standard(&self, number: NumberId) -> f64 {
        combined(self.parts.iter().map(|part| part.on(number)))
    }

    /// The expanded uncertainty: the number lies within ± it with [`COVERAGE`].
    #[must_use]
    pub fn expanded(&self, number: NumberId) -> f64 {
        expanded(self.parts.iter().map(|part| part.on(number)))
    }

    /// The coverage factor *k*, expanded over combined standard uncertainty; none where the number
    /// cannot be off.
    #[must_use]
    pub fn coverage_factor(&self, number: NumberId) -> Option<f64> {
        let standard = self.standard(number);
        (standard > 0.0).then(|| self.expanded(number) / standard)
    }

    /// How far a number can stray, besides its ±, from what the first-order law takes to be
    /// straight: without end where the geometry cannot exist a little way off.
    fn bend(&self, number: NumberId) -> f64 {
        let bends = self.parts.iter().map(|part| part.bends[number as usize]);
        bends.sum()
    }

    /// Whether a number bends so much over the width of the readings' ± that its own is no more
    /// than rough (JCGM 100:2008, 5.1.2, note: where the model is not linear).
    #[must_use]
    pub fn is_rough(&self, number: NumberId) -> bool {
        let bend = self.bend(number);
        bend > LEAST_BEND && bend > ROUGH_PART * self.expanded(number)
    }

    /// Within how much of a number no limit is shown to be kept or passed: its ±, and its bend where that is rough.
    #[must_use]
    pub fn in_doubt_within(&self, number: NumberId) -> f64 {
        let off = self.expanded(number);
        if self.is_rough(number) {
            off + self.bend(number)
        } else {
            off
        }
    }

    /// The numbers whose ± is told and no more than rough.
    pub fn rough(&self) -> impl Iterator<Item = NumberId> {
        let told = NumberId::ALL.into_iter().filter(|number| number.has_off());
        told.filter(|number| self.is_rough(*number))
    }

    /// The readings by how much of the variance of a number each brings, largest first; those
    /// that bring zero are left out.
    #[must_use]
    pub fn ranking(&self, number: NumberId) -> Vec<Contribution> {
        let whole = self.standard(number);
        let contributions = self.parts.iter().map(|part| {
            let (sensitivity, reading_standard) = part.on(number);
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

/// What cancels leaves rounding: zero then.
fn beyond_rounding(sensitivity: f64) -> f64 {
    if sensitivity.abs() > ROUNDING {
        sensitivity
    } else {
        0.0
    }
}

impl Part {
    /// The sensitivity of a number to the reading, and the reading's standard uncertainty.
    fn on(&self, number: NumberId) -> (f64, f64) {
        (self.sensitivities[number as usize], self.standard)
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
