//! What follows from the sheet that is open: its numbers, and the unit they are judged by.

use std::path::PathBuf;
use std::rc::Rc;
use std::sync::Arc;

use crate::analysis::plate::{Doubt, PlateResult};
use crate::analysis::{Solved, SolvedId};
use crate::app::desk::{Desk, DeskWork as _, SessionId};
use crate::app::widgets::kept::Kept;
use crate::plate::{Record, SheetFlaw, Worksheet};
use crate::store::{self, Stamp};

/// What follows from a sheet.
#[derive(Clone, Debug)]
pub struct WorkedOut {
    /// Its numbers, or the first value that makes no sense.
    pub result: Result<Rc<PlateResult>, SheetFlaw>,
    /// The unit it belongs to.
    pub unit: SheetUnit,
    /// Hours that cannot be beside those of the unit's record.
    pub hours: Option<Doubt>,
}

/// Where the unit of a sheet is.
#[derive(Clone, Debug)]
pub enum SheetUnit {
    /// In front.
    InFront(Rc<Solved>),
    /// In its file, and something else is in front.
    InFile(PathBuf, Rc<Solved>),
    /// In a file that cannot be read or solved, with the reason.
    Unreadable(PathBuf, String),
    /// The sheet names none, or the one it was begun for is gone.
    None,
}

impl SheetUnit {
    /// The unit, wherever it is.
    pub fn solved(&self) -> Option<&Rc<Solved>> {
        match self {
            Self::InFront(solved) | Self::InFile(_, solved) => Some(solved),
            Self::Unreadable(..) | Self::None => None,
        }
    }
}

type Key = (SessionId, u64, Option<SolvedId>);

/// A unit's file as it was when the sheet's unit was read from it.
type FileRead = (SessionId, PathBuf, Option<Stamp>);

/// What was worked out last, until sheet or unit change.
#[derive(Debug, Default)]
pub struct Working {
    /// Units read from the disk, each once as long as its file stays as it is.
    read: Kept<FileRead, Result<Rc<Solved>, String>>,
    /// The record of the unit, read as its file changes.
    record: Kept<(PathBuf, Option<Stamp>), Record>,
    worked_out: Kept<Key, WorkedOut>,
    /// The last numbers that made sense.
    last: Option<(SessionId, Rc<PlateResult>)>,
}

impl Working {
    /// What follows from the sheet on the desk; none where there is none.
    pub fn of(&mut self, desk: &Desk) -> Option<WorkedOut> {
        let sheet = desk.sheet()?;
        let unit = self.unit(desk);
        let key = (
            sheet.id(),
            sheet.revision(),
            unit.solved().map(|solved| solved.id),
        );
        let made = self
            .worked_out
            .get(key, |_| WorkedOut::of(sheet.sheet(), unit.clone()));
        let made = made.clone();
        let hours = self.hours(desk, &unit, &made);
        let worked_out = WorkedOut {
            // Where it is can change while it is the same.
            unit,
            hours,
            ..made
        };
        if let Ok(result) = &worked_out.result {
            self.last = Some((sheet.id(), Rc::clone(result)));
        }
        Some(worked_out)
    }

    /// The last numbers of the sheet on the desk that made sense.
    pub fn last(&self, desk: &Desk) -> Option<&Rc<PlateResult>> {
        let sheet = desk.sheet()?.id();
        let last = self.last.as_ref().filter(|(of, _)| *of == sheet);
        last.map(|(_, result)| result)
    }

    /// What is wrong with the sheet's hours by the record of its unit.
    fn hours(&mut self, desk: &Desk, unit: &SheetUnit, made: &WorkedOut) -> Option<Doubt> {
        let result = made.result.as_ref().ok()?;
        result.readings.hours?;
        let unit = match unit {
            SheetUnit::InFront(_) => desk.session().file()?,
            SheetUnit::InFile(file, _) => file,
            SheetUnit::Unreadable(..) | SheetUnit::None => return None,
        };
        let file = store::record_beside(unit);
        let stamp = Stamp::of(&file);
        stamp?;
        let record = self.record.get((file, stamp), |(file, _)| {
            store::open_record(file).unwrap_or_default()
        });
        Doubt::of_hours(&result.readings, record)
    }

    fn unit(&mut self, desk: &Desk) -> SheetUnit {
        if let Some(solved) = desk.unit_of_sheet() {
            return SheetUnit::InFront(Rc::clone(solved));
        }
        let Some((id, file)) = desk
            .sheet()
            .and_then(|sheet| Some((sheet.id(), sheet.unit_file()?)))
        else {
            return SheetUnit::None;
        };
        let stamp = Stamp::of(&file);
        let read = self.read.get((id, file.clone(), stamp), |(_, file, _)| {
            let document = store::open_unit(file).map_err(|problem| problem.reason())?;
            let system = document.system();
            Solved::of_shared(Arc::new(document))
                .map(Rc::new)
                .map_err(|why| why.shown_in(system))
        });
        match read {
            Ok(solved) => SheetUnit::InFile(file, Rc::clone(solved)),
            Err(why) => SheetUnit::Unreadable(file, why.clone()),
        }
    }
}

impl WorkedOut {
    fn of(sheet: &Worksheet, unit: SheetUnit) -> Self {
        let solved = unit.solved().map(|solved| &**solved);
        Self {
            result: PlateResult::of(sheet, solved).map(Rc::new),
            unit,
            hours: None,
        }
    }
}
