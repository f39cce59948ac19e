//! Why a unit marks the turf, on the command line: to read, or as JSON.

use std::fmt::Write as _;

use super::report::{in_line, json_text};
use super::why_report::WhyReport;
use crate::analysis::uncertainty::{ENTERED_AND_WORKED_OUT, off_in_words};
use crate::analysis::why::{
    Change, Complaint, Goal, KnobAnswer, NotSensible, Other, Towards, Why, causes, pitches,
    spacing_told,
};
use crate::analysis::{Case, Finding, FindingId, Findings, Level, NumberId, Solved, moves_told};
use crate::command::{Problem, caution};
use crate::unit::Field;
use crate::units::{Length, Measure as _, Quoted, Share};

/// What is asked.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    /// The finding whose knobs are told; the worst one when none is chosen.
    pub finding: Option<FindingId>,
    /// Which of its limits.
    pub goal: Goal,
    /// What is wrong with the turf.
    pub complaint: Option<Complaint>,
    /// The distance from mark to mark.
    pub spacing: Option<Length>,
    /// One JSON object instead of a text.
    pub is_json: bool,
}

/// The finding that a person named.
///
/// # Errors
/// When no number that an adjustment changes decides a finding of that name; the sentence lists those
/// there are.
pub fn finding_named(case: &Case, name: &str) -> Result<FindingId, Problem> {
    let known = || Findings::adjustable(case).map(|(id, _)| id);
    known().find(|id| id.id() == name).ok_or_else(|| {
        let known: Vec<_> = known().map(FindingId::id).collect();
        Problem::Unknown {
            option: "finding",
            what: name.to_owned(),
            known: known.join(", "),
        }
    })
}

/// Tells why a unit that was read marks the turf.
#[must_use]
pub fn why(solved: &Solved, asked: Asked) -> String {
    let why = Why::of(solved, asked.finding, asked.goal, solved.unit.system);
    if asked.is_json {
        let others = other_knobs(solved, &why, asked);
        json_text(&WhyReport::of(
            solved,
            &why,
            &others,
            (asked.complaint, asked.spacing),
        ))
    } else {
        plain(solved, &why, asked)
    }
}

/// What every knob would do for the other findings that are not surely fine, and for the sweep; for
/// none besides one that was named.
fn other_knobs(solved: &Solved, why: &Why, asked: Asked) -> Vec<KnobAnswer> {
    if asked.finding.is_some() {
        return Vec::new();
    }
    let findings = solved.findings.iter();
    let wanted = findings
        .filter(|finding| finding.shown_level() > Level::Fine || finding.id == FindingId::Sweep);
    wanted
        .filter(|finding| finding.id != why.finding && finding.id.is_adjustable())
        .flat_map(|finding| Why::of(solved, Some(finding.id), asked.goal, solved.unit.system).knobs)
        .collect()
}

fn plain(solved: &Solved, why: &Why, asked: Asked) -> String {
    let system = solved.unit.system;
    // Writing to a `String` cannot fail, so its results are passed over below.
    let mut text = String::new();
    let _ = writeln!(
        text,
        "{}: why it marks the turf",
        in_line(&solved.document.name)
    );
    if let Some(told) = solved.document.example_count().told() {
        let _ = writeln!(text, "{told}");
    }
    for (title, left, budget) in [
        (
            "Height budget of the reel",
            "clearance to soil, reel",
            &why.reel,
        ),
        (
            "Height budget of the underside",
            "clearance to soil, underside",
            &why.underside,
        ),
    ] {
        let _ = writeln!(text, "\n{title}");
        for step in &budget.steps {
            let looked = step
                .none_told()
                .map_or(String::new(), |looked| format!("  {}", looked.word()));
            let _ = writeln!(
                text,
                "  {:26}  {:>12}{looked}",
                step.kind.name(),
                step.shown_in(system)
            );
        }
        let _ = writeln!(text, "  {left:31}  {:>7}", system.in_column(budget.left()));
    }
    let _ = writeln!(text, "\nTightest crest, roller sink included");
    for (part, limit) in [
        ("reel", why.crests.reel),
        ("underside", why.crests.underside),
    ] {
        let _ = writeln!(text, "  {part:9}  {}", limit.in_short(system));
    }
    if let Some(complaint) = asked.complaint {
        causes_text(&mut text, solved, complaint, asked.spacing);
    }
    if let Some(first) = &why.comes_first {
        let _ = writeln!(text, "\n{}", first.told);
    }
    let title = solved.findings.get(why.finding).map_or("", Finding::title);
    let _ = writeln!(text, "\nWhat each adjustment alone would do for: {title}");
    let (odd, usual): (Vec<_>, Vec<_>) = why
        .knobs
        .iter()
        .partition(|answer| answer.not_sensible().is_some());
    for answer in usual {
        knob_text(&mut text, solved, answer);
    }
    if !odd.is_empty() {
        let _ = writeln!(text, "\nPossible, not sensible");
    }
    for answer in odd {
        knob_text(&mut text, solved, answer);
        let reason = answer.not_sensible().map(NotSensible::told);
        let _ = writeln!(text, "      {}", reason.unwrap_or_default());
    }
    uncertainty_text(&mut text, solved, why.finding);
    let _ = writeln!(text, "\n{}", caution());
    text
}

