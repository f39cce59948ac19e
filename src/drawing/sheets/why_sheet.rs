//! The why sheet: what a unit does to the turf, why it can, and what would cure it.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::setting_sheet::side_and_lens;
use super::sheet::Sheet;
use super::view_picture::budget_chart;
use crate::analysis::why::{
    BudgetOf, Cause, Complaint, Goal, KnobAnswer, Strength, Why, causes, every_cause, pitches,
    spacing_told,
};
use crate::analysis::{Finding, Solved, moves_told};
use crate::drawing::scene::Role;
use crate::units::{Length, Quoted, System};

/// Stands before lines that belong to the item above them.
const UNDER: &str = " ";

/// What is wrong with the turf, as far as a person said.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Complained {
    /// What is seen; none when nobody said.
    pub complaint: Option<Complaint>,
    /// The distance from mark to mark, where it was measured.
    pub spacing: Option<Length>,
}

/// The sheet of a solved unit.
pub(super) fn why_sheet(of: SheetOf, complained: Complained) -> Vec<Sheet> {
    let (solved, system) = (of.solved, of.system);
    let frame = Frame {
        of,
        title: "Why it marks the turf",
        verdict: Some(verdict(&solved.findings, solved.document.example_count())),
        is_lying: false,
    };
    let why = Why::of(solved, None, Goal::Fine, system);
    frame.filled_pages(false, |area, style, left| {
        let mut first = Band::new(1, area, style);
        complaint(&mut first, solved, complained, system);
        first.heading("Height budget");
        let mut charts = Band::new(2, area, style);
        for part in BudgetOf::ALL {
            charts.picture(
                &format!("Height budget: {}", part.title()),
                0.19 * area.height(),
                move |place: Rect, style| vec![budget_chart(solved, part, system, place, style)],
            );
        }
        let mut rest = Band::new(1, area, style);
        rest.heading("Tightest crest, roller sink included");
        for (part, limit) in [
            ("reel", why.crests.reel),
            ("underside", why.crests.underside),
        ] {
            rest.row(part, &limit.in_short(system));
        }
        cures(&mut rest, solved, &why, system);
        rest.heading("The unit");
        rest.picture(
            "The unit from the side, to scale, and its clip point enlarged",
            (0.17 * area.height() + left).min(0.4 * area.height()),
            move |place, style| side_and_lens(solved, system, place, style),
        );
        rest.blanks(&["Notes"]);
        rest.blanks(&["Chosen", "Approved"]);
        vec![first, charts, rest]
    })
}

fn complaint(band: &mut Band, solved: &Solved, complained: Complained, system: System) {
    let Some(complaint) = complained.complaint else {
        band.heading("What is seen on the turf");
        band.blanks(&["Mark", "From mark to mark"]);
        every_one(band, solved, system);
        return;
    };
    let case = solved.case();
    band.heading(&format!("Seen on the turf: {}", complaint.name()));
    band.words(Role::Note, complaint.look_first());
    let causes = causes(&case, complaint);
    band.words(Role::Note, complaint.order());
    if !causes.iter().any(|cause| cause.strength.has_part()) {
        band.words(
            Role::Heading,
            "Not explained by this geometry, as far as it is measured.",
        );
    }
    for (number, cause) in (1..).zip(&causes) {
        cause_item(band, (number, cause), solved, system);
    }
    band.words(Role::Note, complaint.outside());
    if complaint.comes_back() {
        let marks: Vec<_> = pitches(&case)
            .into_iter()
            .map(|(name, pitch)| format!("{name} {}", system.length(pitch)))
            .collect();
        band.words(
            Role::Note,
            &format!("From mark to mark: {}.", marks.join(", ")),
        );
    }
    if let Some(spacing) = complained.spacing {
        band.words(Role::Note, &spacing_told(&case, spacing, system));
    }
}

