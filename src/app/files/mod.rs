//! Files as a person opens and saves them: dialogs, the question before changes are lost, dropping.

mod asking;
mod left_card;
mod left_lesson;
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
mod portal;
#[cfg(all(unix, not(target_os = "macos")))]
mod print_portal;
mod refusal;
mod saving;
mod system_opener;
mod typed_path;
mod work_asking;
mod work_files;
mod work_outside;
mod work_path_card;
mod work_words;

pub use asking::ask;
pub use left_card::{is_lesson, offer_left};
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
pub use system_opener::SystemOpener;
pub use work_asking::{ask_work_first, choose_work};
pub use work_files::{WorkAsking, kind_of_file};
pub use work_outside::{save_work, save_work_as};
pub use work_path_card::WorkPathCard;
pub use work_words::{LESSON_AREA, PLATE_AREA};
