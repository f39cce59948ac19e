//! The answers: every knob tried on a unit, each by itself.

use super::along::{Along, Border};
use super::sense::not_sensible;
use super::{
    Change, Goal, HAIR, Kind, Knob, KnobAnswer, Other, SpeedKnob, Undecided, WearKnob, WhyNot,
};
use crate::analysis::advice::{Aim, Aimed, Asked as AskedOf};
use crate::analysis::dial::{Dial, Scale};
use crate::analysis::{
    Case, FindingId, Findings, Judged, Level, Side, Solution, Standing, Standings, Uncertainty,
    Urgency,
};
use crate::geometry::{Setting, ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Fitted, Looked, Mowing, Unit, Wear};
use crate::units::{Angle, Length, System, Value};

/// The finding that wants an answer first: the worst one that a number decides, what is sure before
/// what is in doubt; where all are fine one that is in doubt, or the sweep.
#[must_use]
pub fn worst_finding(findings: &Findings, case: &Case) -> FindingId {
    let in_doubt = |id| {
        findings
            .get(id)
            .is_some_and(|finding| finding.doubt.is_some())
    };
    let mut worst = (FindingId::Sweep, Urgency::of(Level::Fine, false));
    for (id, judged) in Findings::adjustable(case) {
        let urgency = Urgency::of(judged.level(), in_doubt(id));
        if urgency > worst.1 {
            worst = (id, urgency);
        }
    }
    worst.0
}

/// What every knob would do for a finding, each by itself. None when no number decides the finding.
///
/// `knives` are the other knives' sections, by their places in the document. What is aimed at is told
/// as it reads in `system`.
#[must_use]
pub fn knobs(
    case: &Case,
    knives: &[(Fitted, Setting)],
    finding: FindingId,
    goal: Goal,
    system: System,
) -> Vec<KnobAnswer> {
    let Some(now) = Findings::judged(case, finding) else {
        return Vec::new();
    };
    let asked = Asked {
        case: *case,
        finding,
        goal,
        now,
        standings: Standings::of(case),
        uncertainty: Uncertainty::of(case.unit, case.setting, case.unit.follows),
        system,
    };
    Knob::all_for(finding)
        .into_iter()
        .map(|knob| {
            let mut answer = KnobAnswer {
                knob,
                finding,
                is_within: goal.is_kept(&now),
                limit_word: goal.limit_word(&now),
                to_limit: Err(WhyNot::HasNoPart),
                to_aim: None,
                aim_is: None,
            };
            match knob.kind() {
                Kind::Scaled(scale) => asked.along(scale, &mut answer),
                Kind::Knife => answer.to_limit = asked.another_knife(knives),
                Kind::Speed(knob) => answer.to_limit = asked.another_speed(knob),
                Kind::Wear(knob) => answer.to_limit = asked.less_wear(knob),
            }
            let judged = |change: &mut Change| {
                change.not_sensible = not_sensible(case, finding, knob, change);
            };
            answer.to_aim.iter_mut().for_each(judged);
            answer.to_limit.iter_mut().for_each(judged);
            answer
        })
        .collect()
}

/// How many readings of a roller's move from its aim on are tried, either way.
const READINGS: usize = 4;

/// A change of less than this part of a knob's range is none that anybody could make.
const HERE: f64 = 1e-6;

struct Asked<'a> {
    case: Case<'a>,
    finding: FindingId,
    goal: Goal,
    now: Judged,
    standings: Standings,
    uncertainty: Uncertainty,
    system: System,
}

