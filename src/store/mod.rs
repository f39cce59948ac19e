//! What the program keeps on disk: how files are read, and how they are written so that none is
//! ever harmed.
//!
//! What belongs here: paths and the disk, for every file the program keeps. What stands in a file
//! belongs to the room whose matter it is: a unit's text to `unit`, a sheet's to `plate`, a picture's marks
//! to `drawing`.
//! No other room opens, writes or renames a file. This room imports `unit`, `plate` and what they stand on.

mod digest;
mod folder_watch;
mod lesson_units;
mod place;
mod plain;
mod plate_files;
mod preferences;
mod print_copy;
mod read;
mod record_files;
pub mod recovery;
mod shop_folder;
mod stamp;
mod strays;
mod unit_file;
mod whole;

pub use digest::is_folder;
pub use folder_watch::FolderWatch;
pub use lesson_units::open_unit_beside;
pub use place::{folder_of, is_same_file, whole_path};
pub use plain::plain;
pub use plate_files::{
    SheetBeside, folder_changed, open_sheet, open_sheet_with_digest, save_sheet, sheets_of,
    unit_beside,
};
pub use preferences::{PreferencesProblem, change_preferences, preferences_file, read_preferences};
pub use print_copy::{copy_to_print, copy_to_view, remove_copy};
pub use read::{ReadProblem, read_text};
pub use record_files::{add_entry, open_record, record_beside};
pub use shop_folder::{lone_records_in, units_in};
pub use stamp::{OnDisk, Stamp, Watched};
pub use unit_file::{
    FileProblem, Saved, open_unit, open_with_digest, reopen_unit, save_unit, save_written,
    text_with_digest,
};
pub use whole::{WriteProblem, can_be_written, write_whole};
