//! The why sheet: what a unit does to the turf, why it can, and what would cure it.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::setting_sheet::side_and_lens;
use super::sheet::Sheet;
use super::view_picture::budget_chart;
use crate::analysis::why::{
    BudgetOf, Cause, Change, Complaint, Cure, Goal, Knob, KnobAnswer, Strength, Towards, Why,
    causes, every_cause, pitches, spacing_told,
};
use crate::analysis::{Finding, FindingId, GRINDING, Level, MOVING_ROLLERS, Solved, moves_told};
use crate::drawing::scene::Role;
use crate::units::{Length, Quoted, System};

/// Parts of the page's area that a budget's chart takes, and the drawing of the unit with what is free.
const CHART: f64 = 0.17;
const LARGEST_CHART: f64 = 0.24;
const UNIT: f64 = 0.18;
const LARGEST_UNIT: f64 = 0.4;
/// The smallest part of the words' usual size on one page with the drawing, and on one without it.
const WITH_UNIT: f64 = 0.84;
const WITHOUT_UNIT: f64 = 0.76;
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
        read: [""; 2],
    };
    let why = Why::of(solved, None, Goal::Fine, system);
    let whys: Vec<Why> = findings_to_adjust(solved, complained, why.finding)
        .into_iter()
        .map(|finding| Why::of(solved, Some(finding), Goal::Fine, system))
        .collect();
    let bands = |has_unit: bool, area: Rect, style, left: f64| {
        let height = area.height();
        let mut first = Band::new(1, area, style);
        complaint(&mut first, solved, complained, system);
        first.heading("Height budget");
        let mut charts = Band::new(2, area, style);
        for part in BudgetOf::ALL {
            charts.picture(
                &format!("Height budget: {}", part.title()),
                if has_unit {
                    CHART * height
                } else {
                    (CHART * height + left).min(LARGEST_CHART * height)
                },
                move |place: Rect, style| vec![budget_chart(solved, part, system, place, style)],
            );
        }
        let mut rest = Band::new(1, area, style);
        rest.heading("Tightest crest, roller sink included");
        let crests = [
            ("Reel", why.crests.reel),
            ("underside", why.crests.underside),
        ];
        let crests = crests.map(|(part, limit)| format!("{part}: {}", limit.in_short(system)));
        rest.words(Role::Note, &format!("{}.", crests.join("; ")));
        for why in &whys {
            cures(&mut rest, solved, why, system);
        }
        rest.words(Role::Note, MOVING_ROLLERS);
        if whys.iter().flat_map(|why| &why.knobs).any(|answer| {
            matches!(answer.knob, Knob::FaceGround | Knob::TopGround) && answer.to_limit.is_ok()
        }) {
            rest.words(Role::Note, GRINDING);
        }
        if has_unit {
            rest.heading("The unit");
            rest.picture(
                "The unit from the side, to scale, and its clip point enlarged",
                (UNIT * height + left).min(LARGEST_UNIT * height),
                move |place, style| side_and_lens(solved, system, place, style),
            );
        }
        rest.blanks(&["Notes"]);
        rest.blanks(&["Chosen", "Approved"]);
        vec![first, charts, rest]
    };
    // The drawing of the unit gives way before the words get small or take a second page.
    let fits = |has_unit, least: f64| {
        frame.fits_one_page(least, |area, style| bands(has_unit, area, style, 0.0))
    };
    let has_unit = fits(true, WITH_UNIT) || !fits(false, WITHOUT_UNIT);
    frame.filled_pages(!has_unit, |area, style, left| {
        bands(has_unit, area, style, left)
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
    let share = cause.share_told();
    band.item(
        &format!("{number}."),
        Role::Heading,
        &format!("{}: {}{share}", cause.name, cause.strength.word()),
    );
    band.keep_with_next();
    band.item(UNDER, Role::Note, &cause.text.shown_in(system));
    band.keep_with_next();
    // What plays no part needs no cure.
    let cure = match cause.cure_by(&solved.findings) {
        _ if !cause.can_be_cured() => String::new(),
        Cure::Adjustments(finding) if !is_ok(solved, finding) => {
            format!(" Cure: {}, below.", Cure::Adjustments(finding).told())
        }
        _ => format!(" Cure: {}", cause.cure_told(&solved.findings)),
    };
    band.item(
        UNDER,
        Role::Note,
        &format!("Confirm: {}{cure}", cause.confirm),
    );
}

/// Whether a finding keeps every limit it has.
fn is_ok(solved: &Solved, finding: FindingId) -> bool {
    solved.findings.level_of(finding) == Some(Level::Fine)
}

/// The findings whose adjustments are printed: the worst, and those that a cause on the sheet is cured
/// by.
fn findings_to_adjust(solved: &Solved, complained: Complained, worst: FindingId) -> Vec<FindingId> {
    let case = solved.case();
    let causes = match complained.complaint {
        Some(complaint) => causes(&case, complaint),
        None => every_cause(&case),
    };
    let mut findings = vec![worst];
    for cause in causes.iter().filter(|cause| cause.can_be_cured()) {
        if let Cure::Adjustments(finding) = cause.cure_by(&solved.findings)
            && !is_ok(solved, finding)
            && !findings.contains(&finding)
        {
            findings.push(finding);
        }
    }
    findings
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
    band.heading(&format!("Adjustments for: {title}"));
    let worth = why
        .knobs
        .iter()
        .filter(|answer| answer.to_limit.is_ok() && answer.not_sensible().is_none());
    let (mut count, mut named) = (0, Vec::new());
    for answer in worth {
        let Some(change) = answer.changes().next() else {
            continue;
        };
        // One pair of roller moves is one cure, by whatever adjustment it was found.
        if answer.knob.moves_rollers_alone() {
            let (front, rear) = change.trial_rollers;
            let moves = (system.roller_move(front), system.roller_move(rear));
            if named.contains(&moves) {
                continue;
            }
            named.push(moves);
        }
        count += 1;
        cure(band, solved, (answer, change), system);
    }
    if count == 0 {
        band.words(
            Role::Note,
            "No adjustment by itself reaches the limit in a sensible way.",
        );
    }
}

fn cure(
    band: &mut Band,
    solved: &Solved,
    (answer, change): (&KnobAnswer, &Change),
    system: System,
) {
    let knife = change
        .knife
        .and_then(|place| solved.document.knife_at(place))
        .map_or_else(String::new, |knife| format!(" {}", Quoted(&knife.name)));
    let towards = match answer.to_aim {
        Some(_) => Towards::Aim,
        None => Towards::Limit,
    };
    let told = format!(
        "{}{knife}: {}.",
        answer.knob.name(),
        answer.told(change, towards, system)
    );
    band.item("–", Role::Heading, &told);
    let examples = solved.document.example_count();
    let notable = change.others.iter().filter(|other| other.is_notable());
    let becomes = notable.map(|other| {
        let [_, then] = other.told(examples, system);
        format!("{} becomes {then}.", other.id.title())
    });
    let moves = moves_told(change.trial_rollers, &solved.unit.brackets, system);
    let under: Vec<String> = moves.into_iter().chain(becomes).collect();
    if !under.is_empty() {
        band.keep_with_next();
        band.item(UNDER, Role::Note, &under.join(" "));
    }
}
