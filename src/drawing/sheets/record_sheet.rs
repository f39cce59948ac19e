//! The record sheet: what was done to a unit, how its reel wears and what comes, on a page.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::plate_sheet::verdict;
use super::sheet::Sheet;
use crate::analysis::{DUE_RULE, Job, LeftAlone, WearAhead, WearAlong, due_told, jobs};
use crate::drawing::paper::Style;
use crate::drawing::pictures::wear_plot;
use crate::drawing::scene::Role;
use crate::plate::{Day, Record};

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

fn job_lines(band: &mut Band, job: &Job) {
    band.words(Role::Heading, &job.head());
    if !job.facts.is_empty() {
        let facts: Vec<String> = job.facts.iter().map(crate::analysis::Fact::told).collect();
        band.words(Role::Note, &facts.join("; "));
    }
    if !job.notes.is_empty() {
        band.words(Role::Note, &job.notes);
    }
}
