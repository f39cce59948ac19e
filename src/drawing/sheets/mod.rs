//! Sheets: pictures and words put together to keep or print.
//!
//! Imports `scene`, `paper` and `pictures`.

mod plate_sheet;

pub use plate_sheet::{CAUTIONS, Canvas, PlateSheet, key_numbers, verdict};
