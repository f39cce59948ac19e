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

/// Warns of the first reading that makes no sense on any unit: the file opens all the same.
fn warn_of_slips(desk: &mut Desk) {
    let (document, system) = (desk.document(), desk.system());
    let first = document.past_sense().next();
    let told = first.and_then(|field| {
        let why = field.past_sense(document, system)?;
        Some(format!("Opened, but {}: {why}.", field.name()))
    });
    if let Some(told) = told {
        desk.warn(told);
    }
}
