//! Opening a file.

use std::path::Path;

use super::saving::reason_first;
use crate::app::desk::{Desk, Session};

/// Opens a file in place of the document; one that is refused leaves it as it was.
/// Whether it was opened.
pub fn open(desk: &mut Desk, file: &Path) -> bool {
    match Session::open(file) {
        Ok(session) => {
            desk.replace(session);
            desk.preferences_mut().remember(file);
            desk.tell(format!("Opened {}", file.display()));
            warn_of_slips(desk);
            true
        }
        Err(problem) => {
            if !file.exists() {
                desk.preferences_mut().forget(file);
            }
            desk.warn(format!("Not opened: {}", reason_first(&problem)));
            false
        }
    }
}

/// Warns of the first reading that cannot be true: the file opens all the same.
fn warn_of_slips(desk: &mut Desk) {
    let document = desk.document();
    let first = document.doubts(desk.system()).next();
    let told = first.map(|(field, why)| format!("Opened. {}: {why}.", field.name_in(document)));
    if let Some(told) = told {
        desk.warn(told);
    }
}