/// A cause with its strength, its numbers and the measurement that would confirm it.
fn cause_item(band: &mut Band, (number, cause): (u32, &Cause), solved: &Solved, system: System) {
    let share = cause.share().map_or_else(String::new, |share| {
        format!(", {} of what makes it alone", system.share(share))
    });
    band.item(
        &format!("{number}."),
        Role::Heading,
        &format!("{}: {}{share}", cause.name, cause.strength.word()),
    );
    band.keep_with_next();
    band.item(UNDER, Role::Note, &cause.text.shown_in(system));
    band.keep_with_next();
    band.item(
        UNDER,
        Role::Note,
        &format!(
            "Confirm: {} Cure: {}",
            cause.confirm,
            cause.cure_told(&solved.findings)
        ),
    );
}

/// What can mark the turf in any way: one by one what has a part in it, the others by their names.
fn every_one(band: &mut Band, solved: &Solved, system: System) {
    let causes = every_cause(&solved.case());
    band.heading("What this unit can do to the turf, the strongest first");
    let has_part = |cause: &&Cause| cause.strength.has_part();
    for (number, cause) in (1..).zip(causes.iter().filter(has_part)) {
        cause_item(band, (number, cause), solved, system);
    }
    let named = |is_meant: &dyn Fn(&Cause) -> bool| {
        let mut names: Vec<&str> = Vec::new();
        for cause in &causes {
            // One name may stand for the reel's and the knife's.
            if !cause.strength.has_part() && is_meant(cause) && !names.contains(&cause.name) {
                names.push(cause.name);
            }
        }
        names.join(", ")
    };
    let is_open = |cause: &Cause| cause.strength == Strength::NotMeasured;
    for (what, names) in [
        ("Not measured", named(&is_open)),
        ("Plays no part alone", named(&|cause| !is_open(cause))),
    ] {
        if !names.is_empty() {
            band.words(Role::Note, &format!("{what}: {names}."));
        }
    }
}

/// The cures worth making: those that reach the limit and that somebody would make.
fn cures(band: &mut Band, solved: &Solved, why: &Why, system: System) {
    let title = solved.findings.get(why.finding).map_or("", Finding::title);
    band.heading(&format!("Worth doing for: {title}"));
    let worth = why
        .knobs
        .iter()
        .filter(|answer| answer.to_limit.is_ok() && answer.not_sensible().is_none());
    let mut count = 0;
    for answer in worth {
        count += 1;
        cure(band, solved, answer, system);
    }
    if count == 0 {
        band.words(
            Role::Note,
            "No adjustment by itself reaches the limit in a sensible way.",
        );
    }
}

fn cure(band: &mut Band, solved: &Solved, answer: &KnobAnswer, system: System) {
    let Ok(change) = &answer.to_limit else {
        return;
    };
    let knife = change
        .knife
        .and_then(|place| solved.document.knife_at(place))
        .map_or_else(String::new, |knife| format!(" {}", Quoted(&knife.name)));
    let (change, towards) = match &answer.to_aim {
        Some(aim) => (aim, ("to its aim by", "to")),
        None => (change, answer.to_limit_in_words()),
    };
    let told = format!(
        "{}{knife}: {} {}, {} {}; front roller {}, rear roller {}.",
        answer.knob.name(),
        towards.0,
        change.trial_by.shown_in(system),
        towards.1,
        change.trial.shown_in(system),
        system.roller_move(change.trial_rollers.0),
        system.roller_move(change.trial_rollers.1)
    );
    band.item("–", Role::Heading, &told);
    if let Some(told) = moves_told(change.trial_rollers, &solved.unit.brackets, system) {
        band.item(UNDER, Role::Note, &told);
    }
    for other in change.others.iter().filter(|other| other.is_notable()) {
        let level = other
            .after
            .level
            .word_resting_on(solved.document.example_count());
        band.item(
            UNDER,
            Role::Note,
            &format!("{} becomes: {level}", other.id.title()),
        );
    }
}
