//! A plate sheet being filled in: what stands in it, where it is kept, whether it is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Id;

use super::left_session::LeftSession;
use super::side_work::{DeskWork, SideState, SideWork};
use super::{Session, SessionId};
use crate::plate::{Entries, LeftOut, SheetField, Worksheet, parse_sheet};
use crate::store::recovery::{Kept, Work, WrongText};
use crate::store::{self, FileProblem, Stamp};
use crate::unit::{Remarks, TextProblem};
use crate::units::{Length, Quantity, System};

/// What stood in a sheet that a dead window left, in the sheet and loose beside it.
///
/// # Errors
/// When it is no plate sheet.
pub fn entries_in(work: &Work) -> Result<Entries, TextProblem> {
    let mut entries = Entries::new(parse_sheet(&work.document)?);
    let system = entries.sheet.cut_width.system();
    for wrong in &work.wrong {
        let left = LeftOut {
            path: wrong.field.clone(),
            name: wrong.name.clone(),
            text: wrong.text.clone(),
            why: wrong.problem.clone(),
            is_wrong: !wrong.is_waiting,
        };
        entries.put_back(&left, system);
    }
    Ok(entries)
}

/// A plate sheet being filled in: a document of its own, beside the units on the desk.
#[derive(Debug)]
pub struct SheetWork {
    work: SideWork<Entries>,
    /// The unit it was begun for, as long as that is on the desk.
    begun_for: Option<SessionId>,
    /// The session of that unit in the window that died, for a sheet that came back.
    begun_for_left: Option<LeftSession>,
    /// Where that unit's file was then.
    unit_file: Option<PathBuf>,
}

impl SheetWork {
    fn of(work: SideWork<Entries>) -> Self {
        Self {
            work,
            begun_for: None,
            begun_for_left: None,
            unit_file: None,
        }
    }

    /// Begins a sheet for a unit, in the units its reader works in.
    #[must_use]
    pub fn begun_for(unit: &Session, date: String, system: System) -> Self {
        let name = unit.file().and_then(Path::file_name);
        let sheet = Worksheet {
            unit: name.map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
            date,
            cut_width: Quantity::from_value(Length::ZERO, system),
            ..Worksheet::default()
        };
        Self {
            work: SideWork::begun(Entries::new(sheet)),
            begun_for: Some(unit.id()),
            begun_for_left: None,
            unit_file: unit.file().map(Path::to_owned),
        }
    }

    /// Opens a plate sheet.
    ///
    /// # Errors
    /// When it cannot be read or is no plate sheet.
    pub fn open(file: &Path) -> Result<Self, FileProblem> {
        // Looked at before it is read: a change between the two is then found later.
        let on_disk = Stamp::of(file);
        let (sheet, digest) = store::open_sheet_with_digest(file)?;
        let work = SideWork::opened(Entries::new(sheet), digest, file, on_disk);
        Ok(Self::of(work))
    }

    /// Goes on with a sheet that a dead window left.
    ///
    /// # Errors
    /// When it is no plate sheet.
    pub fn recovered(work: &Work) -> Result<Self, TextProblem> {
        let sheet = SideWork::recovered(entries_in(work)?, work);
        Ok(Self {
            unit_file: work.unit.clone(),
            begun_for_left: work.begun_for.map(|unit| LeftSession::of(unit, work)),
            ..Self::of(sheet)
        })
    }

    /// What stands in it.
    #[must_use]
    pub fn entries(&self) -> &Entries {
        self.work.content()
    }

    /// The sheet, with all it can hold.
    #[must_use]
    pub fn sheet(&self) -> &Worksheet {
        &self.entries().sheet
    }

    /// The first eight digits of the SHA-256 of what it was last opened or saved as (FIPS 180-4); none
    /// while no file holds it so.
    pub(in crate::app) fn digest(&self) -> Option<&str> {
        self.work.digest()
    }

    /// Where its unit's file is: beside the sheet, or where it was when the sheet was begun for it. None
    /// where it names none.
    #[must_use]
    pub fn unit_file(&self) -> Option<PathBuf> {
        match self.file() {
            Some(file) if !self.sheet().unit.is_empty() => {
                Some(store::unit_beside(file, &self.sheet().unit))
            }
            Some(_) => None,
            None => self.unit_file.clone(),
        }
    }

    /// Finds its unit among those that came back from the window that died.
    pub(super) fn find_unit(&mut self, unit: &Session) {
        if self.begun_for_left.is_some() && self.begun_for_left == unit.was {
            self.begun_for = Some(unit.id());
            self.begun_for_left = None;
        }
    }

