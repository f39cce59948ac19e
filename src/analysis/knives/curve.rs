//! Curves: what a knife does over the reel's life, over attitude or over extension, and where it
//! crosses a limit.

use super::life::Trial;
use crate::analysis::ranges::{MOST_EXTENSION, attitude_range};
use crate::analysis::search::{ALL_COUNT, Values, crossings};
use crate::analysis::{NumberId, Solution};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// What a curve runs over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Over {
    /// The reel's diameter, from scrap to new, in millimetres.
    #[default]
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
            Self::Extension => "edge forward",
        }
    }

    /// The range it runs over.
    #[must_use]
    pub fn range(self, unit: &Unit) -> (f64, f64) {
        match self {
            Self::Diameter => (unit.smallest_diameter.mm(), unit.new_diameter.mm()),
            Self::Attitude => {
                let (low, high) = attitude_range(&unit.limits);
                (low.deg(), high.deg())
            }
            Self::Extension => (-MOST_EXTENSION.mm(), MOST_EXTENSION.mm()),
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

    pub(super) fn setting(
        self,
        unit: &Unit,
        trial: &Trial,
        knife: KnifeSection,
        at: f64,
    ) -> Setting {
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
            Self::Sweep => "sweep",
            Self::BehindCentre => "behind centre",
            Self::Underside => "underside above the ground",
        }
    }

    /// The same in a word or two, for a key.
    pub(super) const fn short_name(self) -> &'static str {
        match self {
            Self::Sweep => "sweep",
            Self::BehindCentre => "behind centre",
            Self::Underside => "underside",
        }
    }

    /// Its limits at a height of cut.
    #[must_use]
    pub fn limits(self, unit: &Unit, trial: &Trial) -> Vec<MeasuredLimit> {
        let limits = &unit.limits;
        let of_cut = |share: f64| Length::from_mm(share * trial.height_of_cut.mm());
        match self {
            Self::Sweep => vec![
                MeasuredLimit {
                    name: "watch",
                    told: "the sweep limit (watch)",
                    at: of_cut(limits.sweep_watch.of_one()),
                    is_past_above: true,
                },
                MeasuredLimit {
                    name: "over",
                    told: "the sweep limit (over)",
                    at: of_cut(limits.sweep_over.of_one()),
                    is_past_above: true,
                },
            ],
            Self::BehindCentre => vec![MeasuredLimit {
                name: "ahead of centre",
                told: "the limit for running ahead of centre",
                at: -limits.ahead_of_centre,
                is_past_above: false,
            }],
            Self::Underside => vec![MeasuredLimit {
                name: "least underside",
                told: "the least clearance of the underside",
                at: limits.underside,
                is_past_above: false,
            }],
        }
    }

    /// The number it is.
    pub(super) const fn number(self) -> NumberId {
        match self {
            Self::Sweep => NumberId::SweepBelowCut,
            Self::BehindCentre => NumberId::BehindCentre,
            Self::Underside => NumberId::UndersideOnGround,
        }
    }
}

/// A limit of what a curve shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredLimit {
    /// Its name beside its line.
    pub name: &'static str,
    /// Its name in a sentence, with its article.
    pub told: &'static str,
    /// The value it stands at.
    pub at: Length,
    /// Whether values above it are past it, and not those below.
    pub is_past_above: bool,
}

impl MeasuredLimit {
    /// Whether a value is past it.
    #[must_use]
    pub fn is_past(&self, value_mm: f64) -> bool {
        if self.is_past_above {
            value_mm > self.at.mm()
        } else {
            value_mm < self.at.mm()
        }
    }
}

/// A place where a curve crosses a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurveCrossing {
    /// Where, in the unit of what the curve runs over.
    pub at: f64,
    /// The limit.
    pub limit: MeasuredLimit,
    /// Whether the limit is passed beyond this place, going up, and not before it.
    pub is_past_beyond: bool,
}

/// A curve of one knife.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its unbroken pieces, in order: points in the unit of what it runs over and in millimetres.
    /// It breaks where the geometry cannot exist.
    pub pieces: Vec<Vec<[f64; 2]>>,
    /// Where it crosses its limits, in order.
    pub crossings: Vec<CurveCrossing>,
}

/// Steps a curve is drawn in, besides the places where it was solved.
const STEPS: u32 = 80;
/// How near a crossing its two sides are looked at, as a part of the range.
const BESIDE: f64 = 1e-7;

/// What a knife gives at one place of what the curves run over, in the order of [`Measured::ALL`]
/// and in millimetres; none where the geometry cannot exist.
#[must_use]
pub fn measured_at(
    unit: &Unit,
    trial: &Trial,
    knife: KnifeSection,
    over: Over,
    at: f64,
) -> Option<[f64; 3]> {
    let setting = over.setting(unit, trial, knife, at);
    let solution = Solution::of(unit, &setting).ok()?;
    Some(measured_of(&solution))
}

