//! The command line: numbers and pictures without a window.
//!
//! What belongs here: reports and pictures, and doing the commands that ask for them. It imports
//! every room but `app`.

mod knives;
mod lesson;
mod plate;
mod plate_text;
mod reel_diameter;
mod report;
mod sheet;
mod shop;
mod why;
mod why_report;

pub use knives::{Printed, knives};
pub use lesson::{check_lesson, write_handout};
pub use plate::plate;
pub use reel_diameter::{ReelRead, reel_diameter};
pub use report::{Report, table};
pub use sheet::sheet;
pub use shop::shop;
pub use why::{Asked, finding_named, why};

use std::path::Path;
use std::sync::Arc;

use crate::analysis::Solved;
use crate::analysis::why::Goal;
use crate::command::{HeadlessCommand, Printout, Problem, WhatIf, given_length, terminal};
use crate::drawing::{
    Complained, PictureView, STILL, SideBySide, Standing, Theme, side_by_side_sheet,
};
use crate::printing::{
    PictureAsked, Resolution, SheetAsked, write_moving_picture, write_picture, write_sheet,
};
use crate::store;
use crate::unit::Document;

/// Tells on standard error what cannot be true in a unit, so that what is printed keeps its shape.
fn tell_doubts(file: &Path, document: &Document) {
    for (field, why) in document.doubts(document.system()) {
        let told = format!("{}: note: field {field}: {why}", file.display());
        terminal::tell(&told);
    }
}

/// Reads a unit file and solves it as it is.
fn solved_as_is(file: &Path) -> Result<Solved, Problem> {
    let document = store::open_unit(file)?;
    tell_doubts(file, &document);
    Solved::of_shared(Arc::new(document)).map_err(|error| Problem::unsolved(Some(file), error))
}

/// Reads a unit file and solves it with a what-if.
fn solved_from(file: &Path, what_if: &WhatIf) -> Result<Solved, Problem> {
    let unsolved = |error| Problem::unsolved(Some(file), error);
    let mut document = store::open_unit(file)?;
    what_if.apply(&mut document)?.map_err(unsolved)?;
    tell_doubts(file, &document);
    Solved::of_shared(Arc::new(document)).map_err(unsolved)
}

/// A plate sheet worked out for the unit beside it.
fn plate_of(file: &Path, is_json: bool) -> Result<String, Problem> {
    let sheet = store::open_sheet(file)?;
    let named = sheet.checked()?.unit;
    let unit_file = named.map(|name| store::unit_beside(file, &name));
    let unit = unit_file.as_deref().map(solved_as_is).transpose()?;
    plate(&sheet, unit.as_ref(), is_json)
}

/// A unit's report.
fn report_of(solved: &Solved, is_json: bool) -> String {
    if is_json {
        Report::of(solved).to_json()
    } else {
        table(solved)
    }
}

/// A unit's knives, as they are printed.
fn knives_of(solved: &Solved, printed: Printed) -> Result<Printout, Problem> {
    let text = knives(solved, printed)?;
    Ok(if printed == Printed::Csv {
        Printout::Rows(text)
    } else {
        Printout::Text(text)
    })
}

/// Two units to be drawn side by side; the same file twice is one unit as it is tried and as it is set.
fn pair_of<'a>(units: [&'a Solved; 2], files: [&Path; 2], asked: &PictureAsked) -> SideBySide<'a> {
    let [unit, beside] = units;
    let (units, names) = if files[0] == files[1] {
        let names = ["As set in the file", "As tried"].map(str::to_owned);
        ([beside, unit], names)
    } else {
        (units, units.map(|unit| unit.document.name.clone()))
    };
    SideBySide {
        units,
        names,
        view: asked.view.unwrap_or(PictureView::Whole),
        system: asked.system,
        clips: STILL,
    }
}

/// What a unit is drawn standing on.
fn standing_of(is_on_turf: bool, is_on_crest: bool) -> Standing {
    match (is_on_turf, is_on_crest) {
        (_, true) => Standing::Crest,
        (true, false) => Standing::Turf,
        (false, false) => Standing::Plate,
    }
}

