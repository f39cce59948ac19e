//! A unit as a person describes it: the document, its checks, and the text it is kept as.
//!
//! What belongs here: everything a person can edit, how it becomes text and text becomes it, and
//! whether it makes sense; paths and the disk belong to `store`. [`Document`] is what is edited; [`Unit`] is a document that passed its checks, in
//! plain values. This room imports `units` and `geometry`.

mod check;
mod document;
mod ground;
mod knife_list;
mod knife_rows;
mod limits;
mod locate;
mod text;
mod told;
mod uncertain;
mod wear;

pub use check::{Flaw, FlawKind, Mowing, Unit};
pub use document::{
    AttitudeRange, BenchReadings, ClosingReadings, Document, Fitted, Format, HardwarePoint, Knife,
    LimitEntries, MowingEntry, ReelReadings, RollerAhead, RollerBehind, RollerMoves, SettingEntry,
    Turf,
};
pub use ground::{GapPlace, GroundEntry, ShapeEntry, StraightedgeEntry, WearEntry};
pub use knife_rows::{COLUMNS, RowProblem, knife_cells, read_knife_rows, write_rows};
pub use limits::Limits;
pub use text::{TextProblem, parse_text, read_text, write_text};
pub use uncertain::{Follows, KnifePart, Reading, Uncertain};
pub use wear::Wear;
pub(crate) use wear::WearFigures;
