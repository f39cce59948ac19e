//! Opening a file.

use std::path::Path;

use crate::app::desk::{Desk, Session};

/// Opens a file in place of the document; one that is refused leaves it as it was.
/// Whether it was opened.
pub fn open(desk: &mut Desk, file: &Path) -> bool {
    match Session::open(file) {
        Ok(session) => {
            desk.replace(session);
            desk.preferences_mut().remember(file);
            desk.tell(format!("Opened {}", file.display()));
            true
        }
        Err(problem) => {
            if !file.exists() {
                desk.preferences_mut().forget(file);
            }
            desk.warn(format!("Not opened. {problem}"));
            false
        }
    }
}