/// Runs a command that needs no window and gives what it prints.
///
/// # Errors
/// When the command cannot be done; the problem knows its exit code.
#[expect(
    clippy::too_many_lines,
    reason = "one command after the other, each with its words"
)]
pub fn run(command: &HeadlessCommand) -> Result<Printout, Problem> {
    match command {
        HeadlessCommand::Report {
            file,
            json,
            what_if,
        } => {
            let solved = solved_from(file, what_if)?;
            Ok(Printout::Text(report_of(&solved, *json)))
        }
        HeadlessCommand::ReelDiameter {
            blades,
            tips,
            over_bars,
            bars,
            tape,
            thickness,
            diameter_tape,
            json,
        } => {
            let read = ReelRead {
                tips: tips.as_deref(),
                over_bars: over_bars.as_deref(),
                bars: bars.as_deref(),
                tape: tape.as_deref(),
                thickness: thickness.as_deref(),
                diameter_tape: diameter_tape.as_deref(),
            };
            reel_diameter(*blades, read, *json).map(Printout::Text)
        }
        HeadlessCommand::Lesson {
            file,
            check: _,
            presenter: _,
            json,
            handout,
            page,
        } => {
            match handout {
                Some(out) => write_handout(file, out, page.unwrap_or_default())?,
                None => check_lesson(file, *json)?,
            }
            Ok(Printout::Text(String::new()))
        }
        HeadlessCommand::Shop { folder, json } => shop(folder, *json).map(Printout::Text),
        HeadlessCommand::Plate { sheet, json } => plate_of(sheet, *json).map(Printout::Text),
        HeadlessCommand::Sheet {
            file,
            out,
            kind,
            page,
            complaint,
            spacing,
            what_if,
        } => {
            let complained = Complained {
                complaint: *complaint,
                spacing: given_length("spacing", spacing.as_ref())?,
            };
            let (kind, page) = (*kind, *page);
            let asked = SheetAsked {
                kind,
                page,
                complained,
            };
            sheet(file, out, &asked, what_if).map(Printout::Text)
        }
        HeadlessCommand::Picture {
            file,
            out,
            view,
            beside,
            page,
            width,
            dpi,
            frames,
            clear,
            dark,
            turf,
            crest,
            what_if,
        } => {
            if page.is_some() && view.is_some() && beside.is_none() {
                let what = "a single view has no page: leave out --page or --view";
                return Err(Problem::Reading {
                    option: "page",
                    what: what.to_owned(),
                });
            }
            if page.is_some() && frames.is_some() {
                let what = "a moving picture has no page: leave out --page or --frames";
                return Err(Problem::Reading {
                    option: "page",
                    what: what.to_owned(),
                });
            }
            let solved = solved_from(file, what_if)?;
            let asked = PictureAsked {
                view: *view,
                page: page.unwrap_or_default(),
                resolution: Resolution::of(*width, *dpi),
                is_clear: *clear,
                theme: if *dark { Theme::Dark } else { Theme::Light },
                standing: standing_of(*turf, *crest),
                system: solved.unit.system,
            };
            let beside = beside.as_deref();
            let other = beside.map(solved_as_is).transpose()?;
            let pair = beside.zip(other.as_ref());
            let pair = pair.map(|(named, other)| pair_of([&solved, other], [file, named], &asked));
            match (frames, &pair) {
                (Some(count), None) => write_moving_picture(&solved, out, &asked, *count)?,
                (Some(count), Some(pair)) => write_moving_picture(pair, out, &asked, *count)?,
                (None, None) => write_picture(&solved, out, &asked)?,
                (None, Some(pair)) => {
                    write_sheet(out, &asked, || side_by_side_sheet(pair, asked.theme, *page))?;
                }
            }
            Ok(Printout::Text(String::new()))
        }
        HeadlessCommand::Why {
            file,
            json,
            finding,
            complaint,
            spacing,
            to_over,
            what_if,
        } => {
            let solved = solved_from(file, what_if)?;
            let finding = finding
                .as_ref()
                .map(|name| finding_named(&solved.case(), name))
                .transpose()?;
            let asked = Asked {
                finding,
                goal: if *to_over { Goal::NotOver } else { Goal::Fine },
                complaint: *complaint,
                spacing: given_length("spacing", spacing.as_ref())?,
                is_json: *json,
            };
            Ok(Printout::Text(why(&solved, asked)))
        }
        HeadlessCommand::Knives {
            file,
            json,
            csv,
            what_if,
        } => {
            let printed = match (json, csv) {
                (true, _) => Printed::Json,
                (false, true) => Printed::Csv,
                (false, false) => Printed::Plain,
            };
            knives_of(&solved_from(file, what_if)?, printed)
        }
    }
}
