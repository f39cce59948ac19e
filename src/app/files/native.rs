//! The desktop's own dialogs.

use std::path::PathBuf;

use crate::app::desk::Dialogs;

/// The desktop's own dialogs.
#[derive(Clone, Copy, Debug, Default)]
pub struct NativeDialogs;

impl NativeDialogs {
    fn dialog() -> rfd::FileDialog {
        rfd::FileDialog::new().add_filter("Unit file", &["ron"])
    }

    fn rows_dialog() -> rfd::FileDialog {
        rfd::FileDialog::new().add_filter("Rows of knives, CSV", &["csv", "tsv", "txt"])
    }
}

impl Dialogs for NativeDialogs {
    fn file_to_open(&self) -> Option<PathBuf> {
        Self::dialog().set_title("Open a unit").pick_file()
    }
    fn file_to_save(&self, name: &str) -> Option<PathBuf> {
        Self::dialog()
            .set_title("Save the unit")
            .set_file_name(name)
            .save_file()
    }
    fn rows_to_read(&self) -> Option<PathBuf> {
        Self::rows_dialog().set_title("Read knives").pick_file()
    }
    fn rows_to_write(&self, name: &str) -> Option<PathBuf> {
        Self::rows_dialog()
            .set_title("Write the knives")
            .set_file_name(name)
            .save_file()
    }
}
