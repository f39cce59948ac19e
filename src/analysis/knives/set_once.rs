//! Set once and left alone: the attitudes that hold every limit at every diameter of the reel, from
//! new to scrap, and what stands apart where there are none.

use super::life::{Life, ReelWindows, Trial};
use super::limit::{Limit, Margins};
use super::window::{Span, attitude_spans, windows};
use crate::analysis::search::{Values, least, runs, stretches};
use crate::analysis::{Case, Solution};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// Cells that the reel's life is cut into.
const CELLS_OF_LIFE: u32 = 8;
/// Cells that a range of attitudes is cut into which is within every limit with the reel new and at
/// scrap size.
const CELLS: u32 = 8;
/// A margin of less is rounding: at the end of a window it is zero.
const ROUNDING_MM: f64 = 1e-10;

/// One end of a range of attitudes: where it is, what ends it, and with how large a reel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// The attitude.
    pub at: Angle,
    /// What is reached there.
    pub limit: Limit,
    /// The reel's diameter with which it is reached.
    pub diameter: Length,
}

/// The attitudes that hold every limit at every diameter of the reel, from new to scrap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetOnce {
    /// Its least attitude.
    pub low: End,
    /// Its most.
    pub high: End,
}

impl SetOnce {
    /// What a knife leaves on trial; none where it leaves none.
    #[must_use]
    pub fn of(unit: &Unit, trial: &Trial, knife: KnifeSection) -> Option<Self> {
        let at = |life: Life| {
            let diameter = life.diameter(unit);
            let setting = trial.setting(unit, knife, diameter);
            ReelWindows {
                life,
                diameter,
                windows: windows(unit, &setting, trial.height_of_cut),
            }
        };
        let (new, scrap) = (at(Life::New), at(Life::Scrap));
        let setting = trial.setting(unit, knife, unit.setting.reel_diameter);
        set_once(unit, &setting, trial.height_of_cut, [&new, &scrap])
    }

    /// How much attitude it leaves.
    #[must_use]
    pub fn width(&self) -> Angle {
        self.high.at - self.low.at
    }

    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Angle {
        Angle::from_deg(f64::midpoint(self.low.at.deg(), self.high.at.deg()))
    }

    /// The attitude in it that is nearest to one.
    #[must_use]
    pub fn nearest(&self, attitude: Angle) -> Angle {
        let deg = attitude.deg();
        Angle::from_deg(deg.clamp(self.low.at.deg(), self.high.at.deg()))
    }
}

/// The widest range of attitudes that holds every limit at every diameter from `new` to `scrap`, at a
/// height of cut; none where there is none.
///
/// With the reel new and at scrap size its ends are those of the windows. Between them every margin's
/// least value over the diameters is looked for, and where that crosses zero.
#[must_use]
pub fn set_once(
    unit: &Unit,
    setting: &Setting,
    height_of_cut: Length,
    [new, scrap]: [&ReelWindows; 2],
) -> Option<SetOnce> {
    let least_at = |attitude_deg: f64| {
        let mut margins = |diameter_mm: f64| {
            let setting = Setting {
                reel_diameter: Length::from_mm(diameter_mm),
                ..*setting
            };
            margins_at(unit, &setting, height_of_cut, attitude_deg)
        };
        let (low, high) = (scrap.diameter.mm(), new.diameter.mm());
        least(&mut margins, low, high, CELLS_OF_LIFE)
    };
    let mut found = Vec::new();
    for whole in common(new, scrap) {
        let mut margins = |attitude_deg: f64| -> Values {
            let least = least_at(attitude_deg)?;
            Some(least.iter().map(|l| l.value + ROUNDING_MM).collect())
        };
        let (low, high) = (whole.low.at.deg(), whole.high.at.deg());
        let cut = stretches(&mut margins, (low, high), CELLS, Margins::OF_UNDERSIDE);
        let holds = |values: &Values| {
            let values = values.as_ref();
            values.is_some_and(|values| values.iter().all(|margin| *margin >= 0.0))
        };
        let within = runs(&cut, |stretch| holds(&stretch.values));
        found.extend(within.map(|(first, last)| {
            let end = |crossing: Option<crate::analysis::search::Crossing>, otherwise: End| {
                crossing.map_or(otherwise, |crossing| {
                    let at = crossing.at;
                    let which = crossing.which;
                    let place = which.and_then(|which| Some(least_at(at)?.get(which)?.at));
                    End {
                        at: Angle::from_deg(at),
                        limit: which.map_or(Limit::Reach, Margins::limit),
                        diameter: place.map_or(scrap.diameter, Length::from_mm),
                    }
                })
            };
            SetOnce {
                low: end(first.begin, whole.low),
                high: end(last.end, whole.high),
            }
        }));
    }
    found
        .into_iter()
        .filter(|range| range.width().deg() > 0.0)
        .max_by(|a, b| a.width().deg().total_cmp(&b.width().deg()))
}

