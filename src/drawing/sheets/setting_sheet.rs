//! The setting sheet: one page to set a unit by, pinned over the bench.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::setting_steps::setting_steps;
use super::sheet::Sheet;
use crate::analysis::why::{Budget, BudgetOf, StepKind};
use crate::analysis::{Acceptable, Acceptance, Accepted, Finding, Level, NumberId, Solved};
use crate::drawing::paper::{Panel, Style};
use crate::drawing::pictures::{Canvas, Lens, LensChoice, SideView};
use crate::drawing::scene::Role;
use crate::unit::{Document, Field, Fitted, Looked, Reading};
use crate::units::{Length, Quantity, System, Value};

/// Points of the hardware that are listed one by one.
const MOST_HARDWARE: usize = 3;
/// Part of the page's area that drawing and lens take, and the most that they take of a page with room.
const PICTURE: f64 = 0.24;
const LOWER_PICTURES: [f64; 4] = [PICTURE, 0.22, 0.2, 0.17];
const LARGEST_PICTURE: f64 = 0.4;
const SMALLEST_PICTURE: f64 = 0.14;

/// The smallest part of the words' usual size that gives way to a larger drawing, and to one as usual.
const READABLE: f64 = 0.92;
const SMALL: f64 = 0.84;

/// The sheet of a solved unit.
pub(super) fn setting_sheet(of: SheetOf) -> Vec<Sheet> {
    let solved = of.solved;
    let frame = Frame {
        of,
        title: "Setting sheet",
        verdict: Some(verdict(&solved.findings, solved.document.example_count())),
        is_lying: false,
        read: [""; 2],
    };
    // What takes work is worked out once, however often the page is laid out.
    let warned = warning(solved, of.system);
    let accepted = Acceptance::of(solved);
    let steps = setting_steps(solved, of.system);
    let bands = |part: f64, area: Rect, style, left: f64| {
        let mut picture = Band::new(1, area, style);
        picture.picture(
            "The unit from the side, to scale, and its clip point enlarged",
            (part * area.height() + left).min(LARGEST_PICTURE * area.height()),
            move |place, style| side_and_lens(solved, of.system, place, style),
        );
        let mut wanted = Band::new(1, area, style);
        wanted.heading("Setting wanted");
        wanted.strip(&shown(solved, SET.into_iter(), of.system));
        let mut band = Band::new(2, area, style);
        if let Some((worst, told)) = &warned {
            band.heading("Do not set or run the unit like this");
            finding(&mut band, solved, (worst, told), Role::Heading);
            band.heading("What this setting would take, in order");
        } else {
            band.heading("What to do, in order");
        }
        for (number, step) in (1..).zip(&steps) {
            band.item(&format!("{number}."), Role::Note, step);
        }
        let told_above = warned.as_ref().map(|(worst, _)| worst.id);
        band.heading(told_above.map_or("Findings", |_| "The other findings"));
        for other in solved.findings.iter() {
            if Some(other.id) != told_above {
                finding(
                    &mut band,
                    solved,
                    (other, &other.shown_in(of.system)),
                    Role::Note,
                );
            }
        }
        let mut rows = Band::new(3, area, style);
        rows.heading("What comes of it");
        let others = NumberId::KEY.into_iter().filter(|id| !SET.contains(id));
        // Where the ground is not as level and hard as the plate, these differ from those.
        let on_ground = [NumberId::SweepOnGround, NumberId::AttitudeOnGround];
        let others = others.chain(on_ground);
        for (name, value) in shown(solved, others, of.system) {
            rows.row(name, &value);
        }
        measured(&mut rows, &solved.document, of.system);
        budgets(&mut rows, solved, of.system);
        let mut last = Band::new(1, area, style);
        if let Some(accepted) = &accepted {
            measured_after(&mut last, solved, accepted, of.system);
            last.blanks(&["Notes"]);
            last.blanks(&["Agreed: off by at most", "Set by", "Date", "Signature"]);
        } else {
            last.heading("Not to be set or run: no reading is accepted, and nobody signs for it");
            last.blanks(&["Notes"]);
        }
        vec![wanted, picture, band, rows, last]
    };
    // As high as the scale needs that the page's width allows, where the words stay readable beside it;
    // lower than usual where only that leaves them so.
    let area = frame.area();
    let needed = paper_for_whole(solved, of.system, area.width()) / area.height();
    let is_readable = |part: f64, least: f64| {
        frame.fits_one_page(least, |area, style| bands(part, area, style, 0.0))
    };
    let part = if (PICTURE..LARGEST_PICTURE).contains(&needed) && is_readable(needed, READABLE) {
        needed
    } else {
        // No lower than it must: the drawing would drop to the next smaller scale.
        let mut lower = LOWER_PICTURES.into_iter();
        let found = lower.find(|part| is_readable(*part, SMALL));
        found.unwrap_or(SMALLEST_PICTURE)
    };
    frame.filled_pages(true, |area, style, left| bands(part, area, style, left))
}