/// What the curves show of a solution, in the order of [`Measured::ALL`] and in millimetres.
pub(super) fn measured_of(solution: &Solution) -> [f64; 3] {
    let numbers = solution.numbers();
    // Each of the three is there in every solution.
    Measured::ALL.map(|measured| numbers.base(measured.number()).unwrap_or(f64::NAN))
}

/// The curves of a knife, in the order of [`Measured::ALL`].
#[must_use]
pub fn curves(unit: &Unit, trial: &Trial, knife: KnifeSection, over: Over) -> [Curve; 3] {
    let (low, high) = over.range(unit);
    let limits: Vec<(usize, MeasuredLimit)> = Measured::ALL
        .into_iter()
        .enumerate()
        .flat_map(|(index, measured)| {
            let limits = measured.limits(unit, trial).into_iter();
            limits.map(move |limit| (index, limit))
        })
        .collect();
    let value = |at: f64| measured_at(unit, trial, knife, over, at);
    // Wherever the search looked is a place of the curve too, crossings foremost.
    let mut looked_at = Vec::new();
    let mut margins = |at: f64| -> Values {
        let values = value(at);
        looked_at.push((at, values));
        let values = values?;
        let margins = limits
            .iter()
            .map(|(index, limit)| values[*index] - limit.at.mm());
        Some(margins.collect())
    };
    let found = crossings(&mut margins, (low, high), STEPS, ALL_COUNT);
    looked_at.sort_by(|a, b| a.0.total_cmp(&b.0));
    let beside = BESIDE * (high - low);
    // Solving a crossing looks at many places that nobody can tell apart.
    looked_at
        .dedup_by(|next, kept| next.0 - kept.0 < beside && next.1.is_some() == kept.1.is_some());
    std::array::from_fn(|index| {
        let crossings = found.iter().filter_map(|crossing| {
            let (owner, limit) = limits[crossing.which?];
            let is_past = |at: f64| Some(limit.is_past(value(at)?[index]));
            let beyond = is_past(crossing.at + beside);
            let before = || is_past(crossing.at - beside).map(|is_past| !is_past);
            (owner == index).then(|| CurveCrossing {
                at: crossing.at,
                limit,
                is_past_beyond: beyond.or_else(before).unwrap_or(false),
            })
        });
        Curve {
            pieces: pieces(&looked_at, index),
            crossings: crossings.collect(),
        }
    })
}

fn pieces(looked_at: &[(f64, Option<[f64; 3]>)], index: usize) -> Vec<Vec<[f64; 2]>> {
    looked_at
        .split(|(_, values)| values.is_none())
        .map(|piece| {
            let points = piece
                .iter()
                .filter_map(|(at, values)| Some([*at, (*values)?[index]]));
            points.collect::<Vec<_>>()
        })
        .filter(|piece| !piece.is_empty())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Solved;
    use crate::unit::read_text;

    const DEMO_UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

    fn solved() -> Solved {
        Solved::of(&read_text(DEMO_UNIT).expect("reads")).expect("solves")
    }

    #[test]
    fn a_curve_goes_through_its_crossings_and_says_which_side_is_past() {
        let solved = solved();
        let trial = Trial::of(&solved.solution);
        let knife = solved.unit.profile.knife;
        let all = curves(&solved.unit, &trial, knife, Over::Attitude);
        for (index, curve) in all.iter().enumerate() {
            for crossing in &curve.crossings {
                let value = |at| {
                    measured_at(&solved.unit, &trial, knife, Over::Attitude, at).expect("exists")
                        [index]
                };
                assert!((value(crossing.at) - crossing.limit.at.mm()).abs() < 1e-8);
                assert_eq!(
                    crossing.limit.is_past(value(crossing.at + 0.01)),
                    crossing.is_past_beyond
                );
                let points = curve.pieces.iter().flatten();
                assert!(
                    points
                        .map(|point| (point[0] - crossing.at).abs())
                        .fold(f64::INFINITY, f64::min)
                        < 1e-5
                );
            }
        }
        assert_eq!(all.map(|curve| curve.crossings.len()), [2, 1, 1]);
    }

    #[test]
    fn a_curve_breaks_where_reel_and_knife_do_not_meet() {
        let solved = solved();
        let trial = Trial::of(&solved.solution);
        let mut knife = solved.unit.profile.knife;
        knife.reach = Length::from_mm(knife.reach.mm() + 85.0);
        let all = curves(&solved.unit, &trial, knife, Over::Extension);
        let (low, high) = Over::Extension.range(&solved.unit);
        for curve in &all {
            for piece in &curve.pieces {
                assert!(piece.windows(2).all(|pair| pair[0][0] < pair[1][0]));
                assert!(piece.iter().all(|point| (low..=high).contains(&point[0])));
            }
        }
        let points: usize = all[0].pieces.iter().map(Vec::len).sum();
        assert!(points > 0 && all[0].pieces[0].last().expect("a point")[0] < high);
    }
}
