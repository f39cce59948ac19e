//! What a sheet says about one roller.

use super::correction::{Correction, at_adjuster};
use super::parallel::Parallel;
use super::runout::{RunoutLimits, StationRunout, bow_of};
use crate::geometry::OutOfCentre;
use crate::plate::{Readings, RollerReadings};
use crate::unit::Turf;
use crate::units::Length;

/// What a sheet says about one roller; whatever was not read is none.
#[derive(Clone, Debug, PartialEq)]
pub struct RollerResult {
    /// How parallel it is.
    pub parallel: Option<Parallel>,
    /// How far the end that is adjusted must come down; less than zero: up.
    pub at_adjuster: Option<Length>,
    /// What does that.
    pub correction: Option<Correction>,
    /// Its runout, in the order it was read.
    pub runout: Vec<StationRunout>,
    /// How far it is bent, and which way.
    pub bow: Option<OutOfCentre>,
}

impl RollerResult {
    pub(super) fn of(roller: &RollerReadings, sheet: &Readings, turf: Option<Turf>) -> Self {
        let parallel = Parallel::of(roller, sheet, turf);
        let at_adjuster = parallel.as_ref().and_then(|parallel| {
            let (apart, adjust) = (roller.adjusters_apart?, roller.adjust?);
            Some(at_adjuster(parallel.slope, apart, adjust))
        });
        let correction = at_adjuster
            .zip(roller.adjuster.as_ref())
            .map(|(down, adjuster)| Correction::of(adjuster, -down));
        let limits = RunoutLimits::of(sheet, turf);
        Self {
            parallel,
            at_adjuster,
            correction,
            runout: roller
                .runout
                .iter()
                .map(|station| StationRunout::of(station, limits))
                .collect(),
            bow: bow_of(&roller.runout),
        }
    }
}
