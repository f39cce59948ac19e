//! Recovery: what a window holds that is in no unit file yet, kept beside the preferences so that a
//! crash, a kill or a power cut loses none of it.
//!
//! A window is a few files of one name in a folder of their own: a lock that lives as long as its
//! process does, whatever ends it; the path of the unit file it has open; and the work of each session
//! that has something to lose. What a dead window left is offered by the next start.

mod keeper;
mod left;
mod lookout;
mod mark;
mod news;
mod pending;
mod work;

pub use keeper::{Flusher, Keeper, OfUnit};
pub(super) use left::set_aside;
pub use left::{Damaged, Left, LeftBehind, left_behind, left_behind_with};
pub use mark::{WindowMark, is_open_in_a_window};
pub use news::{Flushed, News};
pub use pending::{Kept, KeptText};
pub use work::{Work, WrongText};

use std::path::PathBuf;

use directories::ProjectDirs;

/// The folder name under which the program keeps its own files.
pub const APP_ID: &str = "sweepgauge";

/// The folder that windows keep their recovery files in; none where the platform names no home.
#[must_use]
pub fn recovery_folder() -> Option<PathBuf> {
    Some(data_folder()?.join("recovery"))
}

/// The platform's folder for the program's own files; none where it names no home.
pub(super) fn data_folder() -> Option<PathBuf> {
    Some(ProjectDirs::from("", "", APP_ID)?.data_dir().to_owned())
}
