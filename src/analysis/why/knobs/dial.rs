//! A knob that turns steadily: its setting at each place, and where a finding crosses its limit.

use super::{Aim, Knob, WhyNot};
use crate::analysis::findings::Measure;
use crate::analysis::knives::{
    LEAST_HEIGHT_MM, MOST_HEIGHT_MM, Margins, Values, attitude_range, crossings,
};
use crate::analysis::{Case, Findings, Solution};
use crate::geometry::{Setting, Stance};
use crate::units::{Angle, Length, Value};

/// Cells that a knob's range is cut into.
const CELLS: u32 = 50;
/// How far the edge is looked for ahead of and behind its place, in millimetres: half an inch.
const MOST_EXTENSION_MM: f64 = 12.7;
/// How far the rear roller is looked for from where it stands, in millimetres: an inch.
const MOST_ROLLER_MOVE_MM: f64 = 25.4;
/// How far inside a border a trial is set, as a part of the knob's range: far less than anybody reads.
const INSIDE: f64 = 1e-9;

/// A knob with a scale.
pub(super) struct Dial<'a> {
    case: Case<'a>,
    knob: Knob,
    measure: Measure,
    aim: Aim,
    every_limit: EveryLimit,
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
    /// The middle of the nearest window in which this finding and every other limit hold; nothing
    /// where the window does not end at a limit on both sides.
    pub(super) middle: Option<f64>,
}

/// Between two neighbouring crossings.
struct Stretch {
    low: f64,
    high: f64,
    /// Whether the finding is within its limit; nothing where it does not exist.
    holds: Option<bool>,
    /// Whether every limit of the unit holds as well.
    is_usable: bool,
}

impl<'a> Dial<'a> {
    pub(super) fn new(case: Case<'a>, knob: Knob, measure: Measure, aim: Aim) -> Self {
        Self {
            case,
            knob,
            measure,
            aim,
            every_limit: EveryLimit::new(),
        }
    }

    /// Where it stands: millimetres or degrees.
    pub(super) fn now(&self) -> f64 {
        let setting = self.case.setting;
        let pose = &self.case.solution.pose;
        match self.knob {
            Knob::Attitude => pose.attitude.deg(),
            Knob::RearRoller => pose.rear_roller.moved.mm(),
            Knob::FaceGround => setting.face_ground.mm(),
            Knob::TopGround => setting.top_ground.mm(),
            Knob::HeightOfCut => pose.height_of_cut.mm(),
            _ => setting.extension.mm(),
        }
    }

    /// A place of the dial as a quantity.
    pub(super) fn value(&self, at: f64) -> Value {
        if self.knob == Knob::Attitude {
            Angle::from_deg(at).into()
        } else {
            Length::from_mm(at).into()
        }
    }

    /// From where to where it turns. Metal that is off stays off.
    pub(super) fn range(&self) -> (f64, f64) {
        let now = self.now();
        let setting = self.case.setting;
        match self.knob {
            Knob::Attitude => {
                let (low, high) = attitude_range(self.case.unit);
                (low.deg().min(now), high.deg().max(now))
            }
            Knob::RearRoller => (now - MOST_ROLLER_MOVE_MM, now + MOST_ROLLER_MOVE_MM),
            Knob::FaceGround => (now, setting.knife.lip_length.mm().max(now)),
            Knob::TopGround => (now, setting.knife.lip_thickness.mm().max(now)),
            Knob::HeightOfCut => (LEAST_HEIGHT_MM.min(now), MOST_HEIGHT_MM.max(now)),
            _ => (now.min(-MOST_EXTENSION_MM), now.max(MOST_EXTENSION_MM)),
        }
    }

