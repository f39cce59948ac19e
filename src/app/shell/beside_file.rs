//! The unit of a file put beside the one in front.

use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

use crate::app::desk::{Ask, Beside, Desk, OtherUnit, Side};
use crate::app::files::ask;
use crate::store::{self, FileProblem};

/// Asks for a unit file to stand on the right.
pub fn choose(desk: &mut Desk) {
    ask(desk, &Ask::UnitToOpen, |desk, file| {
        let is_missed = desk.missed_dialog().is_some();
        if is_missed {
            desk.warn("The desktop showed no file dialog: type the file's path on the card.");
        }
        file.is_some_and(|file| open(desk, &file))
    });
}

/// Puts the unit of a file on the right; whether it could be opened.
pub fn open(desk: &mut Desk, file: &Path) -> bool {
    match unit_of(file) {
        Ok(other) => {
            put(desk, other);
            true
        }
        Err(problem) => {
            desk.warn(problem.to_string());
            false
        }
    }
}

/// The unit of a file, by its own name.
///
/// # Errors
/// When it cannot be read or is no unit file.
pub fn unit_of(file: &Path) -> Result<OtherUnit, FileProblem> {
    let document = store::open_unit(file)?;
    Ok(OtherUnit {
        name: document.name.clone(),
        document: Arc::new(document),
    })
}

/// Puts a unit on the right. The unit in front stays in view.
pub fn put(desk: &mut Desk, other: OtherUnit) {
    let [left, right] = desk.beside().0.clone();
    let left = if right == Side::AsSet { right } else { left };
    desk.look_at(Beside([left, Side::Other(Rc::new(other))]));
}
