//! Sheets: pictures and words put together to keep or print.
//!
//! Imports `scene`, `paper` and `pictures`.

mod page;
mod plate_sheet;

pub use page::Page;
pub use plate_sheet::{PlateSheet, verdict};
