//! Files as a person opens and saves them: dialogs, the question before changes are lost, dropping.

mod asking;
mod left_card;
mod left_sheet;
#[cfg(all(unix, not(target_os = "macos")))]
mod motion_portal;
mod native;
mod open_file;
mod opening;
mod outside;
mod path_card;
mod placing;
#[cfg(all(unix, not(target_os = "macos")))]
mod print_portal;
mod refusal;
mod saving;
mod sheet_asking;
mod sheet_files;
mod sheet_outside;
mod sheet_path_card;
mod system_opener;
mod typed_path;

pub use asking::ask;
pub use left_card::offer_left;
#[cfg(all(unix, not(target_os = "macos")))]
pub use motion_portal::PortalMotion;
pub use native::NativeDialogs;
pub use opening::{Asking, ask_first, close_asked, dropped_files, quit_asked};
pub use outside::{save, watch_file};
pub use path_card::{PathCard, name_without_dialog};
pub use placing::{ask_place, ask_place_and_open, ask_place_then};
#[cfg(all(unix, not(target_os = "macos")))]
pub use print_portal::PortalPrinter;
pub use refusal::Refusal;
pub use saving::{file_stem_for, save_as, why_not_savable, why_not_savable_there};
pub use sheet_asking::{ask_sheet_first, choose_sheet};
pub use sheet_files::{PLATE_AREA, SheetAsking, is_sheet_file};
pub use sheet_outside::{save_sheet, save_sheet_as};
pub use sheet_path_card::SheetPathCard;
pub use system_opener::SystemOpener;
