//! The answers: every knob tried on a unit, each by itself.

use super::dial::{Dial, EveryLimit};
use super::{Aim, Change, Knob, KnobAnswer, Other, WhyNot};
use crate::analysis::{Case, Findings, Judged, Level, Solution};
use crate::geometry::{Setting, ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Fitted, Mowing, Unit, Wear};
use crate::units::{Length, Value};

/// By what part a speed's trial stays inside a limit that is aimed at: far less than anybody reads.
const INSIDE: f64 = 1e-9;

/// The finding that wants an answer first: the worst one that a number decides, what is sure before
/// what is in doubt; where all are fine one that is in doubt, or the sweep.
#[must_use]
pub fn worst_finding(findings: &Findings, case: &Case) -> &'static str {
    let in_doubt = |id: &str| findings.iter().any(|f| f.id == id && f.doubt.is_some());
    let urgency = |id: &str, level: Level| match (level, in_doubt(id)) {
        (Level::Over, false) => 5,
        (Level::Over, true) => 4,
        (Level::Watch, false) => 3,
        (Level::Watch, true) => 2,
        (Level::Fine, true) => 1,
        (Level::Fine, false) => 0,
    };
    let mut worst = (Findings::SWEEP, 0);
    // Only what an adjustment can change.
    for (id, _, judged) in Findings::all_judged(case).filter(|(id, ..)| *id != "scrap") {
        let urgency = urgency(id, judged.level());
        if urgency > worst.1 {
            worst = (id, urgency);
        }
    }
    worst.0
}

/// What every knob would do for a finding, each by itself. None when no number decides the finding.
///
/// `knives` are the other knives' sections, by their places in the document.
#[must_use]
pub fn knobs(
    case: &Case,
    knives: &[(Fitted, Setting)],
    finding: &'static str,
    aim: Aim,
) -> Vec<KnobAnswer> {
    let Some(now) = Findings::judged(case, finding) else {
        return Vec::new();
    };
    let asked = Asked {
        case: *case,
        finding,
        aim,
        now,
    };
    Knob::ALL
        .into_iter()
        .map(|knob| {
            let (to_limit, to_middle) = match knob {
                Knob::Knife => (asked.another_knife(knives), None),
                Knob::GroundSpeed | Knob::ReelSpeed => (asked.another_speed(knob), None),
                Knob::RollersTrued | Knob::RollersParallel => (asked.less_wear(knob), None),
                _ => asked.along(knob),
            };
            KnobAnswer {
                knob,
                finding,
                is_within: aim.is_kept(&now),
                to_limit,
                to_middle,
            }
        })
        .collect()
}

/// A change of less than this part of a knob's range is none that anybody could make.
const HERE: f64 = 1e-6;

struct Asked<'a> {
    case: Case<'a>,
    finding: &'static str,
    aim: Aim,
    now: Judged,
}

