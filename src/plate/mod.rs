//! What is written down at the surface plate: the sheet of one unit's rollers, and the record of what
//! was done to the unit.
//!
//! What belongs here: the sheet and the record as a person fills them in, the text they are kept as,
//! and whether they make sense; paths and the disk belong to `store`, sums to `analysis`.
//! [`Worksheet`] is what is filled in, [`Readings`] is a sheet that passed its checks, in plain values.
//! This room imports `units`, `geometry` and `unit`, whose machinery reads and writes its texts.

mod checked;
mod checks;
mod date;
mod entries;
mod flaw;
mod readings;
mod record;
mod replaced;
mod roller;
mod sheet;
mod step;
mod text;
mod typed_entry;

pub use date::{Day, NotADay};
pub use entries::{
    AdjusterKind, AlsoRead, BarTaken, End, Entries, GapWay, LeftOut, Loose, Place, RollerField,
    SheetField, typed_in_thou,
};
pub use flaw::{SheetFlaw, SheetFlawKind};
pub use readings::{
    AdjusterReadings, AlongRead, GapOfKnife, GapOfRoller, Measured, Readings, RollerReadings,
    StationReadings,
};
pub(crate) use record::heading_line;
pub use record::{Entry, MOST_ENTRIES, RECORD_FILE, Record, RecordFormat, entry_line, read_record};
pub use sheet::{
    AdjusterEntry, BarEntry, EndsEntry, Feeler, GapEntry, Roller, RollerEntry, RunoutEntry,
    RunoutReading, SheetFormat, Side, Station, ThreeEntry, Worksheet,
};
pub use step::Step;
pub use text::{SHEET_FILE, parse_sheet, read_sheet, write_sheet};
pub use typed_entry::{EntryField, TypedEntry};
