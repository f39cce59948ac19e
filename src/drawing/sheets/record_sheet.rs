//! The record sheet: what was done to a unit, how its reel wears and what comes, on a page.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::sheet::Sheet;
use crate::analysis::shop::ShopRow;
use crate::analysis::{DUE_RULE, Job, LeftAlone, WearAhead, WearAlong, due_told, jobs};
use crate::drawing::paper::Style;
use crate::drawing::pictures::wear_plot;
use crate::drawing::scene::Role;
use crate::plate::{Day, Record};
use crate::units::{Length, System};

/// The jobs that a sheet lists, the newest of them: the most of these that still take one page.
const JOBS: [usize; 6] = [48, 36, 27, 20, 15, 11];
/// Part of the page's area that the plot takes.
const PICTURE: f64 = 0.24;

/// The sheet of a solved unit's record.
pub(super) fn record_sheet(of: SheetOf) -> Vec<Sheet> {
    let record = &of.origin.record;
    let jobs = jobs(record, of.system);
    let mut sheets = Vec::new();
    for most in JOBS {
        sheets = sheet_of(of, record, &jobs, most);
        if sheets.len() == 1 {
            break;
        }
    }
    sheets
}

fn sheet_of(of: SheetOf, record: &Record, jobs: &[Job], most: usize) -> Vec<Sheet> {
    let (solved, system) = (of.solved, of.system);
    let frame = Frame {
        of,
        title: "Record",
        verdict: Some(verdict(&solved.findings, solved.document.example_count())),
        is_lying: false,
        read: [""; 2],
    };
    let left_alone = LeftAlone::of(solved);
    let [hours, days] = WearAlong::ALL.map(|along| WearAhead::of(&left_alone, record, along));
    let plotted = if hours.diameters.len() >= days.diameters.len() {
        &hours
    } else {
        &days
    };
    let smallest = solved.unit.smallest_diameter;
    let as_set = as_set_told(&ShopRow::of(String::new(), solved, record), system);
    frame.pages(true, |area, style| {
        let mut plot = Band::new(1, area, style);
        plot.heading("Wear of the reel");
        plot.picture(
            &format!("The reel's diameter over {}", plotted.along.name()),
            PICTURE * area.height(),
            move |place: Rect, style: Style| wear_plot(plotted, smallest, place, system, style),
        );
        let mut comes = Band::new(2, area, style);
        for ahead in [&hours, &days] {
            comes.heading(&format!("Left alone, by {}", ahead.along.name()));
            comes.words(Role::Heading, &ahead.rate_told(system));
            for limit in &ahead.limits {
                comes.words(Role::Note, &ahead.limit_told(limit, system, Day::today()));
            }
        }
        let mut next = Band::new(1, area, style);
        next.words(Role::Note, &as_set);
        next.words(Role::Heading, &due_told(&hours.due, Day::today()));
        next.words(Role::Note, DUE_RULE);
        let mut done = Band::new(2, area, style);
        done.heading("What was done, the newest first");
        for job in jobs.iter().rev().take(most) {
            job_lines(&mut done, job);
        }
        if jobs.is_empty() {
            done.words(Role::Note, "No event is written down yet.");
        }
        if let Some(older) = jobs.len().checked_sub(most).filter(|older| *older > 0) {
            let told = format!("And {older} older ones, in the record's file.");
            done.words(Role::Note, &told);
        }
        if !record.damaged.is_empty() {
            let told = format!(
                "{} damaged lines of the record's file are left out.",
                record.damaged.len()
            );
            done.words(Role::Heading, &told);
        }
        vec![plot, comes, next, done]
    })
}

/// How the unit is set and what its record holds: the numbers of the shop board.
fn as_set_told(row: &ShopRow, system: System) -> String {
    let length = |length: Length| system.length(length);
    let sweep = row
        .sweep_share
        .map_or_else(|| "not known".to_owned(), |share| system.share(share));
    let events = match (row.entries, row.last) {
        (0, _) => "No event on record".to_owned(),
        (1, None) => "1 event on record".to_owned(),
        (count, None) => format!("{count} events on record"),
        (1, Some(last)) => format!("1 event on record, on {last}"),
        (count, Some(last)) => format!("{count} events on record, the last on {last}"),
    };
    format!(
        "As set: height of cut {}, behind centre {}, sweep {sweep} of height of cut, reel diameter {} ({} left to its minimum). {events}.",
        length(row.height_of_cut),
        length(row.behind_centre),
        length(row.reel_diameter),
        length(row.reel_diameter - row.smallest_diameter),
    )
}

fn job_lines(band: &mut Band, job: &Job) {
    let first = band.blocks.len();
    band.words(Role::Heading, &job.head());
    if !job.facts.is_empty() {
        let facts: Vec<String> = job.facts.iter().map(crate::analysis::Fact::told).collect();
        band.words(Role::Note, &facts.join("; "));
    }
    // What was done keeps to its day.
    band.keep_together_from(first);
    for part in parts(&job.notes) {
        band.words(Role::Note, &part);
    }
}

/// The most letters of a paragraph.
const PARAGRAPH: usize = 600;

/// Long notes in paragraphs, each of whole words, so that none of them is cut short.
fn parts(notes: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for word in notes.split_whitespace() {
        match parts.last_mut() {
            Some(part) if part.chars().count() + word.chars().count() < PARAGRAPH => {
                part.push(' ');
                part.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}
