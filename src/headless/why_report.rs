//! Why a unit marks the turf, in the shape that programs read: millimetres, degrees, plain ratios.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::analysis::why::{
    Budget, Change, Complaint, CrestLimit, KnobAnswer, NotSensible, Why, causes, matches,
};
use crate::analysis::{FindingId, NumberId, RollerSteps, Solved, Spacers, Standing};
use crate::unit::{Brackets, Looked};
use crate::units::{Length, System, Value};

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct WhyReport<'a> {
    unit: &'a str,
    knife: &'a str,
    budget: Vec<StepReport>,
    underside_budget: Vec<StepReport>,
    crest_to_scalp_mm: Option<f64>,
    crest_to_drag_mm: Option<f64>,
    /// Why either is none, or that it is one.
    crest_to_scalp: &'static str,
    crest_to_drag: &'static str,
    /// The worst finding, where none of the knobs changes it.
    #[serde(skip_serializing_if = "Option::is_none")]
    comes_first: Option<ComesFirstReport<'a>>,
    knobs: Vec<KnobReport>,
    uncertainty: UncertaintyReport,
    #[serde(skip_serializing_if = "Option::is_none")]
    causes: Option<Vec<CauseReport>>,
    /// What comes round, held against the distance from mark to mark.
    #[serde(skip_serializing_if = "Option::is_none")]
    marks: Option<Vec<MarkReport>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct ComesFirstReport<'a> {
    finding: &'static str,
    level: &'static str,
    text: &'a str,
}