    /// Says which unit it is of, from here on; one in a file is named in it.
    pub(super) fn belong_to(&mut self, unit: &Session) {
        self.edit("unit of the sheet", None, |entries| {
            entries.sheet.unit.clear();
        });
        self.begun_for = Some(unit.id());
        self.unit_file = unit.file().map(Path::to_owned);
        if let Some(file) = unit.file() {
            self.name_unit(unit, file);
        }
    }

    /// Whether it is the sheet of a unit on the desk.
    #[must_use]
    pub fn is_of(&self, unit: &Session) -> bool {
        if self.begun_for == Some(unit.id()) {
            return true;
        }
        let whole = |file: &Path| std::path::absolute(file).ok();
        let own = self.unit_file().as_deref().and_then(whole);
        own.is_some() && own == unit.file().and_then(whole)
    }

    /// Names the unit that it was begun for, which is in a file now; not where the name would lead to
    /// another file beside the sheet. Whether it was named.
    pub(super) fn name_unit(&mut self, unit: &Session, file: &Path) -> bool {
        if self.begun_for != Some(unit.id()) || !self.sheet().unit.is_empty() {
            return false;
        }
        self.unit_file = Some(file.to_owned());
        let Some(name) = file.file_name().map(std::ffi::OsStr::to_string_lossy) else {
            return false;
        };
        let beside = self.file().map(|own| store::unit_beside(own, &name));
        if beside.is_some_and(|beside| beside.exists() && !store::is_same_file(&beside, file)) {
            return false;
        }
        let is_untouched = self.file().is_none() && !self.has_unsaved();
        let is_named = self.work.edit("unit of the sheet", None, |entries| {
            entries.sheet.unit = name.into_owned();
        });
        if is_untouched {
            // A name alone is nobody's work.
            self.work.count_as_saved();
        }
        is_named
    }

    /// Takes what belongs to the unit from the unit's last sheet; what was taken. It is nobody's work.
    pub(super) fn begin_from(&mut self, last: &Worksheet, system: System) -> Vec<SheetField> {
        let mut taken = Vec::new();
        self.edit("taken from the last sheet", None, |entries| {
            taken = entries.take_from(last, system);
        });
        self.work.count_as_saved();
        taken
    }

    /// Makes a change; whether it was one.
    pub(super) fn edit(
        &mut self,
        name: &str,
        holder: Option<Id>,
        edit: impl FnOnce(&mut Entries),
    ) -> bool {
        self.work.edit(name, holder, edit)
    }
}

impl DeskWork for SheetWork {
    fn side(&self) -> &dyn SideState {
        &self.work
    }

    fn side_mut(&mut self) -> &mut dyn SideState {
        &mut self.work
    }

    fn why_not_savable(&self) -> Option<String> {
        let mut wrong = self.entries().loose().filter(|(_, loose)| loose.is_wrong);
        if let Some((field, loose)) = wrong.next() {
            return Some(format!("{}: {}", field.name(), loose.why));
        }
        if !self.entries().has(SheetField::CutWidth) {
            return Some("Cutting width: write the width that the unit cuts.".to_owned());
        }
        let flaw = self.sheet().checked().err()?;
        let named = SheetField::at_path(&flaw.path).map(SheetField::name);
        Some(format!("{}: {}", named.unwrap_or(flaw.path), flaw.kind))
    }

    fn left_out_of_a_save(&self) -> Vec<String> {
        let left_out = self.entries().left_out().into_iter();
        let waiting = left_out.filter(|left| !left.is_wrong);
        waiting.map(|left| left.name).collect()
    }

    fn save_to(&mut self, file: &Path) -> Result<Remarks, FileProblem> {
        let saved = store::save_sheet(self.sheet(), file)?;
        // What waits is in no file yet, and stays kept for recovery.
        let is_whole = self.entries().left_out().is_empty();
        Ok(self.work.was_saved(file, saved, is_whole))
    }

    fn kept(&self) -> Kept {
        Kept::Sheet(Arc::clone(self.work.shared()))
    }

    fn wrong_texts(&self) -> Vec<WrongText> {
        let left_out = self.entries().left_out().into_iter();
        left_out
            .map(|left| WrongText {
                field: left.path,
                name: left.name,
                text: left.text,
                problem: left.why,
                is_waiting: !left.is_wrong,
            })
            .collect()
    }

    fn session_of_unit(&self) -> Option<SessionId> {
        self.begun_for
    }

    fn unit_while_in_no_file(&self) -> Option<PathBuf> {
        self.unit_file().filter(|_| self.file().is_none())
    }
}
