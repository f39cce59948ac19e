//! Sheets: pictures and words put together to keep or print.
//!
//! Imports `scene`, `paper` and `pictures`.

mod page;
mod plate_sheet;
mod sheet;
mod view_picture;

pub use page::Page;
pub use plate_sheet::{plate_sheet, verdict};
pub use sheet::{Figure, Sheet};
pub use view_picture::{NoPicture, PictureView, view_picture};
