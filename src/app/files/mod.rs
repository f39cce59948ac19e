//! Files as a person opens and saves them: dialogs, the question before changes are lost, dropping.

mod native;
mod opening;
mod path_card;
mod saving;
mod shortcuts;

pub use native::NativeDialogs;
pub use opening::{Asking, ask_first, close_asked, dropped_files};
pub use path_card::PathCard;
pub use saving::{
    file_stem_for, save, save_as, whole_name, why_not_savable, why_not_savable_there,
};
pub use shortcuts::{NEW, OPEN, SAVE, SAVE_AS, shortcuts};