impl Asked<'_> {
    fn along(&self, scale: Scale, answer: &mut KnobAnswer) {
        let dial = Dial {
            case: self.case,
            scale,
        };
        let along = Along {
            dial,
            finding: self.finding,
            goal: self.goal,
        };
        let (low, high) = dial.range();
        let is_here = |at: f64| (at - dial.now()).abs() <= HERE * (high - low);
        let change = |at: f64, trial: f64| {
            let by = |to: f64| dial.value(to - dial.now());
            let setting = dial.setting(trial);
            self.changed(self.case.unit, &setting, &[self.finding])
                .map(|outcome| Change {
                    lip_left: dial.lip_left(trial),
                    ..outcome.change(dial.value(at), (dial.value(trial), by(trial)), by(at))
                })
        };
        answer.to_limit = along.limit().and_then(|border| {
            let inside = self.as_read(dial, border);
            let rollers = self.rollers_at(dial, border.inside);
            match change(border.at, inside) {
                _ if is_here(border.at) => Err(WhyNot::AtLimit),
                Some(change) => Ok(Change {
                    rollers: rollers.unwrap_or(change.rollers),
                    ..change
                }),
                None => Err(WhyNot::HasNoPart),
            }
        });
        // Another limit than the one within which it is fine is not aimed at, nor what cannot be
        // tried.
        let is_barred = matches!(
            answer.to_limit,
            Err(WhyNot::HasNoPart | WhyNot::EdgeInGround | WhyNot::NoMetalLeft)
        );
        if self.goal != Goal::Fine || is_barred {
            return;
        }
        let asked = AskedOf {
            case: self.case,
            now: &self.standings,
            finding: self.finding,
            follows: self.case.unit.follows,
        };
        let aim = |scale| Aim {
            asked,
            dial: Dial {
                case: self.case,
                scale,
            },
            system: self.system,
        };
        if matches!(
            scale,
            Scale::FrontRollerHeightKept | Scale::RearRollerHeightKept
        ) {
            // The height kept, one roller's move is another way to set an attitude.
            let attitude = aim(Scale::Attitude);
            let now = attitude.dial.value(attitude.dial.now());
            let aimed = attitude
                .find()
                .filter(|aimed| aimed.to != now.as_read_in(self.system));
            answer.to_aim = aimed
                .and_then(|aimed| self.one_roller(asked, &aimed, dial))
                .and_then(|to| change(to, to));
            return;
        }
        let aimed = aim(scale).find();
        answer.aim_is = aimed.and_then(|aimed| aimed.why());
        let here = dial.value(dial.now()).as_read_in(self.system);
        answer.to_aim = aimed
            .filter(|aimed| aimed.to != here)
            .and_then(|aimed| change(aimed.to.base(), aimed.to.base()));
    }

    /// The first place inside a border that is set as it reads; the border's own hair inside where none
    /// near it holds. What is told of a roller is its move, and of anything else its place.
    fn as_read(&self, dial: Dial, border: Border) -> f64 {
        let from = match dial.scale {
            Scale::FrontRoller
            | Scale::RearRoller
            | Scale::FrontRollerHeightKept
            | Scale::RearRollerHeightKept => dial.now(),
            Scale::Attitude
            | Scale::HeightOfCut
            | Scale::Extension
            | Scale::FaceGround
            | Scale::TopGround => 0.0,
        };
        let is_up = border.inside > border.at;
        let first = dial.value(border.inside - from).as_read_in(self.system);
        let next = |at: &Value| Some(at.next_read_in(self.system, is_up));
        let (low, high) = dial.range();
        let holds = |at: &f64| {
            let is_inside = if is_up {
                *at >= border.inside
            } else {
                *at <= border.inside
            };
            let is_kept = || {
                let setting = dial.setting(*at);
                let outcome = self.changed(self.case.unit, &setting, &[self.finding]);
                outcome.is_some_and(|outcome| self.goal.is_kept(&outcome.after))
            };
            is_inside && (low..=high).contains(at) && is_kept()
        };
        // A border that leads out of the limits is told as it stands: how much room is left.
        let is_kept_inside = || {
            let setting = dial.setting(border.inside);
            let outcome = self.changed(self.case.unit, &setting, &[self.finding]);
            outcome.is_some_and(|outcome| self.goal.is_kept(&outcome.after))
        };
        if !is_kept_inside() {
            return border.inside;
        }
        std::iter::successors(Some(first), next)
            .take(READINGS)
            .map(|at| from + at.base())
            .find(holds)
            .unwrap_or(border.inside)
    }

    /// How far the rollers move from where they stand with a dial at a place.
    fn rollers_at(&self, dial: Dial, at: f64) -> Option<(Length, Length)> {
        let then = Solution::of(self.case.unit, &dial.setting(at)).ok()?.pose;
        let now = &self.case.solution.pose;
        Some((
            then.front_roller.moved - now.front_roller.moved,
            then.rear_roller.moved - now.rear_roller.moved,
        ))
    }

    /// The place of one roller, as it is read, that gives an attitude aimed at, or one so near that it
    /// does as well; none where the roller stands there.
    fn one_roller(&self, asked: AskedOf, aimed: &Aimed, dial: Dial) -> Option<f64> {
        let attitude = Dial {
            scale: Scale::Attitude,
            ..dial
        };
        let unit = self.case.unit;
        let there = Solution::of(unit, &attitude.setting(aimed.to.base())).ok()?;
        let rollers = &there.pose;
        let moved = match dial.scale {
            Scale::FrontRollerHeightKept => rollers.front_roller.moved,
            _ => rollers.rear_roller.moved,
        };
        let nearest = dial.value(moved.mm()).as_read_in(self.system);
        let next = |is_up: bool| {
            let next = move |at: &Value| Some(at.next_read_in(self.system, is_up));
            std::iter::successors(Some(nearest), next).take(READINGS)
        };
        let here = dial.value(dial.now()).as_read_in(self.system);
        let holds = |to: &Value| asked.holding(unit, &dial.setting(to.base())).is_some();
        let to = next(true).chain(next(false)).find(holds)?;
        (to != here).then(|| to.base())
    }

    fn another_knife(&self, knives: &[(Fitted, Setting)]) -> Result<Change, WhyNot> {
        if self.goal.is_kept(&self.now) {
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
                let is_within = self.goal.is_kept(&outcome.after);
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
                let to = setting.knife.reach.into();
                let mut change = outcome.change(to, (to, by.into()), by.into());
                change.knife = Some(fitted);
                change
            })
            .ok_or(WhyNot::NoKnifeReaches)
    }

    /// Clip length goes with the ground speed and against the reel's.
    fn another_speed(&self, knob: SpeedKnob) -> Result<Change, WhyNot> {
        if self.finding != FindingId::Clip {
            return Err(WhyNot::HasNoPart);
        }
        let mowing = self.case.unit.mowing.ok_or(WhyNot::NoSpeeds)?;
        // The limit that is passed, or the nearest.
        let ratio_now = self.now.value.base();
        let limit = self
            .now
            .limits()
            .filter(|bound| self.goal.counts(bound.level))
            .min_by(|a, b| a.margin(ratio_now).total_cmp(&b.margin(ratio_now)))
            .ok_or(WhyNot::HasNoPart)?;
        let ratio = limit.at_base;
        let hair = if limit.side == Side::AtMost {
            -HAIR
        } else {
            HAIR
        };
        if ratio <= 0.0 {
            return Err(WhyNot::NoSuchSpeed);
        }
        let height = self.case.solution.pose.height_of_cut;
        let blades = self.case.unit.blades;
        let driven = |ratio: f64| {
            let clip = height * ratio;
            match knob {
                SpeedKnob::Ground => Mowing {
                    ground_speed: ground_speed_for_clip(clip, mowing.reel_speed, blades),
                    ..mowing
                },
                SpeedKnob::Reel => Mowing {
                    reel_speed: reel_speed_for_clip(clip, mowing.ground_speed, blades),
                    ..mowing
                },
            }
        };
        let shown = |mowing: Mowing| -> Value {
            match knob {
                SpeedKnob::Ground => mowing.ground_speed.into(),
                SpeedKnob::Reel => mowing.reel_speed.into(),
            }
        };
        let trial = driven(ratio * (1.0 + hair));
        let unit = Unit {
            mowing: Some(trial),
            ..self.case.unit.clone()
        };
        let outcome = self.changed(&unit, self.case.setting, &[self.finding]);
        let to = shown(driven(ratio));
        let by = to.with_base(to.base() - shown(mowing).base());
        let outcome = outcome.ok_or(WhyNot::HasNoPart)?;
        let trial_by = to.with_base(shown(trial).base() - shown(mowing).base());
        Ok(outcome.change(to, (shown(trial), trial_by), by))
    }

    fn less_wear(&self, knob: WearKnob) -> Result<Change, WhyNot> {
        let wear = self.case.unit.wear;
        let better = match knob {
            WearKnob::Trued => Wear {
                front_runout: Length::ZERO,
                rear_runout: Length::ZERO,
                ..wear
            },
            WearKnob::Parallel => Wear {
                end_difference: Length::ZERO,
                ..wear
            },
        };
        if better == wear {
            let looked = self.case.unit.looked_for;
            let is_measured = |readings: &[Looked]| !readings.contains(&Looked::NotYet);
            let runout = [looked.front_runout, looked.rear_runout];
            return Err(match knob {
                WearKnob::Trued if is_measured(&runout) => WhyNot::NothingToTrue,
                WearKnob::Trued => WhyNot::RunoutNotMeasured,
                WearKnob::Parallel if is_measured(&[looked.end_difference]) => {
                    WhyNot::NoEndDifference
                }
                WearKnob::Parallel => WhyNot::EndsNotMeasured,
            });
        }
        // Without any wear the finding does not apply; then that of every place counts, and rollers that
        // run true swing by zero.
        let elsewhere = match self.finding {
            FindingId::LowEnd => FindingId::Reel,
            FindingId::LowEndUnderside => FindingId::Underside,
            FindingId::RunoutSwing if knob == WearKnob::Trued => FindingId::RunoutSwing,
            FindingId::Sweep
            | FindingId::Ahead
            | FindingId::Gap
            | FindingId::TopFace
            | FindingId::Reel
            | FindingId::Cut
            | FindingId::Underside
            | FindingId::RunoutSwing
            | FindingId::Lip
            | FindingId::Scrap
            | FindingId::Clip
            | FindingId::Rollers
            | FindingId::Attitude => return Err(WhyNot::HasNoPart),
        };
        if self.goal.is_kept(&self.now) {
            return Err(WhyNot::WithinAlready);
        }
        let unit = Unit {
            wear: better,
            ..self.case.unit.clone()
        };
        let outcome = self.changed(&unit, self.case.setting, &[self.finding, elsewhere]);
        let outcome = outcome.ok_or(WhyNot::HasNoPart)?;
        if !self.goal.is_kept(&outcome.after) {
            return Err(WhyNot::NotEnough);
        }
        let zero = Value::from(Length::ZERO);
        let gained = outcome.after.value.base() - self.now.value.base();
        let gained = Length::from_mm(gained);
        let by = (Length::ZERO - gained).into();
        Ok(outcome.change(zero, (zero, by), by))
    }

    /// What the swing comes to where no roller runs out, of which there is no finding.
    fn without_runout(&self, then: &Case) -> Option<Judged> {
        let is_swing = self.finding == FindingId::RunoutSwing && !then.unit.wear.has_runout();
        let none = self.now.value.with_base(0.0);
        is_swing.then_some(Judged {
            value: none,
            ..self.now
        })
    }

    /// What a changed unit and setting give; none where they cannot exist. Judged by the first
    /// of `findings` that applies.
    fn changed(&self, unit: &Unit, setting: &Setting, findings: &[FindingId]) -> Option<Outcome> {
        let solution = Solution::of(unit, setting).ok()?;
        let then = Case {
            unit,
            setting,
            solution: &solution,
        };
        let after = findings
            .iter()
            .find_map(|id| Findings::judged(&then, *id))
            .or_else(|| self.without_runout(&then))?;
        let standings = Standings::of(&then);
        let moved = |before: &Standing, after: &Standing| {
            let number = |standing: &Standing| standing.judged.map(|judged| judged.value.base());
            let moved = number(before).zip(number(after));
            before.level != after.level || moved.is_some_and(|(a, b)| (a - b).abs() > 1e-9)
        };
        let uncertainty = Uncertainty::of(unit, setting, unit.follows);
        let undecided = |id: FindingId, standing: &Standing, uncertainty: &Uncertainty| {
            let judged = standing.judged.zip(id.number());
            judged.map_or(Undecided::No, |(judged, number)| {
                Undecided::of(&judged, uncertainty.in_doubt_within(number))
            })
        };
        let mut others: Vec<Other> = FindingId::ALL
            .into_iter()
            .filter(|id| *id != self.finding)
            .filter_map(|id| {
                let (before, after) = (*self.standings.get(id)?, *standings.get(id)?);
                moved(&before, &after).then(|| Other {
                    id,
                    before,
                    after,
                    undecided: [
                        undecided(id, &before, &self.uncertainty),
                        undecided(id, &after, &uncertainty),
                    ],
                })
            })
            .collect();
        others.sort_by_key(|other| std::cmp::Reverse(other.after.level));
        let keeps_all = self.standings.worsened(&standings).next().is_none();
        let (now, pose) = (&self.case.solution.pose, &solution.pose);
        Some(Outcome {
            after,
            stands: (pose.attitude, pose.height_of_cut),
            others,
            rollers: (
                pose.front_roller.moved - now.front_roller.moved,
                pose.rear_roller.moved - now.rear_roller.moved,
            ),
            keeps_all,
        })
    }
}

struct Outcome {
    after: Judged,
    stands: (Angle, Length),
    others: Vec<Other>,
    rollers: (Length, Length),
    keeps_all: bool,
}

impl Outcome {
    fn change(self, to: Value, (trial, trial_by): (Value, Value), by: Value) -> Change {
        Change {
            to,
            trial,
            by,
            trial_by,
            trial_rollers: self.rollers,
            stands: self.stands,
            lip_left: None,
            knife: None,
            rollers: self.rollers,
            after: self.after,
            others: self.others,
            not_sensible: None,
        }
    }
}