    /// The setting with the dial at a place.
    pub(super) fn setting(&self, at: f64) -> Setting {
        let setting = *self.case.setting;
        let pose = &self.case.solution.pose;
        let length = Length::from_mm(at);
        match self.knob {
            Knob::Attitude => Setting {
                stance: Stance::Wanted {
                    attitude: Angle::from_deg(at),
                    height_of_cut: pose.height_of_cut,
                },
                ..setting
            },
            Knob::HeightOfCut => Setting {
                stance: Stance::Wanted {
                    attitude: pose.attitude,
                    height_of_cut: length,
                },
                ..setting
            },
            Knob::RearRoller => Setting {
                stance: Stance::Rollers {
                    front_move: pose.front_roller.moved,
                    rear_move: length,
                },
                ..setting
            },
            Knob::FaceGround => Setting {
                face_ground: length,
                ..setting
            },
            Knob::TopGround => Setting {
                top_ground: length,
                ..setting
            },
            _ => Setting {
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
        let judged = (self.measure)(&case)?;
        let mut margins = self.aim.margins(&judged);
        margins.push(self.every_limit.least_kept(&case));
        Some(margins)
    }

    /// Why the dial cannot be tried as the unit stands.
    fn is_barred(&self) -> Option<WhyNot> {
        let (low, high) = self.range();
        let height = self.case.solution.pose.height_of_cut;
        match self.knob {
            Knob::Attitude if height.mm() <= 0.0 => Some(WhyNot::EdgeInGround),
            Knob::FaceGround | Knob::TopGround if high <= low => Some(WhyNot::NoMetalLeft),
            _ => None,
        }
    }

    /// Searches the dial.
    pub(super) fn search(&self) -> Along {
        let nothing = |why_not| Along {
            limit: Err(why_not),
            middle: None,
        };
        if let Some(why_not) = self.is_barred() {
            return nothing(why_not);
        }
        let (low, high) = self.range();
        let bounds = (self.measure)(&self.case).map_or(0, |judged| self.aim.margins(&judged).len());
        if !self.moves_it(bounds) {
            return nothing(WhyNot::HasNoPart);
        }
        let mut margins = |at: f64| self.margins(at);
        let found = crossings(&mut margins, low, high, CELLS);
        let places: Vec<f64> = std::iter::once(low)
            .chain(found.iter().map(|crossing| crossing.at))
            .chain([high])
            .collect();
        let stretches: Vec<Stretch> = places
            .windows(2)
            .map(|ends| {
                let margins = self.margins(f64::midpoint(ends[0], ends[1]));
                let is_kept = |margins: &[f64]| margins.iter().all(|margin| *margin >= 0.0);
                Stretch {
                    low: ends[0],
                    high: ends[1],
                    holds: margins.as_ref().map(|margins| is_kept(&margins[..bounds])),
                    is_usable: margins.is_some_and(|margins| is_kept(&margins)),
                }
            })
            .collect();
        Along {
            limit: self.nearest_border(&stretches),
            middle: self.middle_of_window(&stretches),
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

    fn nearest_border(&self, stretches: &[Stretch]) -> Result<Border, WhyNot> {
        let now = self.now();
        let (low, high) = self.range();
        let hair = INSIDE * (high - low);
        stretches
            .windows(2)
            // Where the finding begins or ceases to exist it reaches no limit.
            .filter_map(|pair| Some((pair[0].high, pair[0].holds?, pair[1].holds?)))
            .filter(|(_, before, after)| before != after)
            .map(|(at, is_before, _)| {
                let inside = if is_before { at - hair } else { at + hair };
                Border { at, inside }
            })
            .min_by(|a, b| (a.at - now).abs().total_cmp(&(b.at - now).abs()))
            .ok_or_else(|| self.out_of_reach(low, high))
    }

    fn out_of_reach(&self, low: f64, high: f64) -> WhyNot {
        let is_grinding = matches!(self.knob, Knob::FaceGround | Knob::TopGround);
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
        let mut windows: Vec<(f64, f64)> = Vec::new();
        let mut is_open = false;
        for stretch in stretches {
            if stretch.is_usable {
                match windows.last_mut() {
                    Some(window) if is_open => window.1 = stretch.high,
                    _ => windows.push((stretch.low, stretch.high)),
                }
            }
            is_open = stretch.is_usable;
        }
        let away = |&(low, high): &(f64, f64)| (low - now).max(now - high).max(0.0);
        let (least, most) = self.range();
        // Where the search ended nothing was reached; the ends of known brackets are limits themselves.
        let is_bracketed =
            self.knob == Knob::Attitude && self.case.unit.limits.attitude_range.is_some();
        let has_two_limits = |(low, high): &(f64, f64)| *low > least && *high < most;
        windows
            .into_iter()
            .filter(|(low, high)| high > low)
            .filter(|window| is_bracketed || has_two_limits(window))
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .map(|(low, high)| f64::midpoint(low, high))
    }
}

/// The findings, besides those that end a knife's window, whose limits a window keeps.
const KEPT: [&str; 5] = ["low_end", "low_end_underside", "lip", "clip", "attitude"];

/// Every limit of a unit: those of a usable window, and the other findings' own.
pub(super) struct EveryLimit([Option<Measure>; KEPT.len()]);

impl EveryLimit {
    pub(super) fn new() -> Self {
        Self(KEPT.map(Findings::measure_of))
    }

    /// How the least kept of them is kept; negative where one is passed.
    pub(super) fn least_kept(&self, case: &Case) -> f64 {
        let of_window = Margins::of(case.unit, case.setting, case.solution).0;
        let of_findings = self.0.iter().flatten().filter_map(|measure| {
            let judged = measure(case)?;
            Aim::NotOver.least_margin(&judged)
        });
        of_window
            .into_iter()
            .chain(of_findings)
            .fold(f64::INFINITY, f64::min)
    }
}
