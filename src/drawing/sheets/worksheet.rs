//! The plate sheet on paper: what was read at the surface plate, what it comes to, and what is still to do.

use kurbo::Rect;

use super::as_read::as_read;
use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::sheet::Sheet;
use crate::analysis::Level;
use crate::analysis::plate::{PlateResult, PlateRow, Reread, RollerResult, StepState, Verdict};
use crate::drawing::paper::{Panel, Style, View, lay_out};
use crate::drawing::pictures::{ends_picture, turn_picture};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::plate::{AlongRead, Roller, Station, Step, ThreeEntry, Worksheet};
use crate::units::{Length, Quantity, System};

/// Said where nobody read anything.
const NOT_READ: &str = "not read";

/// Parts of the page's height that the picture of a roller's ends takes, and that of its turn.
const ENDS: f64 = 0.08;
const TURN: f64 = 0.14;

/// The page of a sheet that was filled in for a unit.
#[must_use]
pub fn worksheet(of: SheetOf, sheet: &Worksheet, result: &PlateResult) -> Vec<Sheet> {
    let system = of.system;
    let frame = Frame {
        of,
        title: "Plate sheet",
        verdict: Some(verdict(result)),
        is_lying: false,
        read: [&sheet.date, &sheet.by],
    };
    frame.pages(true, |area, style| {
        let mut head = Band::new(2, area, style);
        the_job(&mut head, sheet, result, system);
        let mut rollers = Band::new(2, area, style);
        for roller in Roller::ALL {
            of_roller(&mut rollers, (roller, sheet), result, area, system);
        }
        let mut last = Band::new(1, area, style);
        cut(&mut last, sheet, result, system);
        steps(&mut last, result);
        if !sheet.notes.is_empty() {
            last.heading("Notes on the sheet");
            last.words(Role::Note, &sheet.notes);
        }
        last.blanks(&["Notes"]);
        let asked = [("Done by", &sheet.by), ("Date", &sheet.date)];
        let mut open: Vec<&str> = asked
            .into_iter()
            .filter(|(_, typed)| typed.is_empty())
            .map(|(name, _)| name)
            .collect();
        open.push("Signature");
        last.blanks(&open);
        vec![head, rollers, last]
    })
}

/// What the sheet comes to in a line: both rollers, the worse of them first told by its level.
fn verdict(result: &PlateResult) -> (Level, String) {
    let of = |roller: Roller| {
        let result = result.roller(roller);
        let (level, told) = match result.and_then(RollerResult::sure_verdict) {
            _ if result.is_some_and(|result| result.again == Some(Reread::FrontFirst)) => {
                (Level::Watch, "to be read again")
            }
            Some(Verdict::Pass) => (Level::Fine, "parallel"),
            Some(Verdict::Fail) => (Level::Over, "not parallel"),
            Some(Verdict::CannotTell) => (Level::Watch, "undecided"),
            None => (Level::Watch, "not judged"),
        };
        (level, format!("{} roller {told}", roller.word()))
    };
    let [(front, front_told), (rear, rear_told)] = Roller::ALL.map(of);
    let level = front.max(rear);
    let told = capitalised(&format!("{front_told}, {rear_told}"));
    // The large tick stands for a sheet on which all is OK, and not for the rollers alone.
    match but(result).filter(|_| level == Level::Fine) {
        Some((level, but)) => (level, format!("{told}, but: {but}")),
        None => (level, told),
    }
}

/// What else is not OK, or still to do, with the worst of it; none where all is done and OK.
fn but(result: &PlateResult) -> Option<(Level, String)> {
    let marked: Vec<_> = result.done_and_not_fine().collect();
    let worst = marked.iter().map(|(_, level)| *level).max();
    let told = |(step, level): (Step, Level)| {
        format!("{} {}", step.title(), result.result_word(step, level))
    };
    let mut told: Vec<String> = marked.into_iter().map(told).collect();
    let open = result.order.iter();
    match open.filter(|(_, state)| *state != StepState::Done).count() {
        0 => {}
        1 => told.push("1 step still to do".to_owned()),
        some => told.push(format!("{some} steps still to do")),
    }
    let level = worst.unwrap_or(Level::Watch).max(Level::Watch);
    (!told.is_empty()).then(|| (level, told.join(", ")))
}

fn the_job(band: &mut Band, sheet: &Worksheet, result: &PlateResult, system: System) {
    let length = |length: Length| system.length(length);
    let read = &result.readings;
    band.heading("The job");
    // Its date, and who did it, stand in the head of the page.
    let hours = &sheet.hours;
    band.row(
        "Hours",
        if hours.is_empty() {
            "not written down"
        } else {
            hours
        },
    );
    band.row("Cutting width", &length(read.cut_width));
    if let (Some([left, right]), Some(bar)) = (read.bar, &sheet.bar) {
        let told = [&bar.left, &bar.right].map(|end| end.shown_in(system));
        band.row("Gauge bar, left and right", &told.join(", "));
        let apart = length(right.value - left.value);
        band.row("Right minus left, taken out of the gaps", &apart);
    }
    if let Some(flat) = &sheet.plate_flat_within {
        band.row("Plate flat within", flat.text());
    }
    for step in [Step::Bearings, Step::RockTest] {
        if let Some((_, state)) = result.order.iter().find(|(of, _)| *of == step) {
            band.row(&capitalised(step.title()), state.words());
        }
    }
    band.heading("Reel and knife");
    band.row("Reel diameter", &typed(sheet.reel.as_ref(), system));
    rows(band, &result.reel_rows(system));
    let gaps = along(&read.knife_to_reel, |read| length(read.gap));
    band.row("Knife to reel", &gaps);
    rows(band, &result.knife_rows(system));
}

