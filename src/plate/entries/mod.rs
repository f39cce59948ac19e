//! A sheet as it is filled in, one text at a time: what the file can hold stands in the sheet, what it
//! cannot hold yet waits beside it as it was typed.

mod aside;
mod field;
mod filling;
mod from_last;
mod held;
mod left_out;
mod read_again;
mod taking;
mod texts;
mod waiting;
mod work;

pub use aside::BarTaken;
pub use field::{End, Place, RollerField, SheetField};
pub use filling::{Entries, Loose, typed_in_thou};
pub use held::{AdjusterKind, GapWay};
pub use left_out::LeftOut;
pub use read_again::AlsoRead;
