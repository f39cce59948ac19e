//! What leaves the program on paper or as a picture: sheets bound into a PDF, pictures of any size,
//! written to a file.
//!
//! What belongs here: what the window and the program without one both put out, from a solved unit to
//! the bytes of a file. What stands on a sheet belongs to `drawing`. This room imports those up to
//! `command`.

mod moving_picture;
mod picture;
mod plate_table;
mod sheets;
mod table;

pub use moving_picture::{Moving, moving_bytes, write_moving_picture};
pub use picture::{
    PictureAsked, PictureFormat, Resolution, picture_bytes, write_picture, write_sheet,
};
pub use plate_table::plate_table_to_paste;
pub use sheets::{
    BoundSheet, FolderBook, Progress, SheetAsked, bound, bound_handout, bound_sheet,
    bound_worksheet, folder_book, origin_of, with_record,
};
pub use table::{rows_to_paste, table_to_paste};
