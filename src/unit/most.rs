//! The most there can be of anything a person writes down: what a machine has, and what screens,
//! sums and files are good for.

/// Bytes of a unit file, read or written.
pub const FILE_BYTES: usize = 1_000_000;

/// Bytes of rows of knives, read or written: those of the largest unit file with every quote
/// doubled and what was found about each knife beside it.
pub const ROWS_BYTES: usize = 4_000_000;

/// Knives to compare.
pub const KNIVES: usize = 5_000;

/// Points of the hardware under the knife.
pub const HARDWARE_POINTS: usize = 10_000;

/// Letters of a name, a price, or a value with its unit.
pub const NAME_LETTERS: usize = 200;

/// Letters of notes.
pub const NOTES_LETTERS: usize = 10_000;
