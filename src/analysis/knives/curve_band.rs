//! How far a knife's curves can be off along what they run over, because the readings can.

use super::curve::{Measured, Over, measured_of};
use super::life::Trial;
use crate::analysis::{Solution, Uncertainty};
use crate::geometry::KnifeSection;
use crate::unit::{Fitted, Follows, Unit};

/// Places along a curve at which its uncertainty is worked out.
const PLACES: u32 = 32;

/// A place of a curve's band: where, in the unit of what it runs over, and its two sides in
/// millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffAt {
    /// Where.
    pub at: f64,
    /// The value less its expanded uncertainty.
    pub low_mm: f64,
    /// The value and its expanded uncertainty.
    pub high_mm: f64,
}

/// The bands of a knife's curves, in the order of [`Measured::ALL`], each in its unbroken pieces;
/// none where no reading carries a ±. What the curves run over is exact along them.
#[must_use]
pub fn bands(
    unit: &Unit,
    trial: &Trial,
    (fitted, knife): (Fitted, KnifeSection),
    over: Over,
) -> Option<[Vec<Vec<OffAt>>; 3]> {
    if unit.uncertain.is_empty() {
        return None;
    }
    let follows = Follows {
        reel_diameter: unit.follows.reel_diameter && over != Over::Diameter,
        attitude: unit.follows.attitude && over != Over::Attitude,
        ..unit.follows.with_knife(fitted)
    };
    let (low, high) = over.range(unit);
    let mut bands: [Vec<Vec<OffAt>>; 3] = Default::default();
    let mut is_broken = true;
    for place in 0..=PLACES {
        let at = low + (high - low) * f64::from(place) / f64::from(PLACES);
        let setting = over.setting(unit, trial, knife, at);
        let Ok(solution) = Solution::of(unit, &setting) else {
            is_broken = true;
            continue;
        };
        let uncertainty = Uncertainty::of_readings(unit, &setting, follows);
        let values = measured_of(&solution);
        for ((band, measured), value) in bands.iter_mut().zip(Measured::ALL).zip(values) {
            let off = uncertainty.expanded(measured.number());
            if is_broken {
                band.push(Vec::new());
            }
            if let Some(piece) = band.last_mut() {
                piece.push(OffAt {
                    at,
                    low_mm: value - off,
                    high_mm: value + off,
                });
            }
        }
        is_broken = false;
    }
    Some(bands)
}
