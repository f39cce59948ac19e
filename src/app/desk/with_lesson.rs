//! The desk with a lesson.

use std::path::Path;

use egui::Id;

use super::lesson_work::LessonWork;
use super::{Change, Desk};
use crate::lesson::{Lesson, Step, UnitUse};
use crate::store;
use crate::unit::{Document, GroundEntry, SettingEntry};

impl Desk {
    /// The lesson that is open.
    pub fn lesson(&self) -> Option<&LessonWork> {
        self.works.lesson.as_ref()
    }

    /// Lays a lesson in the place of the one that was open.
    pub fn lay_lesson(&mut self, lesson: LessonWork) {
        self.works.lesson = Some(lesson);
    }

    /// Changes the lesson, as one named step to take back; whether it was a change. `holder` is the text
    /// field it is typed into.
    pub fn edit_lesson(
        &mut self,
        name: &str,
        holder: Option<Id>,
        edit: impl FnOnce(&mut Lesson),
    ) -> bool {
        let lesson = self.works.lesson.as_mut();
        lesson.is_some_and(|lesson| lesson.edit(name, holder, edit))
    }

    /// The same by a change of a form's fields, which knows what it was typed into.
    pub fn edit_lesson_by(&mut self, name: &str, change: &Change, edit: impl FnOnce(&mut Lesson)) {
        self.edit_lesson(name, change.holder(), edit);
    }

    /// Puts a step of the unit in front behind those of the open lesson, or begins a lesson with it. The
    /// unit comes with it as it is, or as it is tried: by its file where that holds it and stands in the
    /// lesson's folder, else written out.
    ///
    /// # Errors
    /// When drawing and numbers are not those of the unit as it is typed, with the reason.
    pub fn keep_as_step(&mut self, step: Step, tried: Option<&Document>) -> Result<usize, String> {
        let begun = self.lesson().is_none().then(|| {
            let home = self.session().file().map(store::folder_of);
            LessonWork::begun_in(home.map(Path::to_owned))
        });
        let home = begun.as_ref().or(self.lesson());
        let folder = home.and_then(LessonWork::folder);
        let unit = self.unit_for_step(folder.as_deref(), tried)?;
        if let Some(begun) = begun {
            self.lay_lesson(begun);
            let title = self.document().name.clone();
            self.edit_lesson("title of the lesson", None, |lesson| lesson.title = title);
        }
        let step = Step {
            unit: Some(unit),
            ..step
        };
        self.edit_lesson("step kept", None, |lesson| lesson.steps.push(step));
        let steps = self
            .lesson()
            .map_or(0, |lesson| lesson.lesson().steps.len());
        let last = steps.saturating_sub(1);
        self.wishes.step_wanted = Some(last);
        Ok(last)
    }

    /// The unit in front as a step of the open lesson names it.
    ///
    /// # Errors
    /// When drawing and numbers are not those of the unit as it is typed, with the reason.
    pub fn unit_in_front_for_step(&self) -> Result<UnitUse, String> {
        let folder = self.lesson().and_then(LessonWork::folder);
        self.unit_for_step(folder.as_deref(), None)
    }

    fn unit_for_step(
        &self,
        folder: Option<&Path>,
        tried: Option<&Document>,
    ) -> Result<UnitUse, String> {
        if let Some(why) = self.why_not_current() {
            return Err(why);
        }
        let file = self.session().file();
        let document = tried.unwrap_or(self.document());
        let by_file = by_file(file, document, folder);
        Ok(by_file.unwrap_or_else(|| written_out(tried.unwrap_or(self.session().settled()))))
    }
}

/// The unit by its file, with what its setting and its ground have of their own; none where the file does
/// not hold the rest of it, or stands elsewhere.
fn by_file(file: Option<&Path>, document: &Document, folder: Option<&Path>) -> Option<UnitUse> {
    let (file, folder) = (file?, folder?);
    let own = std::path::absolute(file).ok()?;
    if own.parent() != std::path::absolute(folder).ok().as_deref() {
        return None;
    }
    let name = file.file_name()?.to_str()?.to_owned();
    let in_file = store::open_unit(file).ok()?;
    let mut rest = document.clone();
    rest.setting.clone_from(&in_file.setting);
    rest.ground.clone_from(&in_file.ground);
    if rest != in_file {
        return None;
    }
    let setting: Option<SettingEntry> =
        (document.setting != in_file.setting).then(|| document.setting.clone());
    let ground: Option<GroundEntry> =
        (document.ground != in_file.ground).then(|| document.ground.clone());
    Some(UnitUse {
        file: Some(name),
        setting,
        ground,
        ..UnitUse::default()
    })
}

fn written_out(document: &Document) -> UnitUse {
    UnitUse {
        embedded: Some(Box::new(document.clone())),
        ..UnitUse::default()
    }
}
