//! The units of a folder read for the shop board, with what cannot be read.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;

use crate::analysis::Solved;
use crate::analysis::shop::ShopRow;
use crate::plate::Record;
use crate::store::{self, FileProblem};

/// A unit of a folder.
#[derive(Clone, Debug)]
pub struct BoardUnit {
    /// Its file.
    pub file: PathBuf,
    /// Its row on the board.
    pub row: ShopRow,
    /// What it was worked out from.
    pub solved: Arc<Solved>,
}

/// A file that could not be read, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// Its name.
    pub file: String,
    /// Why.
    pub why: String,
}

/// The units of a folder. What cannot be read is listed with its reason, and stops none of the others.
#[derive(Clone, Debug, Default)]
pub struct ShopBoard {
    /// The units, in the order of their files' names.
    pub units: Vec<BoardUnit>,
    /// What could not be read.
    pub refused: Vec<Refused>,
}

impl ShopBoard {
    /// Reads the units of a folder and solves them, as many at a time as there are processors.
    ///
    /// # Errors
    /// When it cannot be read as a folder, or holds more unit files than can be shown.
    pub fn read(folder: &Path) -> Result<Self, FileProblem> {
        let files = store::units_in(folder)?;
        let at_once = thread::available_parallelism().map_or(1, usize::from);
        let each = files.len().div_ceil(at_once).max(1);
        let parts = thread::scope(|scope| {
            let threads: Vec<_> = files
                .chunks(each)
                .map(|files| scope.spawn(|| Self::of_files(files)))
                .collect();
            let parts = threads.into_iter().map(|thread| match thread.join() {
                Ok(part) => part,
                Err(panic) => std::panic::resume_unwind(panic),
            });
            parts.collect::<Vec<_>>()
        });
        let mut board = Self::default();
        for part in parts {
            board.units.extend(part.units);
            board.refused.extend(part.refused);
        }
        Ok(board)
    }

    /// The rows of its units.
    pub fn rows(&self) -> impl Iterator<Item = &ShopRow> {
        self.units.iter().map(|unit| &unit.row)
    }

    fn of_files(files: &[PathBuf]) -> Self {
        let mut board = Self::default();
        for file in files {
            match solved(file) {
                Ok(solved) => {
                    let record = record(&store::record_beside(file), &mut board.refused);
                    board.units.push(BoardUnit {
                        file: file.clone(),
                        row: ShopRow::of(name_of(file), &solved, &record),
                        solved: Arc::new(solved),
                    });
                }
                Err(why) => board.refused.push(Refused {
                    file: name_of(file),
                    why,
                }),
            }
        }
        board
    }
}

fn solved(file: &Path) -> Result<Solved, String> {
    let document = store::open_unit(file).map_err(|problem| problem.reason())?;
    let system = document.system();
    Solved::of_shared(Arc::new(document)).map_err(|unsolved| unsolved.shown_in(system))
}

/// The record of a unit; what of it is damaged goes to the list of what was refused.
fn record(file: &Path, refused: &mut Vec<Refused>) -> Record {
    let mut refuse = |why| {
        refused.push(Refused {
            file: name_of(file),
            why,
        });
    };
    match store::open_record(file) {
        Ok(record) => {
            if let Some(told) = damage_told(&record) {
                refuse(told);
            }
            record
        }
        Err(problem) => {
            refuse(problem.reason());
            Record::default()
        }
    }
}

/// What of a record is damaged, in a line; none where none is.
#[must_use]
pub fn damage_told(record: &Record) -> Option<String> {
    let first = record.damaged.first()?;
    let count = record.damaged.len();
    let lines = if count == 1 { "line is" } else { "lines are" };
    Some(format!(
        "{count} {lines} damaged and left out, the others are read; line {}: {}",
        first.line, first.what
    ))
}

fn name_of(file: &Path) -> String {
    let name = file.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}
