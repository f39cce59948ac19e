//! The setting sheet: one page to set a unit by, pinned over the bench.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::setting_steps::setting_steps;
use super::sheet::Sheet;
use crate::analysis::knives::window_text;
use crate::analysis::why::{Budget, BudgetOf};
use crate::analysis::{Acceptance, Level, NumberId, Solved};
use crate::drawing::paper::{Panel, Style};
use crate::drawing::pictures::{Canvas, Lens, LensChoice, SideView};
use crate::drawing::scene::Role;
use crate::unit::{Document, Field, Fitted, Looked, Reading};
use crate::units::{Length, System};

/// Points of the hardware that are listed one by one.
const MOST_HARDWARE: usize = 3;
/// Part of the page's area that drawing and lens take, and the most that they take of a page with room.
const PICTURE: f64 = 0.24;
const LARGEST_PICTURE: f64 = 0.4;

/// The smallest part of the words' usual size that gives way to a larger drawing.
const READABLE: f64 = 0.74;

/// The sheet of a solved unit.
pub(super) fn setting_sheet(of: SheetOf) -> Vec<Sheet> {
    let solved = of.solved;
    let frame = Frame {
        of,
        title: "Setting sheet",
        verdict: Some(verdict(&solved.findings, solved.document.example_count())),
        is_lying: false,
    };
    // What takes work is worked out once, however often the page is laid out.
    let warned = warning(solved, of.system);
    let accepted = Acceptance::of(&solved.case());
    let steps = setting_steps(solved, of.system);
    let bands = |part: f64, area: Rect, style, left: f64| {
        let mut picture = Band::new(1, area, style);
        picture.picture(
            "The unit from the side, to scale, and its clip point enlarged",
            (part * area.height() + left).min(LARGEST_PICTURE * area.height()),
            move |place, style| side_and_lens(solved, of.system, place, style),
        );
        let mut band = Band::new(2, area, style);
        wanted(&mut band, solved, of.system);
        if let Some(told) = &warned {
            band.heading("Do not set or run the unit like this");
            band.item("!", Role::Heading, told);
            band.heading("What this setting would take, in order");
        } else {
            band.heading("What to do, in order");
        }
        for (number, step) in (1..).zip(&steps) {
            band.item(&format!("{number}."), Role::Note, step);
        }
        findings(&mut band, solved, of.system);
        let mut rows = Band::new(3, area, style);
        measured(&mut rows, &solved.document, of.system);
        for part in BudgetOf::ALL {
            let least = part.least(&solved.unit.limits);
            budget(
                &mut rows,
                (part, least),
                &part.of(&solved.case()),
                of.system,
            );
        }
        let mut last = Band::new(1, area, style);
        measured_after(&mut last, solved, &accepted, of.system);
        last.blanks(&["Notes"]);
        last.blanks(&["Set by", "Date", "Signature"]);
        vec![picture, band, rows, last]
    };
    // As high as the scale needs that the page's width allows, where the words stay readable beside it.
    let area = frame.area();
    let needed = paper_for_whole(solved, of.system, area.width()) / area.height();
    let size_with = |part| frame.size_on_one_page(|area, style| bands(part, area, style, 0.0));
    let is_larger = (PICTURE..LARGEST_PICTURE).contains(&needed)
        && size_with(needed).is_some_and(|size| size >= READABLE);
    let part = if is_larger { needed } else { PICTURE };
    frame.filled_pages(true, |area, style, left| bands(part, area, style, left))
}

