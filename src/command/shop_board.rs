//! The units of a folder read for the shop board, with what cannot be read.

use std::panic::{UnwindSafe, catch_unwind};
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
    /// What it is, and how much of it could not be read.
    pub kind: RefusedKind,
    /// Its name.
    pub file: String,
    /// Why.
    pub why: String,
}

/// What a file is that could not be read, and how much of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RefusedKind {
    /// A unit.
    Unit,
    /// A record, none of it.
    Record,
    /// A record, of which some lines are damaged.
    RecordInPart,
    /// A record without its unit.
    LoneRecord,
}

impl RefusedKind {
    /// Every one, in the order they are told.
    pub const ALL: [Self; 4] = [
        Self::Unit,
        Self::Record,
        Self::RecordInPart,
        Self::LoneRecord,
    ];

    /// So many of them, in words.
    #[must_use]
    pub fn told(self, count: usize) -> String {
        let (one, many) = match self {
            Self::Unit => ("unit cannot be read", "units cannot be read"),
            Self::Record => ("record cannot be read", "records cannot be read"),
            Self::RecordInPart => ("record is read in part", "records are read in part"),
            Self::LoneRecord => (
                "record is without its unit",
                "records are without their unit",
            ),
        };
        format!("{count} {}", if count == 1 { one } else { many })
    }
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
        board
            .refused
            .extend(store::lone_records_in(folder).iter().map(|record| Refused {
                kind: RefusedKind::LoneRecord,
                file: name_of(record),
                why: "the unit of this record is not in the folder: its file has the same name without .record".to_owned(),
            }));
        Ok(board)
    }

    /// What could not be read, in words, a kind after the other.
    #[must_use]
    pub fn refused_told(&self) -> Vec<String> {
        let counts = RefusedKind::ALL.map(|kind| {
            let of_kind = self.refused.iter().filter(|refused| refused.kind == kind);
            (kind, of_kind.count())
        });
        let met = counts.into_iter().filter(|(_, count)| *count > 0);
        met.map(|(kind, count)| kind.told(count)).collect()
    }

    /// The rows of its units.
    pub fn rows(&self) -> impl Iterator<Item = &ShopRow> {
        self.units.iter().map(|unit| &unit.row)
    }

    fn of_files(files: &[PathBuf]) -> Self {
        let mut board = Self::default();
        for file in files {
            match whole(|| unit_of(file)) {
                Ok((unit, damaged)) => {
                    board.units.push(unit);
                    board.refused.extend(damaged);
                }
                Err(why) => board.refused.push(Refused {
                    kind: RefusedKind::Unit,
                    file: name_of(file),
                    why,
                }),
            }
        }
        board
    }
}

/// What is worked out of one file, or why not: a panic is told as a reason, so that it hides none of the
/// other files.
fn whole<T>(work: impl FnOnce() -> Result<T, String> + UnwindSafe) -> Result<T, String> {
    catch_unwind(work).unwrap_or_else(|_| {
        Err(
            "working it out went wrong, by a fault of this program; the file is left as it is"
                .to_owned(),
        )
    })
}

/// A unit with its record, and what of the record cannot be read.
fn unit_of(file: &Path) -> Result<(BoardUnit, Option<Refused>), String> {
    let solved = solved(file)?;
    let (record, refused) = record(&store::record_beside(file));
    let unit = BoardUnit {
        file: file.to_owned(),
        row: ShopRow::of(name_of(file), &solved, &record),
        solved: Arc::new(solved),
    };
    Ok((unit, refused))
}

fn solved(file: &Path) -> Result<Solved, String> {
    let document = store::open_unit(file).map_err(|problem| problem.reason())?;
    let system = document.system();
    Solved::of_shared(Arc::new(document)).map_err(|unsolved| unsolved.shown_in(system))
}

/// The record of a unit, and what of it cannot be read.
fn record(file: &Path) -> (Record, Option<Refused>) {
    let (record, why) = match store::open_record(file) {
        Ok(record) => {
            let told = damage_told(&record);
            (record, told.map(|why| (RefusedKind::RecordInPart, why)))
        }
        Err(problem) => (
            Record::default(),
            Some((RefusedKind::Record, problem.reason())),
        ),
    };
    let file = name_of(file);
    (record, why.map(|(kind, why)| Refused { kind, file, why }))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_over_one_file_is_a_reason_and_what_is_whole_stays_whole() {
        assert_eq!(whole(|| Ok(3)), Ok(3));
        assert_eq!(whole::<u8>(|| Err("no".to_owned())), Err("no".to_owned()));
        let told = whole::<u8>(|| panic!("a fault")).unwrap_err();
        assert!(told.contains("the file is left as it is"), "{told}");
    }
}
