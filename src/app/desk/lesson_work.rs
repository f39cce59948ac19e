//! A lesson being made: what stands in it, where it is kept, whether it is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Id;

use super::side_work::{DeskWork, SideState, SideWork};
use crate::lesson::{LESSON_FILE, Lesson, WrongEntry, parse_lesson, write_lesson};
use crate::store::recovery::{Kept, KeptText, Work, WrongText};
use crate::store::{self, FileProblem, Stamp};
use crate::unit::{Remarks, TextProblem};

/// The name of a file that stands for the folder of a lesson in no file, where recovery keeps the way to a
/// file.
const IN_THE_FOLDER: &str = "lesson.lesson.ron";

/// A lesson being made: a document of its own, beside the units on the desk. A text in it, or in a field of what
/// a step tries, may be wrong while it is written; no lesson is saved with it.
#[derive(Debug)]
pub struct LessonWork {
    work: SideWork<Lesson>,
    /// The folder that its unit files stand in while it is in no file.
    home: Option<PathBuf>,
}

impl KeptText for Lesson {
    fn text(&self) -> String {
        write_lesson(self).text
    }
}

impl LessonWork {
    /// Begins an empty one, whose unit files stand in a folder; none where there is no such folder yet.
    #[must_use]
    pub fn begun_in(home: Option<PathBuf>) -> Self {
        Self {
            work: SideWork::begun(Lesson::default()),
            home,
        }
    }

    /// Opens a lesson, though something in it may make no sense yet: here it is put right.
    ///
    /// # Errors
    /// When it cannot be read or is no lesson.
    pub fn open(file: &Path) -> Result<Self, FileProblem> {
        // Looked at before it is read: a change between the two is then found later.
        let on_disk = Stamp::of(file);
        let (text, digest) = store::text_with_digest(file, &LESSON_FILE)?;
        let lesson = parse_lesson(&text).map_err(|problem| FileProblem::wrong(file, problem))?;
        Ok(Self {
            work: SideWork::opened(lesson, digest, file, on_disk),
            home: None,
        })
    }

    /// Goes on with a lesson that a dead window left.
    ///
    /// # Errors
    /// When it is no lesson.
    pub fn recovered(work: &Work) -> Result<Self, TextProblem> {
        let mut lesson = parse_lesson(&work.document)?;
        for wrong in &work.wrong {
            if let Some((step, of_second, field)) = WrongEntry::at_path(&wrong.field)
                && let Some(step) = lesson.steps.get_mut(step)
            {
                step.put_wrong(WrongEntry {
                    of_second,
                    field,
                    name: wrong.name.clone(),
                    text: wrong.text.clone(),
                    why: wrong.problem.clone(),
                });
            }
        }
        let home = work.unit.as_deref().and_then(Path::parent);
        Ok(Self {
            home: home.map(Path::to_owned),
            work: SideWork::recovered(lesson, work),
        })
    }

    /// The lesson.
    #[must_use]
    pub fn lesson(&self) -> &Lesson {
        self.work.content()
    }

    /// The same, shared.
    #[must_use]
    pub fn shared(&self) -> Arc<Lesson> {
        Arc::clone(self.work.shared())
    }

    /// The first eight digits of the SHA-256 of what it was last opened or saved as (FIPS 180-4); none
    /// while no file holds it so.
    #[must_use]
    pub fn digest(&self) -> Option<&str> {
        self.work.digest()
    }

    /// The folder that its unit files stand in; none while it is in no file and has none of its own.
    #[must_use]
    pub fn folder(&self) -> Option<PathBuf> {
        match self.file() {
            Some(file) => Some(store::folder_of(file).to_owned()),
            None => self.home.clone(),
        }
    }

    /// A file of its folder: itself, or one that stands for it while it is in no file.
    #[must_use]
    pub fn file_in_folder(&self) -> Option<PathBuf> {
        match self.file() {
            Some(file) => Some(file.to_owned()),
            None => self.home.as_ref().map(|home| home.join(IN_THE_FOLDER)),
        }
    }

    /// The first unit file that it names and that is not there.
    #[must_use]
    pub fn missing_unit(&self) -> Option<String> {
        let folder = self.folder()?;
        let steps = self.lesson().steps.iter();
        let units = steps.flat_map(|step| [&step.unit, &step.second]);
        let mut files = units.filter_map(|unit| unit.as_ref()?.file.as_ref());
        files.find(|file| !folder.join(file).exists()).cloned()
    }

    /// Makes a change; whether it was one.
    pub(super) fn edit(
        &mut self,
        name: &str,
        holder: Option<Id>,
        edit: impl FnOnce(&mut Lesson),
    ) -> bool {
        self.work.edit(name, holder, edit)
    }
}

impl DeskWork for LessonWork {
    fn side(&self) -> &dyn SideState {
        &self.work
    }

    fn side_mut(&mut self) -> &mut dyn SideState {
        &mut self.work
    }

    fn why_not_savable(&self) -> Option<String> {
        self.lesson().check().err().map(|flaw| flaw.told())
    }

    fn save_to(&mut self, file: &Path) -> Result<Remarks, FileProblem> {
        let written = write_lesson(self.lesson());
        let saved = store::save_written(written, file, &LESSON_FILE)?;
        Ok(self.work.was_saved(file, saved, true))
    }

    fn kept(&self) -> Kept {
        let shared = Arc::clone(self.work.shared());
        Kept::Other(shared)
    }

    fn wrong_texts(&self) -> Vec<WrongText> {
        let steps = self.lesson().steps.iter().enumerate();
        let wrong = steps.flat_map(|(step, of)| of.wrong.iter().map(move |wrong| (step, wrong)));
        wrong
            .map(|(step, wrong)| WrongText {
                field: wrong.path(step),
                name: wrong.name.clone(),
                text: wrong.text.clone(),
                problem: wrong.why.clone(),
                is_waiting: false,
            })
            .collect()
    }

    fn unit_while_in_no_file(&self) -> Option<PathBuf> {
        self.file_in_folder().filter(|_| self.file().is_none())
    }
}
