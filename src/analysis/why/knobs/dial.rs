//! A knob that turns steadily: its setting at each place, and where a finding crosses its limit.

use super::{Goal, HAIR, ScaledKnob, WhyNot};
use crate::analysis::knives::Margins;
use crate::analysis::ranges::{LEAST_HEIGHT_MM, MOST_EXTENSION, MOST_HEIGHT_MM, attitude_range};
use crate::analysis::search::{ALL_COUNT, Stretch, Values, runs, stretches};
use crate::analysis::{Case, FindingId, Findings, Solution};
use crate::geometry::{Setting, Stance};
use crate::units::{Angle, Length, Measure as _, Value};

/// Cells that a knob's range is cut into.
const CELLS: u32 = 50;
/// How far the rear roller is looked for from where it stands, in millimetres: an inch.
const MOST_ROLLER_MOVE_MM: f64 = 25.4;
/// A knob with a scale.
pub(super) struct Dial<'a> {
    case: Case<'a>,
    knob: ScaledKnob,
    finding: FindingId,
    goal: Goal,
}

/// A place of a dial where the finding crosses its limit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Border {
    /// The place itself.
    pub(super) at: f64,
    /// The same, by a hair on the good side.
    pub(super) inside: f64,
}

/// What was found along a dial.
pub(super) struct Along {
    pub(super) limit: Result<Border, WhyNot>,
    /// The middle of the nearest window in which this finding and every other limit hold; none
    /// where the window does not end at a limit on both sides.
    pub(super) middle: Option<f64>,
}

impl<'a> Dial<'a> {
    pub(super) fn new(case: Case<'a>, knob: ScaledKnob, finding: FindingId, goal: Goal) -> Self {
        Self {
            case,
            knob,
            finding,
            goal,
        }
    }

    /// Where it stands: millimetres or degrees.
    pub(super) fn now(&self) -> f64 {
        let setting = self.case.setting;
        let pose = &self.case.solution.pose;
        match self.knob {
            ScaledKnob::Attitude => pose.attitude.deg(),
            ScaledKnob::RearRoller => pose.rear_roller.moved.mm(),
            ScaledKnob::FaceGround => setting.face_ground.mm(),
            ScaledKnob::TopGround => setting.top_ground.mm(),
            ScaledKnob::HeightOfCut => pose.height_of_cut.mm(),
            ScaledKnob::Extension => setting.extension.mm(),
        }
    }

    /// A place of the dial as a quantity.
    pub(super) fn value(&self, at: f64) -> Value {
        match self.knob {
            ScaledKnob::Attitude => Angle::from_deg(at).into(),
            ScaledKnob::RearRoller
            | ScaledKnob::Extension
            | ScaledKnob::FaceGround
            | ScaledKnob::TopGround
            | ScaledKnob::HeightOfCut => Length::from_mm(at).into(),
        }
    }

    /// From where to where it turns. Metal that is off stays off.
    pub(super) fn range(&self) -> (f64, f64) {
        let now = self.now();
        let setting = self.case.setting;
        match self.knob {
            ScaledKnob::Attitude => {
                let (low, high) = attitude_range(&self.case.unit.limits);
                (low.deg().min(now), high.deg().max(now))
            }
            ScaledKnob::RearRoller => (now - MOST_ROLLER_MOVE_MM, now + MOST_ROLLER_MOVE_MM),
            ScaledKnob::FaceGround => (now, setting.knife.lip_length.mm().max(now)),
            ScaledKnob::TopGround => (now, setting.knife.lip_thickness.mm().max(now)),
            ScaledKnob::HeightOfCut => (LEAST_HEIGHT_MM.min(now), MOST_HEIGHT_MM.max(now)),
            ScaledKnob::Extension => {
                let most_mm = MOST_EXTENSION.mm();
                (now.min(-most_mm), now.max(most_mm))
            }
        }
    }

    /// The setting with the dial at a place.
    pub(super) fn setting(&self, at: f64) -> Setting {
        let setting = *self.case.setting;
        let pose = &self.case.solution.pose;
        let length = Length::from_mm(at);
        match self.knob {
            ScaledKnob::Attitude => Setting {
                stance: Stance::Wanted {
                    attitude: Angle::from_deg(at),
                    height_of_cut: pose.height_of_cut,
                },
                ..setting
            },
            ScaledKnob::HeightOfCut => Setting {
                stance: Stance::Wanted {
                    attitude: pose.attitude,
                    height_of_cut: length,
                },
                ..setting
            },
            ScaledKnob::RearRoller => Setting {
                stance: Stance::Rollers {
                    front_move: pose.front_roller.moved,
                    rear_move: length,
                },
                ..setting
            },
            ScaledKnob::FaceGround => Setting {
                face_ground: length,
                ..setting
            },
            ScaledKnob::TopGround => Setting {
                top_ground: length,
                ..setting
            },
            ScaledKnob::Extension => Setting {
                extension: length,
                ..setting
            },
        }
    }

