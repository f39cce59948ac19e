//! Works beside the units as a person begins, opens and saves them: plate sheets and lessons.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::saving::{file_stem_for, reason_first};
use super::work_words::words_of;
use crate::app::desk::{Desk, DeskWork, InHand, LessonWork, SheetWork, WorkKind};
use crate::app::widgets::words::capitalised;
use crate::plate::Day;
use crate::store::{folder_of, open_sheet, sheets_of};
use crate::unit::Remarks;

/// What waits until a work is saved or given up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkAsking {
    /// A new one: a sheet for the unit in front, an empty lesson.
    New,
    /// One of a file.
    Open(PathBuf),
    /// The work is taken away.
    Close,
    /// The work is taken away, for another to be laid in its place by the card that is open.
    MakeRoom,
    /// The window closes.
    CloseWindow,
}

/// The kind of work that a file holds, by its name; none for a unit's.
#[must_use]
pub fn kind_of_file(file: &Path) -> Option<WorkKind> {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let name = name.to_lowercase();
    WorkKind::ALL
        .into_iter()
        .find(|kind| name.ends_with(words_of(*kind).ending))
}

/// Does it with the work of a kind, whatever of it is lost.
pub(super) fn go_on(desk: &mut Desk, kind: WorkKind, what: WorkAsking) -> bool {
    match what {
        WorkAsking::New => {
            begin(desk, kind);
            desk.want_area(words_of(kind).area);
            true
        }
        WorkAsking::Open(file) => open_work(desk, kind, &file),
        WorkAsking::Close | WorkAsking::MakeRoom => {
            desk.drop_work(kind);
            true
        }
        WorkAsking::CloseWindow => {
            desk.close();
            true
        }
    }
}

fn begin(desk: &mut Desk, kind: WorkKind) {
    match kind {
        WorkKind::Sheet => {
            let today = Day::today().to_string();
            let sheet = SheetWork::begun_for(desk.session(), today, desk.system());
            desk.lay_sheet(sheet);
            take_from_last(desk);
        }
        WorkKind::Lesson => {
            let home = desk.session().file().map(folder_of).map(Path::to_owned);
            desk.lay_lesson(LessonWork::begun_in(home));
        }
    }
}

/// Has a new sheet take from the last one of its unit what belongs to the unit, and says so.
fn take_from_last(desk: &mut Desk) {
    let unit = desk.session().file();
    let last = unit.and_then(|unit| sheets_of(unit).into_iter().next());
    let Some((last, sheet)) = last.and_then(|last| Some((open_sheet(&last.file).ok()?, last)))
    else {
        return;
    };
    let taken = desk.begin_sheet_from(&last);
    if taken.is_empty() {
        return;
    }
    let taken: Vec<_> = taken.iter().map(|field| field.name()).collect();
    let name = sheet.file.file_name().unwrap_or_default().to_string_lossy();
    desk.tell(format!(
        "Taken from the unit's last sheet, {name}: {}. Check them; Undo takes them out.",
        taken.join(", ")
    ));
}

