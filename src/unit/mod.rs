//! A unit as a person describes it: the document, its checks, and the text it is kept as.
//!
//! What belongs here: everything a person can edit, how it becomes text and text becomes it, and
//! whether it makes sense; paths and the disk belong to `store`. [`Document`] is what is edited,
//! [`Field`] names each of its values; [`Unit`] is a document that passed its checks, in plain
//! values. This room imports `units` and `geometry`.

mod brackets;
mod closing;
mod document;
mod examples;
mod field;
mod file_kind;
mod fitted;
mod flaw;
mod grinding;
mod ground;
mod instrument;
mod kept_text;
mod knife_list;
mod knife_rows;
mod left_out;
mod limits;
mod looked;
pub mod most;
mod name_alone;
mod new_unit;
mod pieces;
mod places;
mod relations;
mod row_cell;
mod row_head;
mod setting;
mod syntax_fault;
mod text;
mod uncertain;
mod values;
mod wear;
mod written;

pub use brackets::{BracketEntry, Brackets};
pub use closing::{ClosingReadings, ClosingWay};
pub use document::{
    AsRead, AttitudeRange, BenchReadings, Document, Format, HardwareReadings, Knife, LimitEntries,
    MountEntry, MowingEntry, ReelReadings, RollerAhead, RollerBehind, Turf,
};
pub use examples::{ExampleCount, Examples};
pub use field::{
    Choice, EntryProblem, Field, Group, Kind, KnifePart, KnifeText, Offer, OneOf, Reading, Rule,
    WIDEST_GROUND, Words,
};
pub use file_kind::{FileKind, UNIT_FILE, WANTED_QUANTITY};
pub use fitted::Fitted;
pub use flaw::{Flaw, FlawKind};
pub use grinding::{Grinding, GrindingEntry};
pub use ground::{GapPlace, GroundEntry, GroundForm, ShapeEntry, StraightedgeEntry, WearEntry};
pub use instrument::Instrument;
pub use knife_rows::{
    COLUMNS, NEEDED_COLUMNS, RowProblem, knife_cells, read_knife_rows, write_rows,
};
pub use limits::Limits;
pub use looked::{Looked, LookedFor};
pub use name_alone::is_name_alone;
pub use pieces::Pieces;
pub use setting::{RollerMoves, SettingEntry};
pub use text::{TextProblem, parse, parse_text, read_text};
pub use uncertain::{Follows, Uncertain};
pub use values::{Mowing, Unit};
pub use wear::Wear;
pub use written::{Remarks, Written, write, write_text, written};