/// What is read again once the unit is set, at both ends, beside the readings at which every finding is
/// OK by more than its ±.
fn measured_after(band: &mut Band, solved: &Solved, accepted: &Acceptance, system: System) {
    const PARTS: [f64; 5] = [0.13, 0.11, 0.42, 0.17, 0.17];
    let (solution, setting) = (&solved.solution, &solved.unit.setting);
    let gap_most = system.length(accepted.gap_most);
    let gap = if setting.gap > accepted.gap_most {
        format!("not OK as set; OK up to {gap_most}")
    } else {
        format!("{gap_most} at most, at both ends and the middle")
    };
    band.heading("Measured after, on the surface plate");
    band.column_heads(&cells(
        PARTS,
        ["", "set to", "findings OK at", "left", "right"],
    ));
    let rows = [
        (
            "Height of cut",
            system.length(solution.pose.height_of_cut),
            acceptable_told(&accepted.height_of_cut, system),
        ),
        (
            "Attitude",
            system.angle(solution.pose.attitude),
            acceptable_told(&accepted.attitude, system),
        ),
        (
            "Behind centre",
            system.length(solution.sweep.behind_centre),
            acceptable_told(&accepted.behind_centre, system),
        ),
        ("Gap", system.length(setting.gap), gap),
    ];
    for (name, set_to, accept) in &rows {
        band.entries(&cells(PARTS, [name, set_to, accept, "", ""]));
    }
    band.gap(5.0);
    band.words(
        Role::Note,
        "Set each to its value, as near as the shop has agreed. That range is no allowance for setting: one reading anywhere in it, the others as set, leaves every finding OK by more than its ± (the gap: up to its OK limit). Where two are off, type both in and check again.",
    );
}

/// Texts side by side, each with its part of the width.
fn cells<const N: usize>(parts: [f64; N], texts: [&str; N]) -> Vec<(f64, &str)> {
    parts.into_iter().zip(texts).collect()
}

/// From where to where a reading is accepted; where it is not accepted as set, for the sake of what.
fn acceptable_told(acceptable: &Acceptable, system: System) -> String {
    match acceptable {
        Acceptable::Between(range) => {
            range_told(range, system).unwrap_or_else(|| "no reading: too little room".to_owned())
        }
        Acceptable::Not {
            findings,
            elsewhere,
        } => {
            let what: Vec<String> = findings
                .iter()
                .map(|id| id.title().to_lowercase())
                .collect();
            let ranges: Vec<String> = elsewhere
                .iter()
                .filter_map(|range| range_told(range, system))
                .collect();
            let ranges = if ranges.is_empty() {
                "OK nowhere".to_owned()
            } else {
                format!("OK at {}", ranges.join(" or "))
            };
            match &what[..] {
                [] => format!("not sure as set; {ranges}"),
                what => format!("not OK as set: {}; {ranges}", what.join(", ")),
            }
        }
    }
}

/// The ends of what is accepted, as they are read; none where no reading lies between them.
fn range_told(range: &Accepted, system: System) -> Option<String> {
    let range = range.as_read_in(system)?;
    let told = |end: Value| end.shown_in(system);
    let (least, most) = (range.least.map(told)?, range.most.map(told)?);
    Some(format!("{least} to {most}"))
}

/// The drawing with its lens, scales written.
pub(super) fn side_and_lens(
    solved: &Solved,
    system: System,
    place: Rect,
    style: Style,
) -> Vec<Panel> {
    let scene = side_view(solved, system).scene();
    let (whole, lens) = Canvas::split_paper(place, scene.bounds);
    let choice = LensChoice::default();
    let canvas = Canvas {
        whole,
        lens: Some(Lens::on(&solved.solution, choice, lens, system)),
    };
    canvas.panels(&scene, style)
}

/// How high paper so wide has to be for the whole at the largest scale that it has room for across.
pub(super) fn paper_for_whole(solved: &Solved, system: System, width: f64) -> f64 {
    Canvas::height_on_paper(width, side_view(solved, system).bounds())
}

fn side_view(solved: &Solved, system: System) -> SideView<'_> {
    SideView {
        system,
        ..SideView::of(solved)
    }
}

/// The worst finding where one is over its limit, with what would clear it: told before any step.
fn warning(solved: &Solved, system: System) -> Option<(&Finding, String)> {
    let worst = solved.findings.most_urgent();
    let worst = worst.filter(|worst| worst.level == Level::Over)?;
    Some((worst, solved.told(worst, system)))
}

/// What is set.
const SET: [NumberId; 5] = [
    NumberId::ReelDiameter,
    NumberId::HeightOfCut,
    NumberId::Attitude,
    NumberId::Gap,
    NumberId::Extension,
];

/// Numbers by their titles, those that the unit has.
fn shown(
    solved: &Solved,
    ids: impl Iterator<Item = NumberId>,
    system: System,
) -> Vec<(&'static str, String)> {
    let numbers = solved.solution.numbers();
    ids.filter_map(|id| Some((id.title(), numbers.shown(id, system)?)))
        .collect()
}

