//! A unit as a person describes it: the document, its checks, and the unit file.
//!
//! What belongs here: everything a person can edit, how it is read and written, and whether it
//! makes sense. [`Document`] is what is edited; [`Unit`] is a document that passed its checks, in
//! plain values. This room imports `units` and `geometry`.

mod check;
mod document;
mod file;
mod ground;
mod knife_list;
mod knife_rows;
mod limits;
mod locate;
mod told;
mod uncertain;
mod wear;

pub use check::{Flaw, FlawKind, Mowing, Unit};
pub use document::{
    AttitudeRange, BenchReadings, ClosingReadings, Document, Fitted, Format, HardwarePoint, Knife,
    LimitEntries, MowingEntry, ReelReadings, RollerAhead, RollerBehind, RollerMoves, SettingEntry,
    Turf,
};
pub use file::{FileProblem, read, read_text, save, write_text, write_whole};
pub use ground::{GapPlace, GroundEntry, ShapeEntry, StraightedgeEntry, WearEntry};
pub use knife_rows::{COLUMNS, RowProblem, knife_cells, read_knife_rows, write_rows};
pub use limits::Limits;
pub use uncertain::{Follows, KnifePart, Reading, Uncertain};
pub use wear::Wear;
pub(crate) use wear::WearFigures;
