//! Where along a dial a finding crosses its limit.

use super::{Goal, HAIR, WhyNot};
use crate::analysis::dial::{Dial, Scale};
use crate::analysis::search::{ALL_COUNT, Stretch, Values, stretches};
use crate::analysis::{Case, FindingId, Findings, Solution};
use crate::units::{Length, Measure as _};

/// Cells that a knob's range is cut into.
const CELLS: u32 = 50;

/// A dial and the limit that is looked for along it.
pub(super) struct Along<'a> {
    pub(super) dial: Dial<'a>,
    pub(super) finding: FindingId,
    pub(super) goal: Goal,
}

/// A place of a dial where the finding crosses its limit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Border {
    /// The place itself.
    pub(super) at: f64,
    /// The same, by a hair on the good side.
    pub(super) inside: f64,
}

impl Along<'_> {
    /// How the finding's limits are kept with the dial at a place.
    fn margins(&self, at: f64) -> Values {
        let setting = self.dial.setting(at);
        let case = self.dial.case;
        let solution = Solution::of(case.unit, &setting).ok()?;
        let then = Case {
            setting: &setting,
            solution: &solution,
            ..case
        };
        Some(self.goal.margins(&Findings::judged(&then, self.finding)?))
    }

    /// Why the dial cannot be tried as the unit stands.
    fn is_barred(&self) -> Option<WhyNot> {
        let (low, high) = self.dial.range();
        let height = self.dial.case.solution.pose.height_of_cut;
        match self.dial.scale {
            Scale::Attitude | Scale::FrontRollerHeightKept | Scale::RearRollerHeightKept
                if height.mm() <= 0.0 =>
            {
                Some(WhyNot::EdgeInGround)
            }
            Scale::FaceGround | Scale::TopGround if high <= low => Some(WhyNot::NoMetalLeft),
            _ => None,
        }
    }

    /// The nearest place where the finding crosses its limit.
    pub(super) fn limit(&self) -> Result<Border, WhyNot> {
        if let Some(why_not) = self.is_barred() {
            return Err(why_not);
        }
        if !self.moves_it() {
            return Err(WhyNot::HasNoPart);
        }
        let (low, high) = self.dial.range();
        let found = stretches(&mut |at| self.margins(at), (low, high), CELLS, ALL_COUNT);
        self.nearest_border(&found)
    }

    /// Whether the dial does anything to the finding.
    fn moves_it(&self) -> bool {
        let (low, high) = self.dial.range();
        let at = |part: f64| self.margins(low + part * (high - low));
        let Some(now) = self.margins(self.dial.now()) else {
            return true;
        };
        [0.1, 0.37, 0.71, 0.9].into_iter().any(|part| {
            at(part).is_none_or(|then| {
                now.iter()
                    .zip(&then)
                    .any(|(now, then)| (now - then).abs() > 1e-9)
            })
        })
    }

    fn nearest_border(&self, stretches: &[Stretch]) -> Result<Border, WhyNot> {
        let now = self.dial.now();
        let (low, high) = self.dial.range();
        let hair = HAIR * (high - low);
        let holds = |stretch: &Stretch| Some(are_kept(stretch.values.as_ref()?));
        stretches
            .windows(2)
            // Where the finding begins or ceases to exist it reaches no limit.
            .filter_map(|pair| Some((pair[0].high, holds(&pair[0])?, holds(&pair[1])?)))
            .filter(|(_, before, after)| before != after)
            .map(|(at, is_before, _)| {
                let inside = if is_before { at - hair } else { at + hair };
                // No unit is set to a height of zero, nor to one that nobody could measure.
                let inside = match (self.dial.scale, Length::LEAST) {
                    (Scale::HeightOfCut, Some((least_mm, _))) if inside > 0.0 => {
                        inside.max(least_mm)
                    }
                    _ => inside,
                };
                Border { at, inside }
            })
            .min_by(|a, b| (a.at - now).abs().total_cmp(&(b.at - now).abs()))
            .ok_or_else(|| self.out_of_reach(low, high))
    }

    fn out_of_reach(&self, low: f64, high: f64) -> WhyNot {
        let is_grinding = matches!(self.dial.scale, Scale::FaceGround | Scale::TopGround);
        let first = |at: f64| Some(*self.margins(at)?.first()?);
        let is_past = first(low).is_some_and(|margin| margin < 0.0);
        if is_grinding && is_past && first(low + 0.1 * (high - low)) < first(low) {
            return WhyNot::OtherWay;
        }
        WhyNot::OutOfReach {
            low: self.dial.value(low),
            high: self.dial.value(high),
        }
    }
}

/// Whether every one of some margins is.
fn are_kept(margins: &[f64]) -> bool {
    margins.iter().all(|margin| *margin >= 0.0)
}
