//! The fields of a unit: everything a person can fill in, each named once.
//!
//! Flaws, drafts, budget steps and help hold a [`Field`], never its path. A new one is an entry
//! in `named.rs`, its row in `table.rs`, its place in `entry.rs` and its words in `words.rs`; the
//! compiler asks for all four.

mod choice;
mod entry;
mod group;
mod held;
mod kind;
mod named;
mod path;
mod reading;
mod rule;
mod sense;
mod table;
#[cfg(test)]
mod tests;
mod told;
mod words;

pub use choice::{Offer, OneOf};
pub(super) use entry::Entry;
pub use entry::EntryProblem;
pub use group::Group;
pub use kind::{Choice, Kind};
pub use named::{Field, KnifeText};
pub use reading::{KnifePart, Reading};
pub use rule::{Rule, WIDEST_GROUND};
pub use words::Words;
