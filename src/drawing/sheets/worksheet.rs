//! The plate sheet on paper: what was read at the surface plate, what it comes to, and what is still to do.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::sheet::Sheet;
use crate::analysis::Level;
use crate::analysis::plate::{
    Correction, HighEnd, Parallel, PlateResult, RollerResult, StepState, Verdict,
};
use crate::drawing::paper::{Panel, Style, View, lay_out};
use crate::drawing::pictures::{ends_picture, turn_picture};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::plate::{AlongRead, Roller, RollerReadings, Step, Worksheet};
use crate::units::{Length, System, fixed};

/// Part of the page's height that a picture takes.
const PICTURE: f64 = 0.1;

/// The page of a sheet that was filled in for a unit.
#[must_use]
pub fn worksheet(of: SheetOf, sheet: &Worksheet, result: &PlateResult) -> Vec<Sheet> {
    let system = of.system;
    let frame = Frame {
        of,
        title: "Plate sheet",
        verdict: Some(verdict(result)),
        is_lying: false,
    };
    frame.pages(true, |area, style| {
        let mut head = Band::new(2, area, style);
        the_job(&mut head, sheet, result, system);
        let mut rollers = Band::new(2, area, style);
        for roller in Roller::ALL {
            if let (Some(worked_out), Some(read)) =
                (result.roller(roller), result.readings.roller(roller))
            {
                of_roller(&mut rollers, roller, (worked_out, read), area, system);
            }
        }
        let mut last = Band::new(1, area, style);
        cut(&mut last, result, system);
        steps(&mut last, result);
        if !sheet.notes.is_empty() {
            last.heading("Notes on the sheet");
            last.words(Role::Note, &sheet.notes);
        }
        last.blanks(&["Notes"]);
        last.blanks(&["Done by", "Date", "Signature"]);
        vec![head, rollers, last]
    })
}

/// What the sheet comes to in a line: both rollers, the worse of them first told by its level.
fn verdict(result: &PlateResult) -> (Level, String) {
    let of = |roller: Roller| {
        let parallel = result.roller(roller).and_then(|one| one.parallel.as_ref());
        let verdict = parallel.and_then(|parallel| parallel.verdict);
        let (level, told) = match verdict {
            Some(Verdict::Pass) => (Level::Fine, "parallel"),
            Some(Verdict::Fail) => (Level::Over, "not parallel"),
            Some(Verdict::CannotTell) => (Level::Watch, "undecided"),
            None => (Level::Watch, "not judged"),
        };
        (level, format!("{} roller {told}", roller.word()))
    };
    let [(front, front_told), (rear, rear_told)] = Roller::ALL.map(of);
    let told = format!("{front_told}, {rear_told}");
    let mut letters = told.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    (
        front.max(rear),
        first.unwrap_or_default() + letters.as_str(),
    )
}

fn the_job(band: &mut Band, sheet: &Worksheet, result: &PlateResult, system: System) {
    let length = |length: Length| system.length(length);
    let read = &result.readings;
    band.heading("The job");
    for (name, text) in [
        ("Date", &sheet.date),
        ("By", &sheet.by),
        ("Hours", &sheet.hours),
    ] {
        band.row(name, if text.is_empty() { "-" } else { text });
    }
    band.row("Cutting width", &length(read.cut_width));
    if let Some([left, right]) = read.bar {
        let told = format!("{}, {}", length(left.value), length(right.value));
        band.row("Gauge bar, left and right", &told);
    }
    band.heading("Reel and knife");
    band.row(
        "Reel diameter",
        &along(&read.reel, |read| length(read.value)),
    );
    if let Some(taper) = result.reel_taper {
        band.row("Taper, left less right", &length(taper));
    }
    if let Some(barrel) = result.reel_barrel {
        band.row("Barrel, middle over the ends", &length(barrel));
    }
    let gaps = along(&read.knife_to_reel, |read| length(read.gap));
    band.row("Knife to reel", &gaps);
}

/// Left, middle and right.
fn along<T>(read: &AlongRead<T>, told: impl Fn(&T) -> String) -> String {
    let each = [&read.left, &read.middle, &read.right];
    let each = each.map(|one| one.as_ref().map_or_else(|| "-".to_owned(), &told));
    each.join(", ")
}