/// Left, middle and right as they were typed.
fn typed(read: Option<&ThreeEntry<Quantity<Length>>>, system: System) -> String {
    let Some(read) = read else {
        return NOT_READ.to_owned();
    };
    let each = Station::ALL.map(|station| read.at(station));
    let each = each.map(|one| one.map_or_else(|| "-".to_owned(), |one| one.shown_in(system)));
    each.join(", ")
}

/// Left, middle and right.
fn along<T>(read: &AlongRead<T>, told: impl Fn(&T) -> String) -> String {
    if !read.is_read() {
        return NOT_READ.to_owned();
    }
    let each = [&read.left, &read.middle, &read.right];
    let each = each.map(|one| one.as_ref().map_or_else(|| "-".to_owned(), &told));
    each.join(", ")
}

fn of_roller<'a>(
    band: &mut Band<'a>,
    (roller, sheet): (Roller, &Worksheet),
    result: &'a PlateResult,
    area: Rect,
    system: System,
) {
    let both = result.roller(roller).zip(result.readings.roller(roller));
    let Some((worked_out, read)) = both else {
        return;
    };
    band.heading(roller.title());
    if let Some(entry) = sheet.roller(roller) {
        as_read(band, entry);
    }
    rows(band, &result.roller_rows(roller, system));
    let told = format!("The {} roller over the plate, its gaps", roller.word());
    band.picture(&told, ENDS * area.height(), move |place, style| {
        drawn(&ends_picture(Some(read), system), place, style)
    });
    if !read.runout.is_empty() {
        let told = format!("The {} roller's runout round its turn", roller.word());
        band.picture(&told, TURN * area.height(), move |place, style| {
            let scene = turn_picture(&read.runout, &worked_out.runout);
            drawn(&scene, place, style)
        });
    }
}

fn drawn(scene: &Scene, place: Rect, style: Style) -> Vec<Panel> {
    let view = View::fitting(scene.bounds, place);
    vec![lay_out(scene, &view, ShownIn::Whole, style)]
}

/// Rows of the sheet's numbers; a sentence stands under what it goes with.
fn rows(band: &mut Band, rows: &[PlateRow]) {
    for row in rows {
        if row.name.is_empty() {
            band.words(Role::Note, &row.told);
        } else {
            band.row(&capitalised(&row.name), &row.told);
        }
    }
}

/// A name as it begins a line.
fn capitalised(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

fn cut(band: &mut Band, sheet: &Worksheet, result: &PlateResult, system: System) {
    band.heading("Height of cut and attitude, off the bar");
    let height = typed(sheet.height.as_ref(), system);
    band.row("Height of cut, left, middle, right", &height);
    if let Some(attitude) = &sheet.attitude {
        let told = [&attitude.left, &attitude.right].map(|end| end.shown_in(system));
        band.row("Attitude, left and right", &told.join(", "));
    }
    let expected = result.cut_rows(system);
    if !expected.is_empty() {
        band.heading("To expect with the rollers as they are");
        rows(band, &expected);
    }
}

/// What is not done, with what makes it safe.
fn steps(band: &mut Band, result: &PlateResult) {
    let open = result.order.iter();
    let open = open.filter(|(_, state)| *state != StepState::Done);
    let open: Vec<&(Step, StepState)> = open.collect();
    let marked = result.done_and_not_fine();
    let marked: Vec<_> = marked
        .map(|(step, level)| format!("{}, {}", step.title(), result.result_word(step, level)))
        .collect();
    let all = if open.is_empty() {
        "Every step is done"
    } else {
        "Done"
    };
    if !marked.is_empty() {
        let told = format!("{all}, not OK: {}.", marked.join("; "));
        band.words(Role::Heading, &told);
    } else if open.is_empty() {
        band.words(Role::Heading, "Every step is done.");
    }
    if open.is_empty() {
        return;
    }
    band.heading("Still to do");
    let mut told: Vec<&str> = Vec::new();
    for (step, state) in open {
        let caution = step.caution().filter(|caution| !told.contains(caution));
        told.extend(caution);
        let caution = caution.map_or_else(String::new, |caution| format!(" {caution}"));
        let text = format!(
            "{}, {}: {}{caution}",
            step.title(),
            state.words(),
            step.what_to_do()
        );
        band.item("–", Role::Note, &text);
    }
}