/// The readings as they were entered, each with its ±.
pub(super) fn measured(band: &mut Band, document: &Document, system: System) {
    let has_off = |field: Field| field.half_width(document).is_some();
    band.heading(if Field::all(document).any(has_off) {
        // Not what numbers carry, which holds 95 %.
        "As measured, ± as entered"
    } else {
        "As measured"
    });
    let is_listed = |field: &Field| match field {
        Field::Reading(Reading::HardwareBehind(index) | Reading::HardwareBelow(index)) => {
            *index < MOST_HARDWARE
        }
        Field::Reading(reading) => !matches!(reading, Reading::Knife(Fitted::Option(_), _)),
        field => matches!(
            field,
            Field::NewDiameter | Field::SmallestDiameter | Field::Blades
        ),
    };
    for field in Field::all(document).filter(is_listed) {
        let Some(text) = field.text(document) else {
            continue;
        };
        // Zero is zero in every unit; what was typed in another system stands beside.
        let shown = field.shown_in(document, system);
        let shown = shown.filter(|shown| *shown != text);
        let is_zero = field.half_width(document).is_none()
            && field.base(document).is_some_and(|base| base == 0.0);
        let mut told = match shown {
            Some(shown) if is_zero => shown.into_owned(),
            // The same number, written otherwise.
            Some(shown) if is_same_reading(&shown, &text) => shown.into_owned(),
            Some(shown) => format!("{shown} (entered as {text})"),
            None => text.into_owned(),
        };
        if document.examples.has(field) {
            told.push_str(" (example)");
        }
        band.row(field.name(), &told);
    }
    let more = document.hardware.len().saturating_sub(MOST_HARDWARE);
    if more > 0 {
        band.words(
            Role::Note,
            &format!("And {more} more points of hardware, in the file."),
        );
    }
}

/// Whether two texts are one length, as `4-1/2 in` and `4.5 in` are.
fn is_same_reading(one: &str, other: &str) -> bool {
    let length = |text: &str| Quantity::<Length>::parse(text).map(|read| read.value().mm());
    let both = (length(one), length(other));
    matches!(both, (Ok(one), Ok(other)) if (one - other).abs() < 1e-9)
}

/// The findings with their numbers and limits.
pub(super) fn findings(band: &mut Band, solved: &Solved, system: System) {
    band.heading("Findings");
    for one in solved.findings.iter() {
        finding(band, solved, (one, &one.shown_in(system)), Role::Note);
    }
}

fn finding(band: &mut Band, solved: &Solved, (finding, told): (&Finding, &str), role: Role) {
    let standing = finding.standing_on(solved.document.example_count());
    let told = format!("{}: {told}", finding.title());
    band.item(&format!("{standing}:"), role, &told);
}

/// The steps of the reel's height budget beside the underside's, with the least that is to be left where
/// there is such a limit.
fn budgets(band: &mut Band, solved: &Solved, system: System) {
    const NONE: &str = "–";
    let case = solved.case();
    let budgets = BudgetOf::ALL.map(|part| part.of(&case));
    let told = |budget: &Budget, kind: StepKind| {
        let step = budget.steps.iter().find(|step| step.kind == kind)?;
        Some(match budget.none_of(kind) {
            Some(Looked::NotYet) => Looked::NotYet.word().to_owned(),
            _ => step.shown_in(system),
        })
    };
    let mut kinds: Vec<StepKind> = Vec::new();
    for step in budgets.iter().flat_map(|budget| &budget.steps) {
        if !kinds.contains(&step.kind) {
            kinds.push(step.kind);
        }
    }
    let heads = BudgetOf::ALL.map(|part| {
        // The first word tells them apart, and a part of a column holds no more.
        let title = part.title().to_lowercase();
        title.split(' ').next().unwrap_or_default().to_owned()
    });
    let mut rows: Vec<(&str, [Option<String>; 2])> = Vec::new();
    for kind in kinds {
        let both = budgets.each_ref().map(|budget| told(budget, kind));
        rows.push((kind.name(), both));
    }
    let left = budgets.each_ref().map(Budget::left);
    rows.push((
        "clearance to soil",
        left.map(|left| Some(system.in_column(left))),
    ));
    let least = BudgetOf::ALL.map(|part| part.least(&solved.unit.limits));
    if least.iter().any(Option::is_some) {
        let least = least.map(|least| least.map(|least| system.in_column(least)));
        rows.push(("minimum", least));
    }
    let first = band.blocks.len();
    band.heading("Height budget");
    let [reel, underside] = &heads;
    band.numbers(Role::Note, "", &[reel, underside]);
    for (name, both) in &rows {
        let [reel, underside] = both.each_ref().map(|one| one.as_deref().unwrap_or(NONE));
        band.numbers(Role::Heading, name, &[reel, underside]);
    }
    band.keep_together_from(first);
}