impl Asked<'_> {
    fn along(&self, knob: Knob) -> (Result<Change, WhyNot>, Option<Change>) {
        let Some(measure) = Findings::measure_of(self.finding) else {
            return (Err(WhyNot::HasNoPart), None);
        };
        let dial = Dial::new(self.case, knob, measure, self.aim);
        let along = dial.search();
        let (low, high) = dial.range();
        let is_here = |at: f64| (at - dial.now()).abs() <= HERE * (high - low);
        let change = |at: f64, trial: f64| {
            let by = dial.value(at - dial.now());
            let setting = dial.setting(trial);
            self.changed(self.case.unit, &setting, &[self.finding])
                .map(|outcome| outcome.change(dial.value(at), dial.value(trial), by))
        };
        let to_limit = along
            .limit
            .and_then(|border| match change(border.at, border.inside) {
                _ if is_here(border.at) => Err(WhyNot::AtLimit),
                change => change.ok_or(WhyNot::HasNoPart),
            });
        let middle = along.middle.filter(|at| !is_here(*at));
        (to_limit, middle.and_then(|at| change(at, at)))
    }

    fn another_knife(&self, knives: &[(Fitted, Setting)]) -> Result<Change, WhyNot> {
        if self.aim.is_kept(&self.now) {
            return Err(WhyNot::WithinAlready);
        }
        let reach = self.case.setting.knife.reach;
        let others = knives
            .iter()
            .filter(|(fitted, _)| *fitted != self.case.unit.fitted);
        if others.clone().next().is_none() {
            return Err(WhyNot::NoOtherKnife);
        }
        others
            .filter_map(|(fitted, setting)| {
                let outcome = self.changed(self.case.unit, setting, &[self.finding])?;
                let is_within = self.aim.is_kept(&outcome.after);
                is_within.then_some((*fitted, setting, outcome))
            })
            // One that breaks nothing else, then the one nearest in reach.
            .min_by(|a, b| {
                let away = |setting: &Setting| (setting.knife.reach - reach).mm().abs();
                let key = |x: &(Fitted, &Setting, Outcome)| (!x.2.keeps_all, away(x.1));
                key(a)
                    .partial_cmp(&key(b))
                    .unwrap_or(std::cmp::Ordering::Equal)
            })
            .map(|(fitted, setting, outcome)| {
                let by = setting.knife.reach - reach;
                let mut change = outcome.change(
                    setting.knife.reach.into(),
                    setting.knife.reach.into(),
                    by.into(),
                );
                change.knife = Some(fitted);
                change
            })
            .ok_or(WhyNot::NoKnifeReaches)
    }

    /// Clip length goes with the ground speed and against the reel's.
    fn another_speed(&self, knob: Knob) -> Result<Change, WhyNot> {
        if self.finding != "clip" {
            return Err(WhyNot::HasNoPart);
        }
        let mowing = self.case.unit.mowing.ok_or(WhyNot::NoSpeeds)?;
        let limit = self.now.limits().find(|bound| self.aim.counts(bound.level));
        let ratio = limit.ok_or(WhyNot::HasNoPart)?.at;
        if ratio <= 0.0 {
            return Err(WhyNot::NoSuchSpeed);
        }
        let height = self.case.solution.pose.height_of_cut;
        let blades = self.case.unit.blades;
        let driven = |ratio: f64| {
            let clip = height * ratio;
            if knob == Knob::GroundSpeed {
                let ground_speed = ground_speed_for_clip(clip, mowing.reel_speed, blades);
                Mowing {
                    ground_speed,
                    ..mowing
                }
            } else {
                let reel_speed = reel_speed_for_clip(clip, mowing.ground_speed, blades);
                Mowing {
                    reel_speed,
                    ..mowing
                }
            }
        };
        let shown = |mowing: Mowing| -> Value {
            if knob == Knob::GroundSpeed {
                mowing.ground_speed.into()
            } else {
                mowing.reel_speed.into()
            }
        };
        let trial = driven(ratio * (1.0 - INSIDE));
        let unit = Unit {
            mowing: Some(trial),
            ..self.case.unit.clone()
        };
        let outcome = self.changed(&unit, self.case.setting, &[self.finding]);
        let to = shown(driven(ratio));
        let by = to.with_base(to.base() - shown(mowing).base());
        let outcome = outcome.ok_or(WhyNot::HasNoPart)?;
        Ok(outcome.change(to, shown(trial), by))
    }

    fn less_wear(&self, knob: Knob) -> Result<Change, WhyNot> {
        let wear = self.case.unit.wear;
        let better = if knob == Knob::RollersTrued {
            Wear {
                front_runout: Length::ZERO,
                rear_runout: Length::ZERO,
                ..wear
            }
        } else {
            Wear {
                end_difference: Length::ZERO,
                ..wear
            }
        };
        if better == wear {
            return Err(WhyNot::NothingToTrue);
        }
        // Without any wear the finding does not apply; then that of every place counts.
        let elsewhere = match self.finding {
            "low_end" => "reel",
            "low_end_underside" => "underside",
            _ => return Err(WhyNot::HasNoPart),
        };
        if self.aim.is_kept(&self.now) {
            return Err(WhyNot::WithinAlready);
        }
        let unit = Unit {
            wear: better,
            ..self.case.unit.clone()
        };
        let outcome = self.changed(&unit, self.case.setting, &[self.finding, elsewhere]);
        let outcome = outcome.ok_or(WhyNot::HasNoPart)?;
        if !self.aim.is_kept(&outcome.after) {
            return Err(WhyNot::NotEnough);
        }
        let nothing = Value::from(Length::ZERO);
        let gained = wear.lowers() - better.lowers();
        Ok(outcome.change(nothing, nothing, (Length::ZERO - gained).into()))
    }

    /// What a changed unit and setting give; nothing where they cannot exist. Judged by the first
    /// of `findings` that applies.
    fn changed(
        &self,
        unit: &Unit,
        setting: &Setting,
        findings: &[&'static str],
    ) -> Option<Outcome> {
        let solution = Solution::of(unit, setting).ok()?;
        let then = Case {
            unit,
            setting,
            solution: &solution,
        };
        let after = findings.iter().find_map(|id| Findings::judged(&then, id))?;
        let mut others: Vec<Other> = Findings::all_judged(&self.case)
            .filter(|(id, ..)| *id != self.finding)
            .filter_map(|(id, title, before)| {
                let after = Findings::judged(&then, id)?;
                let moved = (after.value.base() - before.value.base()).abs();
                (moved > 1e-9 || after.level() != before.level()).then_some(Other {
                    id,
                    title,
                    before,
                    after,
                })
            })
            .collect();
        others.sort_by_key(|other| std::cmp::Reverse(other.after.level()));
        let (now, pose) = (&self.case.solution.pose, &solution.pose);
        Some(Outcome {
            after,
            others,
            rollers: (
                pose.front_roller.moved - now.front_roller.moved,
                pose.rear_roller.moved - now.rear_roller.moved,
            ),
            keeps_all: EveryLimit::new().least_kept(&then) >= 0.0,
        })
    }
}

struct Outcome {
    after: Judged,
    others: Vec<Other>,
    rollers: (Length, Length),
    keeps_all: bool,
}

impl Outcome {
    fn change(self, to: Value, trial: Value, by: Value) -> Change {
        Change {
            to,
            trial,
            by,
            knife: None,
            rollers: self.rollers,
            after: self.after,
            others: self.others,
        }
    }
}