/// Opens a work in place of the one that is open; one that is refused leaves it as it was. Whether it was
/// opened.
pub(super) fn open_work(desk: &mut Desk, kind: WorkKind, file: &Path) -> bool {
    let opened = match kind {
        WorkKind::Sheet => SheetWork::open(file).map(|sheet| desk.lay_sheet(sheet)),
        WorkKind::Lesson => LessonWork::open(file).map(|lesson| desk.lay_lesson(lesson)),
    };
    match opened {
        Ok(()) => {
            desk.preferences_mut().remember_work(file);
            desk.want_area(words_of(kind).area);
            desk.tell(format!("Opened {}", file.display()));
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

/// A name for the work of a kind: the one it has, or one by its unit or its title.
pub(super) fn offered_name(desk: &Desk, kind: WorkKind) -> String {
    let kept = desk.work(kind).and_then(DeskWork::file);
    if let Some(name) = kept.and_then(Path::file_name) {
        return name.to_string_lossy().into_owned();
    }
    let stem_of = |file: &Path| {
        file.file_stem()
            .map(OsStr::to_string_lossy)
            .map(String::from)
    };
    let stem = match kind {
        WorkKind::Sheet => {
            let beside = desk.sheet().and_then(SheetWork::unit_file);
            let stem = beside.as_deref().and_then(stem_of);
            stem.unwrap_or_else(|| file_stem_for(&desk.document().name))
        }
        WorkKind::Lesson => {
            let title = desk.lesson().map(|lesson| lesson.lesson().title.as_str());
            file_stem_for(title.unwrap_or_default())
        }
    };
    let ending = words_of(kind).ending;
    let folder = match kind {
        WorkKind::Sheet => {
            let beside = desk.sheet().and_then(SheetWork::unit_file);
            beside.as_deref().map(folder_of).map(Path::to_owned)
        }
        WorkKind::Lesson => desk.lesson().and_then(LessonWork::folder),
    };
    let day = match kind {
        WorkKind::Sheet => desk.sheet().map(|sheet| sheet.sheet().date.clone()),
        WorkKind::Lesson => None,
    };
    name_not_taken(&stem, day.as_deref().unwrap_or_default(), ending, |name| {
        folder
            .as_ref()
            .is_some_and(|folder| folder.join(name).exists())
    })
}

/// The most names that are tried.
const MOST_NAMES: u32 = 1000;

/// A name that no file has: the stem, else with the day, else with a number behind that.
fn name_not_taken(stem: &str, day: &str, ending: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let day = Day::parse(day.trim()).map_or_else(|_| String::new(), |day| format!(" {day}"));
    let numbered = (2..MOST_NAMES).map(|number| format!("{stem}{day} {number}{ending}"));
    let first = format!("{stem}{ending}");
    let names = [first.clone(), format!("{stem}{day}{ending}")];
    let mut names = names.into_iter().chain(numbered);
    names.find(|name| !is_taken(name)).unwrap_or(first)
}

/// Saves to a file that a person chose. Where its whole name is that of another file, that is asked about.
pub(super) fn put_in_chosen(desk: &mut Desk, kind: WorkKind, file: &Path) -> bool {
    let whole = with_ending_of(kind, file);
    if whole != file && whole.exists() {
        desk.ask_about_taken(InHand::Work(kind), whole);
        return false;
    }
    put(desk, kind, &whole)
}

pub(super) fn with_ending_of(kind: WorkKind, file: &Path) -> PathBuf {
    if kind_of_file(file) == Some(kind) {
        return file.to_owned();
    }
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let stem = name.strip_suffix(".ron").unwrap_or(&name);
    file.with_file_name(format!("{stem}{}", words_of(kind).ending))
}

/// Saves to a file, whatever stands there. Whether it was saved.
pub(super) fn put(desk: &mut Desk, kind: WorkKind, file: &Path) -> bool {
    let why_not = desk.work(kind).and_then(DeskWork::why_not_savable);
    if let Some(why_not) = why_not {
        desk.warn(format!("Not saved. {why_not}"));
        return false;
    }
    match desk.save_work_to(kind, file) {
        Ok(remarks) => {
            desk.preferences_mut().remember_work(file);
            let gathered = match remarks {
                Remarks::InPlace => String::new(),
                Remarks::Gathered => format!(
                    ". The remarks inside the file now stand before the {}",
                    words_of(kind).holds
                ),
            };
            desk.tell(format!("Saved {}{gathered}", file.display()));
            warn_of_left_out(desk, kind);
            match kind {
                WorkKind::Sheet => warn_of_lone_sheet(desk),
                WorkKind::Lesson => warn_of_lone_lesson(desk),
            }
            true
        }
        Err(problem) => {
            desk.warn(capitalised(&reason_first(&problem)));
            false
        }
    }
}

/// A reading that waits for its other half is in no file.
fn warn_of_left_out(desk: &mut Desk, kind: WorkKind) {
    let left_out = desk.work(kind).map(DeskWork::left_out_of_a_save);
    let left_out = left_out.unwrap_or_default();
    if !left_out.is_empty() {
        let left_out = left_out.join("; ");
        desk.warn(format!(
            "Saved without what is not complete yet or entered another way. It stays here, in no file: {left_out}."
        ));
    }
}

/// A sheet is told what it needs of its unit by the file beside it.
fn warn_of_lone_sheet(desk: &mut Desk) {
    let unit = desk.sheet().and_then(SheetWork::unit_file);
    if let Some(unit) = unit.filter(|unit| !unit.exists()) {
        let name = unit.file_name().unwrap_or_default().to_string_lossy();
        desk.warn(format!(
            "Saved, but {name} is not beside the sheet: save the sheet in the folder of its unit, or the turf's limits and the expected cut are not known."
        ));
    }
}

/// A lesson's units stand beside it.
fn warn_of_lone_lesson(desk: &mut Desk) {
    let missing = desk.lesson().and_then(LessonWork::missing_unit);
    if let Some(name) = missing {
        desk.warn(format!(
            "Saved, but {name} is not beside the lesson: save the lesson in the folder of its units, or copy them there."
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_is_offered_is_no_files() {
        let offered = |taken: &[&str]| {
            name_not_taken("greens-1", "2026-11-26", ".plate.ron", |name| {
                taken.contains(&name)
            })
        };
        let names = [
            "greens-1.plate.ron",
            "greens-1 2026-11-26.plate.ron",
            "greens-1 2026-11-26 2.plate.ron",
            "greens-1 2026-11-26 3.plate.ron",
        ];
        for count in 0..names.len() {
            assert_eq!(offered(&names[..count]), names[count]);
        }
        // A day that is none is no part of a name.
        let name = name_not_taken("a", "../b", ".plate.ron", |name| name == "a.plate.ron");
        assert_eq!(name, "a 2.plate.ron");
    }
}
