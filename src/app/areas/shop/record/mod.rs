//! The record of the open unit: what was done to it, how its reel wears, and what comes.

mod event_card;
mod timeline;
mod wear;

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use egui::{Button, Label, Panel, Ui};

use self::event_card::{Drafts, EventCard};
use self::timeline::{Pressed, timeline_ui};
use self::wear::Wear;
use super::fresh::Fresh;
use crate::analysis::{Fact, Job, LeftAlone, Solved, SolvedId, job_units, jobs};
use crate::app::desk::{Beside, Desk, OtherUnit, Side, ToPrint};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::command::damage_told;
use crate::drawing::SheetKind;
use crate::plate::Record;
use crate::printing::rows_to_paste;
use crate::store::{open_record, record_beside};
use crate::unit::Document;
use crate::units::System;

/// Wear stands beside the timeline where each gets at least this; else under it.
const LEAST_WIDTH: f32 = 430.0;

/// The unit before and after each job; none where it is not known.
type JobUnits = Rc<Vec<Option<[Document; 2]>>>;

/// What the record's part of the area remembers.
#[derive(Default)]
pub struct RecordView {
    /// The record of the unit whose file this is.
    of: Option<(PathBuf, Fresh<Record>)>,
    jobs: Kept<(u64, System), Rc<Vec<Job>>>,
    /// The unit before and after each job, by the reading of the record and the document.
    units: Kept<(u64, u64), JobUnits>,
    left_alone: Kept<SolvedId, LeftAlone>,
    wear: Wear,
    drafts: Drafts,
}

