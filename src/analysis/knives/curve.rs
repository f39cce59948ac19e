//! Curves: what a knife does over the reel's life, over attitude or over extension, and where it
//! crosses a limit.

use super::crossings::{Values, crossings};
use super::table::Trial;
use super::window::attitude_range;
use crate::analysis::Solution;
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// What a curve runs over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// The reel's diameter, from scrap to new, in millimetres.
    Diameter,
    /// The attitude, in degrees.
    Attitude,
    /// The extension besides the knife's reach, in millimetres.
    Extension,
}

impl Over {
    /// The three, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Diameter, Self::Attitude, Self::Extension];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Diameter => "reel diameter",
            Self::Attitude => "attitude",
            Self::Extension => "extension",
        }
    }

    /// The range it runs over.
    #[must_use]
    pub fn range(self, unit: &Unit) -> (f64, f64) {
        match self {
            Self::Diameter => (unit.smallest_diameter.mm(), unit.new_diameter.mm()),
            Self::Attitude => {
                let (low, high) = attitude_range(unit);
                (low.deg(), high.deg())
            }
            Self::Extension => (-12.7, 12.7),
        }
    }

    /// The value in force.
    #[must_use]
    pub fn now(self, unit: &Unit, trial: &Trial) -> f64 {
        match self {
            Self::Diameter => unit.setting.reel_diameter.mm(),
            Self::Attitude => trial.attitude.deg(),
            Self::Extension => unit.setting.extension.mm(),
        }
    }

    fn setting(self, unit: &Unit, trial: &Trial, knife: KnifeSection, at: f64) -> Setting {
        let plain = trial.setting(unit, knife, unit.setting.reel_diameter);
        match self {
            Self::Diameter => Setting {
                reel_diameter: Length::from_mm(at),
                ..plain
            },
            Self::Attitude => Setting {
                stance: Stance::Wanted {
                    attitude: Angle::from_deg(at),
                    height_of_cut: trial.height_of_cut,
                },
                ..plain
            },
            Self::Extension => Setting {
                extension: Length::from_mm(at),
                ..plain
            },
        }
    }
}

/// What a curve shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Sweep below the cut.
    Sweep,
    /// Edge behind centre.
    BehindCentre,
    /// Clearance of the underside over the ground.
    Underside,
}

impl Measured {
    /// The three, in the order they are shown.
    pub const ALL: [Self; 3] = [Self::Sweep, Self::BehindCentre, Self::Underside];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweep => "sweep below the cut",
            Self::BehindCentre => "behind centre",
            Self::Underside => "underside over the ground",
        }
    }

    /// Its limits at a height of cut, each with its name; passing it is above or below by kind.
    #[must_use]
    pub fn limits(self, unit: &Unit, trial: &Trial) -> Vec<(&'static str, Length)> {
        let limits = &unit.limits;
        let of_cut = |share: f64| Length::from_mm(share * trial.height_of_cut.mm());
        match self {
            Self::Sweep => vec![
                ("watch", of_cut(limits.sweep_watch.of_one())),
                ("over", of_cut(limits.sweep_over.of_one())),
            ],
            Self::BehindCentre => vec![("ahead of centre", -limits.ahead_of_centre)],
            Self::Underside => vec![("least underside", limits.underside)],
        }
    }

    fn of(self, solution: &Solution) -> f64 {
        match self {
            Self::Sweep => solution.sweep.below_cut.mm(),
            Self::BehindCentre => solution.sweep.behind_centre.mm(),
            Self::Underside => solution.on_ground.underside_clearance.mm(),
        }
    }
}

/// A place where a curve crosses a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurveCrossing {
    /// Where, in the unit of what the curve runs over.
    pub at: f64,
    /// The value there, in millimetres.
    pub value_mm: f64,
    /// The limit's name.
    pub limit: &'static str,
}

/// A curve of one knife.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Points of it, in the unit of what it runs over and in millimetres.
    pub points: Vec<[f64; 2]>,
    /// Where it crosses its limits.
    pub crossings: Vec<CurveCrossing>,
}

/// Steps a curve is drawn in.
const STEPS: u32 = 80;

/// The curve of a knife.
#[must_use]
pub fn curve(
    unit: &Unit,
    trial: &Trial,
    knife: KnifeSection,
    over: Over,
    measured: Measured,
) -> Curve {
    let (low, high) = over.range(unit);
    let value = |at: f64| {
        let setting = over.setting(unit, trial, knife, at);
        Some(measured.of(&Solution::of(unit, &setting).ok()?))
    };
    let points = (0..=STEPS)
        .map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS))
        .filter_map(|at| Some([at, value(at)?]))
        .collect();
    let limits = measured.limits(unit, trial);
    let mut margins = |at: f64| -> Values {
        let value = value(at)?;
        Some(limits.iter().map(|(_, limit)| value - limit.mm()).collect())
    };
    let crossings = crossings(&mut margins, low, high, STEPS)
        .into_iter()
        .filter_map(|crossing| {
            let (limit, length) = limits[crossing.which?];
            Some(CurveCrossing {
                at: crossing.at,
                value_mm: length.mm(),
                limit,
            })
        })
        .collect();
    Curve { points, crossings }
}
