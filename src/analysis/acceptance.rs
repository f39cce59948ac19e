//! What a set unit is accepted by when it is read again on the surface plate: the ends that the limits
//! leave to each reading.

use super::knives::{Window, windows};
use super::{Case, Solution};
use crate::geometry::Setting;
use crate::unit::Unit;
use crate::units::Length;

/// The ends of the readings of a unit that is set.
#[derive(Clone, Debug, PartialEq)]
pub struct Acceptance {
    /// The attitudes at which every limit holds at this height of cut; empty where none does.
    pub attitude: Vec<Window>,
    /// The edge behind centre at least: negative where it may run ahead.
    pub behind_centre_least: Length,
    /// The edge behind centre at most, by the share of the height of cut that the reel may sweep; none
    /// where no place of the edge sweeps too deep.
    pub behind_centre_most: Option<Length>,
    /// The gap at most.
    pub gap_most: Length,
}

impl Acceptance {
    /// The ends for a case.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let Case {
            unit,
            setting,
            solution,
        } = case;
        let limits = &unit.limits;
        Self {
            attitude: windows(unit, setting, solution.pose.height_of_cut),
            behind_centre_least: limits.behind_centre.unwrap_or(-limits.ahead_of_centre),
            behind_centre_most: behind_centre_most(unit, setting, solution),
            gap_most: limits.gap_over,
        }
    }
}

/// Where the reel sweeps as deep as it may: with S of sweep the reel's centre stands R - S over the edge,
/// and R + g from it.
fn behind_centre_most(unit: &Unit, setting: &Setting, solution: &Solution) -> Option<Length> {
    let sweep_mm = unit.limits.sweep_over.of_one() * solution.pose.height_of_cut.mm();
    let radius_mm = setting.reel_diameter.mm() / 2.0;
    let (above_mm, apart_mm) = (radius_mm - sweep_mm, radius_mm + setting.gap.mm());
    // A reel whose centre may come down to the edge sweeps too deep nowhere.
    let is_reached = above_mm > 0.0 && above_mm <= apart_mm;
    is_reached.then(|| {
        let behind_mm = ((apart_mm - above_mm) * (apart_mm + above_mm)).sqrt();
        Length::from_mm(behind_mm)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{FindingId, Level, Solved};
    use crate::geometry::Stance;
    use crate::unit::Document;
    use crate::units::Angle;

    fn demo() -> Document {
        crate::unit::read_text(include_str!("../../demo-units/greens-scalping.ron")).unwrap()
    }

    /// The findings at an attitude.
    fn at(solved: &Solved, attitude: Angle) -> (Solution, Level) {
        let setting = Setting {
            stance: Stance::Wanted {
                attitude,
                height_of_cut: solved.solution.pose.height_of_cut,
            },
            ..solved.unit.setting
        };
        let solution = Solution::of(&solved.unit, &setting).unwrap();
        let case = Case {
            unit: &solved.unit,
            setting: &setting,
            solution: &solution,
        };
        let level = crate::analysis::Findings::about(&case)
            .get(FindingId::Sweep)
            .map_or(Level::Fine, |sweep| sweep.level);
        (solution, level)
    }

    #[test]
    fn the_sweep_is_over_limit_just_past_the_end_and_not_before() {
        let solved = Solved::of(&demo()).unwrap();
        let accepted = Acceptance::of(&solved.case());
        let most = accepted.behind_centre_most.unwrap();
        // The attitude that brings the edge there, halved down.
        let (mut low, mut high) = (0.0, 10.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            let (solution, _) = at(&solved, Angle::from_deg(middle));
            if solution.sweep.behind_centre < most {
                low = middle;
            } else {
                high = middle;
            }
        }
        assert!(low > 1.0 && high < 9.0, "{low}");
        let off = 1e-6;
        assert!(at(&solved, Angle::from_deg(low - off)).1 < Level::Over);
        assert_eq!(at(&solved, Angle::from_deg(high + off)).1, Level::Over);
        // The end of the attitudes that the sweep ends.
        let window = accepted.attitude.last().unwrap();
        assert!((window.high.deg() - low).abs() < 1e-6, "{window:?}");
        assert!(accepted.behind_centre_least.mm() < 0.0);
    }
}
