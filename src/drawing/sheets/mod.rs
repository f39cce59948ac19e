//! Sheets: pictures and words put together to keep or print.
//!
//! Imports `scene`, `paper` and `pictures`.

mod as_read;
mod awaited;
mod columns;
mod flow;
mod frame;
mod handout_sheet;
mod kind;
mod knives_sheet;
mod lens_on_all;
mod lesson_picture;
mod list_sheet;
mod page;
mod pair_numbers;
mod plate_sheet;
mod print_style;
mod record_sheet;
mod seen;
mod setting_sheet;
mod setting_steps;
mod sheet;
mod side_by_side;
mod true_scale;
mod view_picture;
mod why_sheet;
mod worksheet;

pub use awaited::Awaited;
pub use frame::{Origin, SheetOf};
pub use handout_sheet::handout_sheets;
pub use kind::SheetKind;
pub use lesson_picture::{LessonPictures, PairPaper};
pub use list_sheet::list_sheet;
pub use page::Page;
pub use pair_numbers::PairNumbers;
pub use plate_sheet::{plate_sheet, verdict};
pub use sheet::{Figure, Sheet};
pub use side_by_side::{SideBySide, side_by_side_frame, side_by_side_sheet};
pub use view_picture::{
    NoPicture, PictureView, STILL, clip_on_paper, motion_frame, motion_panel, view_panels,
    view_picture,
};
pub use why_sheet::Complained;
pub use worksheet::worksheet;
