//! Saving, and the names that files get.

use std::path::{Path, PathBuf};

use egui::{Id, Ui};

use super::asking::ask;
use crate::app::desk::{Ask, Desk, InHand};
use crate::app::widgets::words::capitalised;
use crate::store::{self, FileProblem};
use crate::unit::Remarks;

/// Asks where to save. What follows is told whether it was saved.
pub fn save_as(desk: &mut Desk, then: impl FnOnce(&mut Desk, bool) -> bool + 'static) {
    if !is_savable(desk) {
        then(desk, false);
        return;
    }
    let name = desk
        .session()
        .file()
        .and_then(|file| file.file_name())
        .map_or_else(
            || file_name_for(&desk.document().name),
            |name| name.to_string_lossy().into_owned(),
        );
    let session = desk.session().id();
    ask(desk, &Ask::PlaceForUnit(name), move |desk, file| {
        let is_saved = match file {
            // Another unit may have been opened while the dialog was.
            Some(file) if desk.session().id() == session => save_to_chosen(desk, &file),
            _ => {
                desk.tell("Not saved: no file was chosen. Where no dialog appears, use File, Save to a path.");
                false
            }
        };
        then(desk, is_saved)
    });
}

/// Saves to a file a person chose. Where its whole name is that of another file, that is asked about.
pub fn save_to_chosen(desk: &mut Desk, file: &Path) -> bool {
    let whole = with_ending(file.to_owned(), UNIT_ENDING);
    if whole == file || is_open_file(desk, file) {
        return save_to(desk, file);
    }
    if whole.exists() && !is_open_file(desk, &whole) {
        desk.ask_about_taken(InHand::Unit, whole);
        return false;
    }
    save_to(desk, &whole)
}

/// What the name of a unit file ends in.
const UNIT_ENDING: &str = "ron";

/// A path with an ending, behind whatever else its name ends in.
pub fn with_ending(mut file: PathBuf, ending: &str) -> PathBuf {
    let has_it = file
        .extension()
        .is_some_and(|own| own.eq_ignore_ascii_case(ending));
    if !has_it && let Some(name) = file.file_name() {
        let mut name = name.to_owned();
        name.push(".");
        name.push(ending);
        file.set_file_name(name);
    }
    file
}

/// Whether a path leads to the file that is open, however it is spelt.
pub fn is_open_file(desk: &Desk, path: &Path) -> bool {
    let open = desk.session().file();
    open.is_some_and(|open| open == path || store::is_same_file(open, path))
}

/// Why a file that nobody chose to replace is not saved to.
pub fn taken_by_another(file: &Path) -> String {
    let file = file.display();
    format!("Not saved: a file is there already, and it is not the file that is open: {file}")
}

/// Why the document cannot be saved anywhere; none while it can. A file that could not be opened
/// again must not be written.
pub fn why_not_savable(desk: &Desk) -> Option<String> {
    if let Some(draft) = desk.session().drafts().first_wrong() {
        return Some(draft.told());
    }
    let document = desk.document();
    let flaw = document.checked().err()?;
    let name = flaw.field.name_in(document);
    Some(format!("{name}: {}", flaw.kind))
}

/// Why the document cannot be saved where it is kept; none while it can.
pub fn why_not_savable_there(ui: &Ui, desk: &Desk) -> Option<String> {
    why_not_savable(desk).or_else(|| why_not_writable(ui, desk.session().file()?))
}

/// What the disk answered about a file, and the last pass in which that was shown.
#[derive(Clone)]
struct Answer {
    file: PathBuf,
    why_not: Option<String>,
    pass: u64,
}

/// Why a file cannot be written; none while it can. The disk is asked once each time that a menu or
/// card which shows it opens.
fn why_not_writable(ui: &Ui, file: &Path) -> Option<String> {
    let kept = Id::unique("whether the open file can be written");
    let pass = ui.ctx().cumulative_pass_nr();
    let known = ui.data(|data| data.get_temp::<Answer>(kept));
    let known = known.filter(|known| known.file == file && known.pass + 1 >= pass);
    let ask = || {
        let problem = store::can_be_written(file).err()?;
        let problem = capitalised(&problem.to_string());
        Some(format!("{problem}. Save it under another name."))
    };
    let why_not = known.map_or_else(ask, |known| known.why_not);
    let answer = Answer {
        file: file.to_owned(),
        why_not: why_not.clone(),
        pass,
    };
    ui.data_mut(|data| data.insert_temp(kept, answer));
    why_not
}

fn is_savable(desk: &mut Desk) -> bool {
    let why_not = why_not_savable(desk);
    if let Some(why_not) = &why_not {
        desk.warn(format!("Not saved. {why_not}"));
    }
    why_not.is_none()
}

/// Saves to a file, whatever stands there. Whether it was saved.
pub fn save_to(desk: &mut Desk, file: &Path) -> bool {
    if !is_savable(desk) {
        return false;
    }
    match desk.save_to(file) {
        Ok(remarks) => {
            desk.preferences_mut().remember(file);
            let gathered = match remarks {
                Remarks::InPlace => "",
                Remarks::Gathered => ". The remarks inside the file now stand before the unit",
            };
            desk.tell(format!("Saved {}{gathered}", file.display()));
            true
        }
        Err(problem) => {
            desk.warn(capitalised(&reason_first(&problem)));
            false
        }
    }
}

/// What is wrong with a file, the reason before the path: a narrow strip of notices cuts off what comes
/// last.
pub fn reason_first(problem: &FileProblem) -> String {
    let reason = problem.reason();
    let reason = reason.trim_end_matches('.');
    format!("{reason}. File: {}", problem.file().display())
}

/// A file name from a unit's name.
pub fn file_name_for(name: &str) -> String {
    format!("{}.ron", file_stem_for(name))
}

/// A file name from a unit's name, without its ending.
pub fn file_stem_for(name: &str) -> String {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<_> = plain.split('-').filter(|word| !word.is_empty()).collect();
    if words.is_empty() {
        "unit".to_owned()
    } else {
        words.join("-")
    }
}