impl RecordView {
    /// Everything of it.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        self.follow_unit(ui, desk);
        let Some((_, fresh)) = &self.of else {
            no_file_ui(ui);
            return;
        };
        let reading = fresh.number();
        let Some(read) = fresh.read().cloned() else {
            ui.label("Reading the record…");
            caution_in_short_ui(ui);
            return;
        };
        let record = match &*read {
            Ok(record) => record,
            Err(why) => {
                ui.label(Lettering::Headline.of("The record cannot be read"));
                ui.add(Label::new(why).wrap());
                ui.label("The file is left as it is. Correct it in an editor, or move it away to begin a new one.");
                ui.add_space(16.0);
                caution_in_short_ui(ui);
                return;
            }
        };
        self.heading_ui(ui, desk, record);
        let system = desk.system();
        let made = |_: &_| Rc::new(jobs(record, system));
        let jobs = Rc::clone(self.jobs.get((reading, system), made));
        let wear_ui = |view: &mut Self, ui: &mut Ui, desk: &Desk| match desk.good().cloned() {
            Some(good) => view.wear_ui(ui, desk, &good, (record, reading)),
            None => {
                ui.label("No forecast: this unit cannot be drawn yet.");
            }
        };
        let room = ui.available_size();
        if room.x > 2.0 * LEAST_WIDTH {
            Panel::right("record wear")
                .default_size(0.5 * room.x)
                .size_range(LEAST_WIDTH..=(room.x - LEAST_WIDTH))
                .resizable(true)
                .show(ui, |ui| wear_ui(self, ui, desk));
        } else {
            Panel::bottom("record wear below")
                .default_size((0.55 * room.y).max(180.0))
                .size_range(120.0..=(room.y - 80.0).max(121.0))
                .resizable(true)
                .show(ui, |ui| wear_ui(self, ui, desk));
        }
        // Every change of the document is one solve more.
        let key = (reading, desk.session().solves());
        let made = |_: &_| Rc::new(job_units(record, desk.document()));
        let units = self.units.get(key, made);
        let units = Rc::clone(units);
        let has_units = |place: usize| units.get(place).is_some_and(Option::is_some);
        let pressed = timeline_ui(ui, &jobs, has_units);
        match pressed {
            Some(Pressed::Correct(place)) if !desk.is_asking() => {
                let entry = jobs.get(place).and_then(|job| {
                    let entry = record.entries.get(job.place)?;
                    Some((job.place, entry))
                });
                if let Some(entry) = entry {
                    desk.open_card(EventCard::correcting(desk, entry, &self.drafts));
                }
            }
            Some(Pressed::BeforeAndAfter(place)) => {
                if let Some(Some(pair)) = units.get(place) {
                    show_beside(desk, &jobs[place], pair);
                }
            }
            Some(Pressed::Correct(_)) | None => {}
        }
    }

    /// The record's events for a spreadsheet, the newest first.
    pub fn table_to_paste(&self, desk: &Desk) -> Result<String, String> {
        let file = desk.session().file();
        let of = self.of.as_ref();
        let Some((_, fresh)) = of.filter(|(of, _)| Some(of.as_path()) == file) else {
            return Err("This unit has no record yet.".to_owned());
        };
        let record = match fresh.read().map(AsRef::as_ref) {
            None => return Err("The record is still being read.".to_owned()),
            Some(Err(why)) => return Err(why.clone()),
            Some(Ok(record)) => record,
        };
        if record.entries.is_empty() {
            return Err("The record is empty: there is no entry to copy.".to_owned());
        }
        let heads = ["date", "hours", "event", "by", "before and after", "notes"];
        let mut rows = vec![heads.map(str::to_owned).to_vec()];
        for job in jobs(record, desk.system()).into_iter().rev() {
            let facts: Vec<String> = job.facts.iter().map(Fact::told).collect();
            let facts = facts.join("; ");
            rows.push(vec![
                job.date, job.hours, job.what, job.by, facts, job.notes,
            ]);
        }
        rows_to_paste(&rows).map_err(|problem| problem.to_string())
    }

    /// Looks after the record of the unit in front.
    fn follow_unit(&mut self, ui: &Ui, desk: &Desk) {
        let file = desk.session().file();
        let had = self.of.as_ref().map(|(of, _)| of.as_path());
        if had != file {
            self.of = file.map(|file| {
                let record = record_beside(file);
                let folder = file
                    .parent()
                    .filter(|folder| !folder.as_os_str().is_empty());
                let folder = folder.unwrap_or(Path::new("."));
                let read_it =
                    |file: &Path| open_record(file).map_err(|problem| problem.to_string());
                (
                    file.to_owned(),
                    Fresh::open(&record, folder, ui.ctx(), read_it),
                )
            });
        }
        if let Some((_, fresh)) = &mut self.of {
            fresh.look(ui.ctx());
        }
    }

    fn heading_ui(&mut self, ui: &mut Ui, desk: &mut Desk, record: &Record) {
        ui.add(Label::new(Lettering::Headline.of(in_short(record))).wrap());
        if let Some(told) = damage_told(record) {
            ui.add(Label::new(told).wrap());
        }
        let unwatched = self
            .of
            .as_ref()
            .and_then(|(_, fresh)| fresh.why_not_watched())
            .map(str::to_owned);
        if let Some(why) = &unwatched {
            ui.label(format!(
                "The folder is not watched ({why}): press Read again after the record has changed elsewhere."
            ));
        }
        ui.horizontal_wrapped(|ui| {
            let add = ui.add_enabled(!desk.is_asking(), Button::new("Add an event…"));
            if add.clicked() {
                let last = record.entries.last();
                let card = EventCard::for_unit(desk, last, &self.drafts);
                desk.open_card(card);
            }
            if ui.button("Print or save the record…").clicked() {
                desk.want_sheet(ToPrint::Unit(SheetKind::Record));
            }
            if unwatched.is_some()
                && let Some((_, fresh)) = &mut self.of
                && ui.button("Read again").clicked()
            {
                fresh.refresh(ui.ctx());
            }
            if let Some((_, fresh)) = &self.of {
                let file = fresh.path().file_name().unwrap_or_default();
                let told = format!("Kept in {}", file.to_string_lossy());
                ui.label(Lettering::Note.of(told).weak());
            }
        });
        caution_in_short_ui(ui);
    }

    fn wear_ui(&mut self, ui: &mut Ui, desk: &Desk, good: &Solved, of: (&Record, u64)) {
        let left_alone = *self.left_alone.get(good.id, |_| LeftAlone::of(good));
        self.wear.show(ui, desk, (good, &left_alone), of);
    }
}

/// The unit before a job and after it, side by side.
fn show_beside(desk: &mut Desk, job: &Job, [before, after]: &[Document; 2]) {
    let side = |name: &str, document: &Document| {
        Side::Other(Rc::new(OtherUnit {
            name: format!("{name}: {}", job.head()),
            document: Arc::new(document.clone()),
        }))
    };
    desk.want_beside(Beside([side("Before", before), side("After", after)]));
}

fn no_file_ui(ui: &mut Ui) {
    ui.label(Lettering::Headline.of("This unit has no record yet"));
    ui.label("A record is kept beside its unit's file. Save the unit first, then write down here what is done to it.");
    ui.add_space(16.0);
    caution_in_short_ui(ui);
}

/// What the record comes to, in one line.
fn in_short(record: &Record) -> String {
    match (record.entries.len(), record.last_day()) {
        (0, _) => "No event in the record yet".to_owned(),
        (1, None) => "1 event".to_owned(),
        (1, Some(day)) => format!("1 event, on {day}"),
        (count, None) => format!("{count} events"),
        (count, Some(day)) => format!("{count} events, the last on {day}"),
    }
}
