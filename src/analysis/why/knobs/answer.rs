//! The answers: a change for each knob, or why there is none.

use super::Knob;
use super::dial::Dial;
use crate::analysis::knives::Margins;
use crate::analysis::{Case, Findings, Judged, Level, Solution};
use crate::geometry::Setting;
use crate::unit::{Fitted, Mowing, Unit, Wear};
use crate::units::{Length, Measure as _, Sentence, Speed, Turning, Value};

/// Which limit of a finding is aimed at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Aim {
    /// The one within which it is fine.
    #[default]
    Fine,
    /// The one past which it is too much.
    NotOver,
}

impl Aim {
    /// How the limits that count are kept, in base units; negative past one.
    pub(super) fn margins(self, judged: &Judged) -> Vec<f64> {
        let value = judged.value.base();
        let counts = |level: Level| self == Self::Fine || level == Level::Over;
        let bounds = judged.limits().filter(|bound| counts(bound.level));
        bounds.map(|bound| bound.margin(value)).collect()
    }

    fn is_kept(self, judged: &Judged) -> bool {
        self.margins(judged).iter().all(|margin| *margin >= 0.0)
    }
}

/// Why a knob brings nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WhyNot {
    /// It does not change what the finding judges.
    HasNoPart,
    /// Nothing in its range reaches the limit.
    OutOfReach {
        /// Where the range begins.
        low: Value,
        /// Where it ends.
        high: Value,
    },
    /// Metal can only come off, and that makes it worse.
    OtherWay,
    /// The lip is ground away.
    NoMetalLeft,
    /// The speeds are not known.
    NoSpeeds,
    /// The limit would need a speed of nothing.
    NoSuchSpeed,
    /// No other knife is listed.
    NoOtherKnife,
    /// None of the listed knives does it.
    NoKnifeReaches,
    /// There is nothing to true.
    NothingToTrue,
    /// It is done, and the limit is still passed.
    NotEnough,
    /// The finding is within its limit already, and this knob cannot take it out.
    WithinAlready,
}

impl WhyNot {
    /// The reason as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        match *self {
            Self::HasNoPart => Sentence::new("It does not change this.", &[]),
            Self::OutOfReach { low, high } => {
                Sentence::new("Nothing from {} to {} reaches the limit.", &[low, high])
            }
            Self::OtherWay => {
                Sentence::new("Grinding goes the other way: it makes this worse.", &[])
            }
            Self::NoMetalLeft => Sentence::new("No metal is left to grind.", &[]),
            Self::NoSpeeds => Sentence::new("The speeds are not known.", &[]),
            Self::NoSuchSpeed => Sentence::new("The limit allows no clip at all.", &[]),
            Self::NoOtherKnife => Sentence::new("No other knife is listed.", &[]),
            Self::NoKnifeReaches => Sentence::new("None of the listed knives reaches it.", &[]),
            Self::NothingToTrue => Sentence::new("There is nothing to true.", &[]),
            Self::NotEnough => Sentence::new("It helps, but not as far as the limit.", &[]),
            Self::WithinAlready => Sentence::new("It is within its limit already.", &[]),
        }
    }
}

/// Another finding's number, before and after a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// The finding's name for programs.
    pub id: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// As it is now.
    pub before: Judged,
    /// As it would be.
    pub after: Judged,
}

/// A change of one knob.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Where the knob goes to.
    pub to: Value,
    /// Where a trial sets it: by a hair on the good side of the limit.
    pub trial: Value,
    /// How far it turns.
    pub by: Value,
    /// The knife to fit.
    pub knife: Option<Fitted>,
    /// How far the front and the rear roller move from where they stand now.
    pub rollers: (Length, Length),
    /// What the finding judges, as it would be.
    pub after: Judged,
    /// The other findings whose number changes, the worst first.
    pub others: Vec<Other>,
}

/// What one knob would do for one finding.
#[derive(Clone, Debug, PartialEq)]
pub struct KnobAnswer {
    /// The knob.
    pub knob: Knob,
    /// The finding's name for programs.
    pub finding: &'static str,
    /// To the finding's limit.
    pub to_limit: Result<Change, WhyNot>,
    /// To the middle of the window in which this and every other limit hold.
    pub to_middle: Option<Change>,
}