/// What is read again once the unit is set, at both ends, beside what is accepted; an acceptance that
/// no limit gives is left to be written in.
fn measured_after(band: &mut Band, solved: &Solved, accepted: &Acceptance, system: System) {
    const PARTS: [f64; 5] = [0.15, 0.12, 0.37, 0.18, 0.18];
    let row = |texts: [&str; 5]| -> Vec<(f64, String)> {
        let texts = texts.into_iter().map(str::to_owned);
        PARTS.into_iter().zip(texts).collect()
    };
    let (solution, setting) = (&solved.solution, &solved.unit.setting);
    let attitude: Vec<String> = accepted
        .attitude
        .iter()
        .map(|window| window_text(window, system))
        .collect();
    let attitude = match &attitude[..] {
        [] => "none holds every limit".to_owned(),
        ranges => ranges.join(" or "),
    };
    let least = system.length(accepted.behind_centre_least);
    let behind = accepted.behind_centre_most.map_or_else(
        || format!("{least} at least"),
        |most| format!("{least} to {}, over limit past these", system.length(most)),
    );
    let gap = format!(
        "{} at most, at both ends and the middle",
        system.length(accepted.gap_most)
    );
    band.heading("Measured after, on the surface plate");
    let heads = row(["", "set to", "accept", "left", "right"]);
    let heads: Vec<(f64, &str)> = heads
        .iter()
        .map(|(part, text)| (*part, text.as_str()))
        .collect();
    band.column_heads(&heads);
    let rows = [
        (
            "Height of cut",
            system.length(solution.pose.height_of_cut),
            "",
        ),
        (
            "Attitude",
            system.angle(solution.pose.attitude),
            attitude.as_str(),
        ),
        (
            "Behind centre",
            system.length(solution.sweep.behind_centre),
            &behind,
        ),
        ("Gap", system.length(setting.gap), &gap),
    ];
    for (name, set_to, accept) in &rows {
        let cells = row([name, set_to, accept, "", ""]);
        let cells: Vec<(f64, &str)> = cells
            .iter()
            .map(|(part, text)| (*part, text.as_str()))
            .collect();
        band.entries(&cells);
    }
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
fn warning(solved: &Solved, system: System) -> Option<String> {
    let worst = solved.findings.most_urgent();
    let worst = worst.filter(|worst| worst.level == Level::Over)?;
    Some(format!("{}: {}", worst.title(), solved.told(worst, system)))
}

fn wanted(band: &mut Band, solved: &Solved, system: System) {
    const SET: [NumberId; 5] = [
        NumberId::ReelDiameter,
        NumberId::HeightOfCut,
        NumberId::Attitude,
        NumberId::Gap,
        NumberId::Extension,
    ];
    let numbers = solved.solution.numbers();
    let mut rows = |heading: &str, ids: &mut dyn Iterator<Item = NumberId>| {
        band.heading(heading);
        for id in ids {
            if let Some(shown) = numbers.shown(id, system) {
                band.row(id.title(), &shown);
            }
        }
    };
    rows("Setting wanted", &mut SET.into_iter());
    let others = NumberId::KEY.into_iter().filter(|id| !SET.contains(id));
    rows("What comes of it", &mut others.into_iter());
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

/// The findings with their numbers and limits.
pub(super) fn findings(band: &mut Band, solved: &Solved, system: System) {
    band.heading("Findings");
    let examples = solved.document.example_count();
    for finding in solved.findings.iter() {
        let standing = finding.standing_on(examples);
        let told = format!("{}: {}", finding.title(), finding.shown_in(system));
        band.item(&format!("{standing}:"), Role::Note, &told);
    }
}

/// The steps of a height budget, with the least that is to be left where there is such a limit.
fn budget(
    band: &mut Band,
    (part, least): (BudgetOf, Option<Length>),
    budget: &Budget,
    system: System,
) {
    // The first word tells them apart, and a third of the page holds no more.
    let title = part.title().to_lowercase();
    let title = title.split(' ').next().unwrap_or_default();
    band.heading(&format!("Height budget: {title}"));
    for step in &budget.steps {
        let shown = match budget.none_of(step.kind) {
            Some(Looked::NotYet) => Looked::NotYet.word().to_owned(),
            _ => step.shown_in(system),
        };
        band.row(step.kind.name(), &shown);
    }
    band.row("clearance to soil", &system.in_column(budget.left()));
    if let Some(least) = least {
        band.row("minimum", &system.in_column(least));
    }
}
