//! What a unit comes to as its reel wears and is ground, reel and knife brought together again each
//! time and the rollers left where they are.

use super::search::{ALL_COUNT, Values, crossings};
use super::{Case, FindingId, Solution, Solved};
use crate::geometry::{Setting, Stance};
use crate::unit::Unit;
use crate::units::Length;

/// What ends the time in which a unit can be left alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WearLimit {
    /// The reel is at its minimum diameter.
    Scrap,
    /// The sweep is past the limit that ends a working attitude range.
    Sweep,
    /// The underside is past the limit that ends a working attitude range.
    Underside,
    /// Reel and knife meet no more.
    Adjustment,
}

impl WearLimit {
    /// Every one, in the order they are told.
    pub const ALL: [Self; 4] = [Self::Scrap, Self::Sweep, Self::Underside, Self::Adjustment];

    /// What is reached, to be read after a date.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Scrap => "reel at its minimum diameter (scrap)",
            Self::Sweep => "sweep at its limit",
            Self::Underside => "underside at its minimum clearance",
            Self::Adjustment => "end of the reel-to-knife adjustment",
        }
    }

    /// The same in one word, for a table.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Scrap => "scrap",
            Self::Sweep => "sweep",
            Self::Underside => "underside",
            Self::Adjustment => "adjustment",
        }
    }
}

/// Where a limit is met on the way from the reel as it is to its minimum diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Met {
    /// It is past it as it stands.
    Already,
    /// At this diameter.
    At(Length),
    /// At none down to the minimum diameter.
    NotBeforeScrap,
}

/// Where each limit is met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftAlone {
    met: [Met; WearLimit::ALL.len()],
    reel_diameter: Length,
}

/// Cells that the diameters from now to scrap are cut into before the search.
const CELLS: u32 = 48;

impl LeftAlone {
    /// Of a solved unit, as it is set.
    #[must_use]
    pub fn of(solved: &Solved) -> Self {
        let unit = &solved.unit;
        let setting = rollers_held(solved);
        let (now, scrap) = (setting.reel_diameter, unit.smallest_diameter);
        let mut met = [Met::NotBeforeScrap; WearLimit::ALL.len()];
        if now <= scrap {
            met[WearLimit::Scrap as usize] = Met::Already;
        } else {
            met[WearLimit::Scrap as usize] = Met::At(scrap);
        }
        let mut at = |diameter_mm: f64| margins_mm(unit, &setting, Length::from_mm(diameter_mm));
        let Some(at_now) = at(now.mm()) else {
            met[WearLimit::Adjustment as usize] = Met::Already;
            return Self {
                met,
                reel_diameter: now,
            };
        };
        for limit in [WearLimit::Sweep, WearLimit::Underside] {
            if least(limit, &at_now) < 0.0 {
                met[limit as usize] = Met::Already;
            }
        }
        if now > scrap {
            let mut found = crossings(&mut at, (scrap.mm(), now.mm()), CELLS, ALL_COUNT);
            // The reel gets smaller.
            found.reverse();
            for crossing in found {
                let limit = match crossing.which {
                    None => WearLimit::Adjustment,
                    Some(0) => WearLimit::Sweep,
                    Some(_) => WearLimit::Underside,
                };
                let below = at(crossing.at - BESIDE_MM);
                let is_past = match (limit, &below) {
                    (WearLimit::Adjustment, below) => below.is_none(),
                    (limit, Some(below)) => least(limit, below) < 0.0,
                    (_, None) => false,
                };
                let met = &mut met[limit as usize];
                if is_past && *met == Met::NotBeforeScrap {
                    *met = Met::At(Length::from_mm(crossing.at));
                }
            }
        }
        Self {
            met,
            reel_diameter: now,
        }
    }

    /// The reel's diameter as the unit is.
    #[must_use]
    pub const fn reel_diameter(&self) -> Length {
        self.reel_diameter
    }

    /// Where a limit is met.
    #[must_use]
    pub fn met(&self, limit: WearLimit) -> Met {
        self.met[limit as usize]
    }

    /// Every limit that is met, with where.
    pub fn all_met(&self) -> impl Iterator<Item = (WearLimit, Met)> + '_ {
        let all = WearLimit::ALL.into_iter();
        all.map(|limit| (limit, self.met(limit)))
            .filter(|(_, met)| *met != Met::NotBeforeScrap)
    }
}

/// How far below a crossing it is looked whether a limit is past there.
const BESIDE_MM: f64 = 1e-6;

/// The setting in force, told by where its rollers stand: so they stay as the reel gets smaller.
#[must_use]
pub fn rollers_held(solved: &Solved) -> Setting {
    let pose = &solved.solution.pose;
    Setting {
        stance: Stance::Rollers {
            front_move: pose.front_roller.moved,
            rear_move: pose.rear_roller.moved,
        },
        ..solved.unit.setting
    }
}

/// How the limits are kept at a diameter, in millimetres and negative past one: the sweep's first, then
/// one for each point that can be lowest under the knife. None where reel and knife do not meet.
fn margins_mm(unit: &Unit, setting: &Setting, reel_diameter: Length) -> Values {
    let setting = Setting {
        reel_diameter,
        ..*setting
    };
    let solution = Solution::of(unit, &setting).ok()?;
    let case = Case {
        unit,
        setting: &setting,
        solution: &solution,
    };
    let mut margins = Vec::new();
    for finding in [FindingId::Sweep, FindingId::Underside] {
        finding.add_margins_mm(&case, &mut margins);
    }
    Some(margins)
}

fn least(limit: WearLimit, margins_mm: &[f64]) -> f64 {
    let of_limit = match limit {
        WearLimit::Sweep => &margins_mm[..1.min(margins_mm.len())],
        WearLimit::Underside => &margins_mm[1.min(margins_mm.len())..],
        WearLimit::Scrap | WearLimit::Adjustment => &[],
    };
    of_limit.iter().copied().fold(f64::INFINITY, f64::min)
}