/// The finding that wants an answer first: the worst one that a number decides, or the sweep.
#[must_use]
pub fn worst_finding(case: &Case) -> &'static str {
    let mut worst = (Findings::SWEEP, Level::Fine);
    // Only what an adjustment can change.
    let adjustable = Findings::all_judged(case).filter(|(id, ..)| *id != "scrap");
    for (id, _, judged) in adjustable {
        if judged.level() > worst.1 {
            worst = (id, judged.level());
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
                to_limit,
                to_middle,
            }
        })
        .collect()
}

struct Asked<'a> {
    case: Case<'a>,
    finding: &'static str,
    aim: Aim,
    now: Judged,
}

impl Asked<'_> {
    fn along(&self, knob: Knob) -> (Result<Change, WhyNot>, Option<Change>) {
        let dial = Dial::new(self.case, knob, self.finding, self.aim);
        let along = dial.search();
        let change = |at: f64, trial: f64| {
            let by = dial.value(at - dial.now());
            let setting = dial.setting(trial);
            self.changed(self.case.unit, &setting)
                .map(|outcome| outcome.change(dial.value(at), dial.value(trial), by))
        };
        let to_limit = along
            .limit
            .and_then(|border| change(border.at, border.inside).ok_or(WhyNot::HasNoPart));
        (to_limit, along.middle.and_then(|at| change(at, at)))
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
                let outcome = self.changed(self.case.unit, setting)?;
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
        let value = self.now.value.base();
        let counts = |level: Level| self.aim == Aim::Fine || level == Level::Over;
        let limit = self.now.limits().find(|bound| counts(bound.level));
        let limit = limit.ok_or(WhyNot::HasNoPart)?.at;
        if limit <= 0.0 {
            return Err(WhyNot::NoSuchSpeed);
        }
        let part = limit / value;
        let driven = |part: f64| {
            if knob == Knob::GroundSpeed {
                Mowing {
                    ground_speed: Speed::from_base(mowing.ground_speed.base() * part),
                    ..mowing
                }
            } else {
                Mowing {
                    reel_speed: Turning::from_base(mowing.reel_speed.base() / part),
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
        let trial = driven(part * (1.0 - 1e-9));
        let unit = Unit {
            mowing: Some(trial),
            ..self.case.unit.clone()
        };
        let outcome = self
            .changed(&unit, self.case.setting)
            .ok_or(WhyNot::HasNoPart)?;
        let to = shown(driven(part));
        let by = to.with_base(to.base() - shown(mowing).base());
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
        let gained = wear.lowers() - better.lowers();
        let case = Case {
            unit: &unit,
            ..self.case
        };
        let after =
            Findings::judged(&case, self.finding).or_else(|| Findings::judged(&case, elsewhere));
        match after {
            Some(after) if self.aim.is_kept(&after) => Ok(Change {
                to: Length::ZERO.into(),
                trial: Length::ZERO.into(),
                by: (Length::ZERO - gained).into(),
                knife: None,
                rollers: (Length::ZERO, Length::ZERO),
                after,
                others: Vec::new(),
            }),
            _ => Err(WhyNot::NotEnough),
        }
    }

    /// What a changed unit and setting give; nothing where they cannot exist.
    fn changed(&self, unit: &Unit, setting: &Setting) -> Option<Outcome> {
        let solution = Solution::of(unit, setting).ok()?;
        let then = Case {
            unit,
            setting,
            solution: &solution,
        };
        let after = Findings::judged(&then, self.finding)?;
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
        let pose = (&self.case.solution.pose, &solution.pose);
        Some(Outcome {
            after,
            others,
            rollers: (
                pose.1.front_roller.moved - pose.0.front_roller.moved,
                pose.1.rear_roller.moved - pose.0.rear_roller.moved,
            ),
            keeps_all: Margins::of(unit, setting, &solution).are_kept(),
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