/// Expanded uncertainties: each holds about 95 % of what the readings leave open.
#[derive(Clone, Debug, PartialEq, Serialize)]
struct UncertaintyReport {
    behind_centre_mm: f64,
    sweep_below_cut_mm: f64,
    /// Of what the budget ends with.
    reel_clearance_mm: f64,
    underside_clearance_mm: f64,
    sweep_share: f64,
    /// Expanded over standard uncertainty of each of them, by its key without the unit; those that
    /// cannot be off are left out.
    coverage_factors: BTreeMap<&'static str, f64>,
    /// Which of the numbers bend so much over the readings' ± that theirs is no more than rough.
    rough: Vec<&'static str>,
    /// The findings that cannot be told: a limit lies within what the readings leave open.
    cannot_tell: Vec<&'static str>,
    /// The readings by what they bring to the variance of what the chosen finding judges.
    improve_first: Vec<ReadingReport>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct ReadingReport {
    reading: String,
    share_of_variance: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct StepReport {
    id: &'static str,
    mm: f64,
    /// Whether what it comes from was measured, be it none; left out for what the geometry gives.
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<&'static str>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct KnobReport {
    id: &'static str,
    finding: &'static str,
    /// How far the knob turns to the finding's limit; none where it does not reach it.
    change: Option<f64>,
    unit: &'static str,
    reaches_limit: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    why_not: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    knife: Option<String>,
    change_to_aim: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    aim_is: Option<String>,
    /// Why nobody would make it.
    #[serde(skip_serializing_if = "Option::is_none")]
    not_sensible: Option<String>,
    front_roller_by_mm: Option<f64>,
    rear_roller_by_mm: Option<f64>,
    /// The same moves as they are made.
    roller_steps: Option<MovesReport>,
    roller_steps_at_aim: Option<MovesReport>,
    others: Vec<OtherReport>,
    others_at_aim: Vec<OtherReport>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct MovesReport {
    front: StepsReport,
    rear: StepsReport,
}

/// A roller's move, positive towards the reel.
#[derive(Clone, Debug, PartialEq, Serialize)]
struct StepsReport {
    by_mm: f64,
    /// None where the adjuster's thread is not known.
    turns: Option<f64>,
    /// Spacers taken out where it moves towards the reel, put in where it moves away; none where the
    /// stock is not known.
    spacers_mm: Option<Vec<f64>>,
    /// How much the move takes beyond them; negative where they are too thick.
    left_over_mm: Option<f64>,
}

impl From<RollerSteps> for StepsReport {
    fn from(steps: RollerSteps) -> Self {
        let sizes = |spacers: &Spacers| spacers.sizes.iter().map(|size| size.mm()).collect();
        Self {
            by_mm: steps.by.mm(),
            turns: steps.turns,
            spacers_mm: steps.spacers.as_ref().map(sizes),
            left_over_mm: steps.spacers.as_ref().map(|spacers| spacers.left_over.mm()),
        }
    }
}

impl MovesReport {
    fn of(change: &Change, brackets: &Brackets) -> Self {
        let [front, rear] = RollerSteps::of_both(change.rollers, brackets);
        Self {
            front: front.into(),
            rear: rear.into(),
        }
    }
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct OtherReport {
    finding: &'static str,
    before: Option<f64>,
    after: Option<f64>,
    level_before: &'static str,
    level_after: &'static str,
    /// Whether it may be over its limit then, and surely was not before.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    may_go_over: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct MarkReport {
    what: &'static str,
    pitch_mm: f64,
    is_same: bool,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct CauseReport {
    id: &'static str,
    strength: Option<f64>,
    word: &'static str,
    text: String,
    confirm: &'static str,
    cure: String,
}

fn steps(budget: &Budget, left: &'static str) -> Vec<StepReport> {
    let steps = budget.steps.iter().map(|step| StepReport {
        id: step.kind.id(),
        mm: step.by.mm(),
        reading: step.looked.map(Looked::word),
    });
    let left = StepReport {
        id: left,
        mm: budget.left().mm(),
        reading: None,
    };
    steps.chain([left]).collect()
}

/// A change in the unit that programs are told: millimetres, degrees, metres a second, turns a minute.
fn told(value: Value) -> f64 {
    match value {
        Value::Speed(speed) => speed.mm_per_s() / 1000.0,
        other => other.base(),
    }
}

impl<'a> WhyReport<'a> {
    pub(super) fn of(
        solved: &'a Solved,
        why: &'a Why,
        other_knobs: &[KnobAnswer],
        (complaint, spacing): (Option<Complaint>, Option<Length>),
    ) -> Self {
        let system = solved.unit.system;
        let case = solved.case();
        let mm = |limit: CrestLimit| limit.radius().map(Length::mm);
        Self {
            unit: &solved.document.name,
            knife: solved.document.fitted_name(),
            budget: steps(&why.reel, "reel_clearance"),
            underside_budget: steps(&why.underside, "underside_clearance"),
            crest_to_scalp_mm: mm(why.crests.reel),
            crest_to_drag_mm: mm(why.crests.underside),
            crest_to_scalp: why.crests.reel.id(),
            crest_to_drag: why.crests.underside.id(),
            comes_first: why.comes_first.as_ref().map(|first| ComesFirstReport {
                finding: first.finding.id(),
                level: first.level.id(),
                text: &first.told,
            }),
            knobs: why
                .knobs
                .iter()
                .chain(other_knobs)
                .map(|answer| KnobReport::of(solved, answer, system))
                .collect(),
            uncertainty: UncertaintyReport::of(solved, why.finding),
            causes: complaint.map(|complaint| {
                let causes = causes(&case, complaint).into_iter();
                causes
                    .map(|cause| CauseReport {
                        id: cause.id,
                        strength: cause.share().map(crate::units::Share::of_one),
                        word: cause.strength.word(),
                        text: cause.text.shown_in(system),
                        confirm: cause.confirm,
                        cure: cause.cure_told(&solved.findings),
                    })
                    .collect()
            }),
            marks: spacing.map(|spacing| {
                let marks = matches(&case, spacing).into_iter();
                marks
                    .map(|found| MarkReport {
                        what: found.name,
                        pitch_mm: found.pitch.mm(),
                        is_same: found.is_same,
                    })
                    .collect()
            }),
        }
    }
}

impl UncertaintyReport {
    fn of(solved: &Solved, finding: FindingId) -> Self {
        let uncertainty = &solved.uncertainty;
        let in_doubt = solved.findings.iter().filter(|f| f.doubt.is_some());
        let output = finding.number().unwrap_or(NumberId::SweepBelowCut);
        Self {
            behind_centre_mm: uncertainty.expanded(NumberId::BehindCentre),
            sweep_below_cut_mm: uncertainty.expanded(NumberId::SweepBelowCut),
            reel_clearance_mm: uncertainty.expanded(NumberId::ReelAtLowEnd),
            underside_clearance_mm: uncertainty.expanded(NumberId::UndersideAtLowEnd),
            sweep_share: uncertainty.expanded(NumberId::SweepShare),
            coverage_factors: [
                ("behind_centre", NumberId::BehindCentre),
                ("sweep_below_cut", NumberId::SweepBelowCut),
                ("reel_clearance", NumberId::ReelAtLowEnd),
                ("underside_clearance", NumberId::UndersideAtLowEnd),
                ("sweep_share", NumberId::SweepShare),
            ]
            .into_iter()
            .filter_map(|(key, number)| Some((key, uncertainty.coverage_factor(number)?)))
            .collect(),
            rough: uncertainty.rough().map(NumberId::name).collect(),
            cannot_tell: in_doubt.map(|finding| finding.id.id()).collect(),
            improve_first: uncertainty
                .ranking(output)
                .into_iter()
                .map(|contribution| ReadingReport {
                    reading: contribution.reading.to_string(),
                    share_of_variance: contribution.share,
                })
                .collect(),
        }
    }
}

impl KnobReport {
    fn of(solved: &Solved, answer: &KnobAnswer, system: System) -> Self {
        let change = answer.to_limit.as_ref().ok();
        let steps = |change: &Change| MovesReport::of(change, &solved.unit.brackets);
        Self {
            id: answer.knob.id(),
            finding: answer.finding.id(),
            change: change.map(|change| told(change.by)),
            unit: answer.knob.unit(),
            reaches_limit: change.is_some(),
            why_not: answer
                .to_limit
                .as_ref()
                .err()
                .map(|why_not| why_not.sentence().shown_in(system)),
            knife: change
                .and_then(|change| solved.document.knife_at(change.knife?))
                .map(|knife| knife.name.clone()),
            change_to_aim: answer.to_aim.as_ref().map(|change| told(change.by)),
            aim_is: answer.aim_is.map(|said| said.shown_in(system)),
            not_sensible: answer.not_sensible().map(NotSensible::told),
            front_roller_by_mm: change.map(|change| change.rollers.0.mm()),
            rear_roller_by_mm: change.map(|change| change.rollers.1.mm()),
            roller_steps: change.map(steps),
            roller_steps_at_aim: answer.to_aim.as_ref().map(steps),
            others: others(change),
            others_at_aim: others(answer.to_aim.as_ref()),
        }
    }
}

fn others(change: Option<&Change>) -> Vec<OtherReport> {
    let number = |standing: &Standing| standing.judged.map(|judged| judged.value.base());
    let others = change.into_iter().flat_map(|change| &change.others);
    others
        .map(|other| OtherReport {
            finding: other.id.id(),
            before: number(&other.before),
            after: number(&other.after),
            level_before: other.before.level.id(),
            level_after: other.after.level.id(),
            may_go_over: other.may_go_over(),
        })
        .collect()
}