    /// How the finding's limits, and after them the least kept of all limits, are kept with the dial
    /// at a place. One number for all of them: only where the first is passed does a window end.
    fn margins(&self, at: f64) -> Values {
        let setting = self.setting(at);
        let solution = Solution::of(self.case.unit, &setting).ok()?;
        let case = Case {
            setting: &setting,
            solution: &solution,
            ..self.case
        };
        let judged = Findings::judged(&case, self.finding)?;
        let mut margins = self.goal.margins(&judged);
        margins.push(least_kept(&case));
        Some(margins)
    }

    /// Why the dial cannot be tried as the unit stands.
    fn is_barred(&self) -> Option<WhyNot> {
        let (low, high) = self.range();
        let height = self.case.solution.pose.height_of_cut;
        match self.knob {
            ScaledKnob::Attitude if height.mm() <= 0.0 => Some(WhyNot::EdgeInGround),
            ScaledKnob::FaceGround | ScaledKnob::TopGround if high <= low => {
                Some(WhyNot::NoMetalLeft)
            }
            _ => None,
        }
    }

    /// Searches the dial.
    pub(super) fn search(&self) -> Along {
        let none = |why_not| Along {
            limit: Err(why_not),
            middle: None,
        };
        if let Some(why_not) = self.is_barred() {
            return none(why_not);
        }
        let (low, high) = self.range();
        let bounds = Findings::judged(&self.case, self.finding)
            .map_or(0, |judged| self.goal.margins(&judged).len());
        if !self.moves_it(bounds) {
            return none(WhyNot::HasNoPart);
        }
        let found = stretches(&mut |at| self.margins(at), (low, high), CELLS, ALL_COUNT);
        Along {
            limit: self.nearest_border(&found, bounds),
            middle: self.middle_of_window(&found),
        }
    }

    /// Whether the dial does anything to the finding.
    fn moves_it(&self, bounds: usize) -> bool {
        let (low, high) = self.range();
        let at = |part: f64| Some(self.margins(low + part * (high - low))?[..bounds].to_vec());
        let Some(now) = self.margins(self.now()) else {
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

    fn nearest_border(&self, stretches: &[Stretch], bounds: usize) -> Result<Border, WhyNot> {
        let now = self.now();
        let (low, high) = self.range();
        let hair = HAIR * (high - low);
        let holds = |stretch: &Stretch| Some(are_kept(&stretch.values.as_ref()?[..bounds]));
        stretches
            .windows(2)
            // Where the finding begins or ceases to exist it reaches no limit.
            .filter_map(|pair| Some((pair[0].high, holds(&pair[0])?, holds(&pair[1])?)))
            .filter(|(_, before, after)| before != after)
            .map(|(at, is_before, _)| {
                let inside = if is_before { at - hair } else { at + hair };
                // No unit is set to a height of zero, nor to one that nobody could measure.
                let inside = match (self.knob, Length::LEAST) {
                    (ScaledKnob::HeightOfCut, Some((least_mm, _))) if inside > 0.0 => {
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
        let is_grinding = matches!(self.knob, ScaledKnob::FaceGround | ScaledKnob::TopGround);
        let first = |at: f64| Some(*self.margins(at)?.first()?);
        let is_past = first(low).is_some_and(|margin| margin < 0.0);
        if is_grinding && is_past && first(low + 0.1 * (high - low)) < first(low) {
            return WhyNot::OtherWay;
        }
        WhyNot::OutOfReach {
            low: self.value(low),
            high: self.value(high),
        }
    }

    fn middle_of_window(&self, stretches: &[Stretch]) -> Option<f64> {
        let now = self.now();
        let is_usable = |stretch: &Stretch| {
            stretch
                .values
                .as_ref()
                .is_some_and(|values| are_kept(values))
        };
        let away = |&(low, high): &(f64, f64)| (low - now).max(now - high).max(0.0);
        let (least, most) = self.range();
        // Where the search ended no limit was reached; the ends of known brackets are limits themselves.
        let is_bracketed =
            self.knob == ScaledKnob::Attitude && self.case.unit.limits.attitude_range.is_some();
        let has_two_limits = |(low, high): &(f64, f64)| *low > least && *high < most;
        runs(stretches, is_usable)
            .map(|(first, last)| (first.low, last.high))
            .filter(|(low, high)| high > low)
            .filter(|window| is_bracketed || has_two_limits(window))
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .map(|(low, high)| f64::midpoint(low, high))
    }
}

/// Whether every one of some margins is.
fn are_kept(margins: &[f64]) -> bool {
    margins.iter().all(|margin| *margin >= 0.0)
}

/// How the least kept of a unit's limits is kept; negative where one is passed. They are those of a
/// usable window, and those past which another finding is too much that an adjustment changes.
pub(super) fn least_kept(case: &Case) -> f64 {
    let of_window = Margins::of(case).0;
    let of_findings = Findings::judged_besides_window(case)
        .filter_map(|judged| Goal::NotOver.least_margin(&judged));
    let margins = of_window.into_iter().chain(of_findings);
    margins.fold(f64::INFINITY, f64::min)
}