/// What both sizes of the reel leave, from the least attitude up.
fn common(new: &ReelWindows, scrap: &ReelWindows) -> Vec<SetOnce> {
    let ends = |reel: &ReelWindows| {
        let diameter = reel.diameter;
        let ranges = reel.windows.iter().map(move |window| {
            let end = |at, limit| End {
                at,
                limit,
                diameter,
            };
            SetOnce {
                low: end(window.low, window.low_limit),
                high: end(window.high, window.high_limit),
            }
        });
        ranges.collect::<Vec<_>>()
    };
    let (of_new, of_scrap) = (ends(new), ends(scrap));
    let pairs = of_new
        .iter()
        .flat_map(|a| of_scrap.iter().map(move |b| (a, b)));
    let common = pairs.map(|(a, b)| SetOnce {
        low: if a.low.at > b.low.at { a.low } else { b.low },
        high: if a.high.at < b.high.at {
            a.high
        } else {
            b.high
        },
    });
    common
        .filter(|range| range.low.at < range.high.at)
        .collect()
}

fn margins_at(unit: &Unit, setting: &Setting, height_of_cut: Length, deg: f64) -> Values {
    let stance = Stance::Wanted {
        attitude: Angle::from_deg(deg),
        height_of_cut,
    };
    let tried = Setting { stance, ..*setting };
    let solution = Solution::of(unit, &tried).ok()?;
    let case = Case {
        unit,
        setting: &tried,
        solution: &solution,
    };
    Some(Margins::of(&case).0)
}

/// Why no attitude holds every limit from a new reel to a scrap one.
#[derive(Clone, Debug, PartialEq)]
pub enum Apart {
    /// One limit wants more attitude than another allows.
    Ends {
        /// The least attitude that one allows.
        more_than: End,
        /// The most that the other does.
        less_than: End,
    },
    /// These hold at no attitude, with the reel at one size of its life.
    Nowhere(Vec<Limit>),
    /// These are passed in turn, at one attitude or another.
    InTurn(Vec<Limit>),
}

impl Apart {
    /// What stands apart, with the reel new and at scrap size; `setting` has the knife fitted.
    #[must_use]
    pub fn of(
        unit: &Unit,
        setting: &Setting,
        height_of_cut: Length,
        diameters: [Length; 2],
    ) -> Self {
        let spans = diameters.map(|diameter| {
            let setting = Setting {
                reel_diameter: diameter,
                ..*setting
            };
            (diameter, attitude_spans(unit, &setting, height_of_cut))
        });
        let limits = Limit::WITH_MARGIN.into_iter().chain([Limit::Reach]);
        let mut nowhere = Vec::new();
        let (mut more_than, mut less_than) = (None::<End>, None::<End>);
        for limit in limits {
            for (diameter, spans) in &spans {
                let allowed: Vec<&Span> = spans
                    .iter()
                    .filter(|span| {
                        !span.passed.contains(&limit) && !span.passed.contains(&Limit::Reach)
                    })
                    .collect();
                let (Some(first), Some(last)) = (allowed.first(), allowed.last()) else {
                    nowhere.push(limit);
                    continue;
                };
                let end = |at, is_range: bool| End {
                    at,
                    limit: if is_range { Limit::Range } else { limit },
                    diameter: *diameter,
                };
                let low = end(first.low, first.begin.is_none());
                let high = end(last.high, last.end.is_none());
                if more_than.is_none_or(|end| low.at > end.at) {
                    more_than = Some(low);
                }
                if less_than.is_none_or(|end| high.at < end.at) {
                    less_than = Some(high);
                }
            }
        }
        nowhere.dedup();
        if !nowhere.is_empty() {
            return Self::Nowhere(nowhere);
        }
        match (more_than, less_than) {
            (Some(more_than), Some(less_than)) if more_than.at >= less_than.at => Self::Ends {
                more_than,
                less_than,
            },
            _ => {
                let passed = spans.iter().flat_map(|(_, spans)| spans);
                let mut passed: Vec<Limit> = passed.flat_map(|span| span.passed.clone()).collect();
                passed.sort_unstable();
                passed.dedup();
                Self::InTurn(passed)
            }
        }
    }

    /// The limits that stand apart, in the order they are told.
    #[must_use]
    pub fn limits(&self) -> Vec<Limit> {
        match self {
            Self::Ends {
                more_than,
                less_than,
            } => vec![more_than.limit, less_than.limit],
            Self::Nowhere(limits) | Self::InTurn(limits) => limits.clone(),
        }
    }
}