fn of_roller<'a>(
    band: &mut Band<'a>,
    roller: Roller,
    (worked_out, read): (&'a RollerResult, &'a RollerReadings),
    area: Rect,
    system: System,
) {
    let length = |length: Length| system.length(length);
    band.heading(match roller {
        Roller::Front => "Front roller",
        Roller::Rear => "Rear roller",
    });
    if let Some(parallel) = &worked_out.parallel {
        band.row("Out of parallel", &out(parallel, system));
        if let (Some(within), Some(verdict)) = (parallel.within, parallel.verdict) {
            let told = format!("{}: {}", length(within), verdict.word());
            band.row("Wanted within", &told);
        }
    }
    if let Some(before) = read.out_before {
        band.row("When the work began", &length(before));
    }
    if let (Some(down), Some(side)) = (worked_out.at_adjuster, read.adjust) {
        let name = format!("Move the {} end", side.word());
        band.row(&name, &system.roller_move(-down));
    }
    if let Some(correction) = &worked_out.correction {
        band.row("At the adjuster", &at_adjuster(correction, system));
    }
    for station in &worked_out.runout {
        let circle = &station.circle;
        let level = station
            .level
            .map_or_else(String::new, |level| format!(": {}", level.word()));
        let told = format!(
            "{} read, {} by the circle{level}",
            length(circle.read),
            length(circle.read_by_fit())
        );
        band.row(&format!("Runout, {}", station.station.word()), &told);
    }
    if let Some(bow) = worked_out.bow {
        let told = format!(
            "{} towards {}",
            length(bow.size()),
            system.round_the_turn(bow.direction())
        );
        band.row("Bow", &told);
    }
    let height = PICTURE * area.height();
    let told = format!("The {} roller over the plate, its gaps", roller.word());
    band.picture(&told, height, move |place, style| {
        drawn(&ends_picture(roller, Some(read), system), place, style)
    });
    if !read.runout.is_empty() {
        let told = format!("The {} roller's runout round its turn", roller.word());
        band.picture(&told, height, move |place, style| {
            let scene = turn_picture(&read.runout, &worked_out.runout);
            drawn(&scene, place, style)
        });
    }
}

fn drawn(scene: &Scene, place: Rect, style: Style) -> Vec<Panel> {
    let view = View::fitting(scene.bounds, place);
    vec![lay_out(scene, &view, ShownIn::Whole, style)]
}

fn out(parallel: &Parallel, system: System) -> String {
    let size = Length::from_mm(parallel.out.mm().abs());
    let high = match parallel.high {
        HighEnd::Left => ", left end high",
        HighEnd::Right => ", right end high",
        HighEnd::Level => "",
    };
    format!(
        "{}{high}, U = {}",
        system.length(size),
        system.length(parallel.expanded)
    )
}

fn at_adjuster(correction: &Correction, system: System) -> String {
    match correction {
        Correction::Eccentric {
            turns: Some([near, far]),
            ..
        } => format!(
            "eccentric to {}, or {}",
            system.angle(near.to),
            system.angle(far.to)
        ),
        Correction::Eccentric {
            split: Some(split), ..
        } => format!(
            "out of throw: this end {}, the other {}",
            system.roller_move(split.here),
            system.roller_move(split.there)
        ),
        Correction::Eccentric { .. } => "out of throw".to_owned(),
        Correction::Thread { turns } => format!(
            "{} turns, {} flats, to {} it",
            fixed(turns.abs(), 2),
            fixed(turns.abs() * 6.0, 1),
            if *turns < 0.0 { "lower" } else { "raise" }
        ),
        Correction::Shims(stack) => {
            let pieces = stack.pieces.iter().map(|piece| system.length(*piece));
            let pieces: Vec<_> = pieces.collect();
            if pieces.is_empty() {
                "no shim".to_owned()
            } else {
                format!("shims {}", pieces.join(" + "))
            }
        }
    }
}

fn cut(band: &mut Band, result: &PlateResult, system: System) {
    let length = |length: Length| system.length(length);
    band.heading("Height of cut and attitude, off the bar");
    let height = along(&result.readings.height, |read| length(read.value));
    band.row("Height of cut, left, middle, right", &height);
    if let Some(cut) = &result.cut {
        let told = |value: Length, off: Length| format!("{} ± {}", length(value), length(off));
        let expected = told(cut.right_less_left, cut.expanded);
        band.row("Expected, right less left", &expected);
        if let Some(measured) = cut.measured {
            let agrees = if measured.agrees {
                "as expected"
            } else {
                "not as expected"
            };
            let told = told(measured.right_less_left, measured.expanded);
            band.row("Measured, right less left", &format!("{told}: {agrees}"));
        }
    }
    if let Some([left, right]) = result.readings.attitude {
        let told = format!("{}, {}", system.angle(left), system.angle(right));
        band.row("Attitude, left and right", &told);
    }
}

/// What is not done, with what makes it safe.
fn steps(band: &mut Band, result: &PlateResult) {
    let open = result.order.iter();
    let open = open.filter(|(_, state)| *state != StepState::Done);
    let open: Vec<&(Step, StepState)> = open.collect();
    if open.is_empty() {
        band.words(Role::Heading, "Every step is done.");
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