fn uncertainty_text(text: &mut String, solved: &Solved, finding: FindingId) {
    let (solved, system) = (solved, solved.unit.system);
    let _ = writeln!(
        text,
        "\nHow sure (± holds 95 %)\n  {ENTERED_AND_WORKED_OUT}"
    );
    if solved.unit.uncertain.is_empty() {
        let _ = writeln!(text, "  No reading carries a ±.");
        if !solved.uncertainty.has_any() {
            return;
        }
    }
    for (name, shown) in off_in_words(solved, system) {
        let _ = writeln!(text, "  {name:34}  {shown}");
    }
    let output = finding.number().unwrap_or(NumberId::SweepBelowCut);
    let ranking = solved.uncertainty.ranking(output);
    let readings: Vec<_> = ranking
        .iter()
        .map(|c| {
            format!(
                "{} ({})",
                Field::from(c.reading).name_in(&solved.document),
                system.share(Share::from_base(c.share))
            )
        })
        .collect();
    if !readings.is_empty() {
        let _ = writeln!(
            text,
            "  Measure better first, for {}: {}",
            output.name(),
            readings.join(", ")
        );
    }
}

fn causes_text(text: &mut String, solved: &Solved, complaint: Complaint, spacing: Option<Length>) {
    let system = solved.unit.system;
    let case = solved.case();
    let causes = causes(&case, complaint);
    let _ = writeln!(text, "\n{}", complaint.name());
    let _ = writeln!(text, "  {}", complaint.look_first());
    if !causes.iter().any(|cause| cause.strength.has_part()) {
        let _ = writeln!(
            text,
            "  Not explained by this geometry, as far as it is measured."
        );
    }
    let _ = writeln!(text, "  {}", complaint.order());
    for cause in &causes {
        // What plays no part needs no cure.
        let cure = if cause.can_be_cured() {
            format!(" Cure: {}", cause.cure_told(&solved.findings))
        } else {
            String::new()
        };
        let _ = writeln!(
            text,
            "  {}: {}{}. {} Confirm: {}{cure}",
            cause.name,
            cause.strength.word(),
            cause.share_told(),
            cause.text.shown_in(system),
            cause.confirm,
        );
    }
    let _ = writeln!(text, "  {}", complaint.outside());
    if complaint.comes_back() {
        let marks: Vec<_> = pitches(&case)
            .into_iter()
            .map(|(name, pitch)| format!("{name} {}", system.length(pitch)))
            .collect();
        let _ = writeln!(text, "  From mark to mark: {}.", marks.join(", "));
    }
    if let Some(spacing) = spacing {
        let _ = writeln!(text, "  {}", spacing_told(&case, spacing, system));
    }
}

fn knob_text(text: &mut String, solved: &Solved, answer: &KnobAnswer) {
    let system = solved.unit.system;
    let name = answer.knob.name();
    match &answer.to_limit {
        Err(why_not) => {
            let _ = writeln!(text, "  {name}: {}", why_not.sentence().shown_in(system));
        }
        Ok(change) => {
            let knife = change
                .knife
                .and_then(|place| solved.document.knife_at(place))
                .map_or_else(String::new, |knife| format!(" {}", Quoted(&knife.name)));
            let told = answer.told(change, Towards::Limit, system);
            let _ = writeln!(text, "  {name}{knife}: {told}");
            others_text(text, &change.others, solved);
            if answer.to_aim.is_none() {
                steps_text(text, change, solved);
            }
        }
    }
    if let Some(aim) = &answer.to_aim {
        let told = answer.told(aim, Towards::Aim, system);
        let _ = writeln!(text, "      {told}");
        steps_text(text, aim, solved);
        if answer.to_limit.is_err() {
            others_text(text, &aim.others, solved);
        }
    }
    if let Some(aim_is) = answer.aim_is {
        let _ = writeln!(text, "      {}", aim_is.shown_in(system));
    }
}

/// The roller moves of a change in turns and spacers, where these are known.
fn steps_text(text: &mut String, change: &Change, solved: &Solved) {
    let (brackets, system) = (&solved.unit.brackets, solved.unit.system);
    if let Some(told) = moves_told(change.trial_rollers, brackets, system) {
        let _ = writeln!(text, "      {told}");
    }
}

/// What else a change does.
fn others_text(text: &mut String, others: &[Other], solved: &Solved) {
    let (examples, system) = (solved.document.example_count(), solved.unit.system);
    for other in others {
        let [now, then] = other.told(examples, system);
        let _ = writeln!(text, "      {}: {now} becomes {then}", other.id.title());
    }
}
