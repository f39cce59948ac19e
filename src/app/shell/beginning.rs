//! What the window begins with: the file asked for, what was open last, or a card to choose from.

use std::path::Path;

use crate::app::desk::{LessonWork, Preferences, Session, SheetWork};
use crate::command::OpenLesson;
use crate::store::{FileProblem, open_unit, units_in};
use crate::unit::Document;

/// What the window begins with.
#[derive(Debug)]
pub struct Beginning {
    pub(super) session: Session,
    /// A plate sheet beside it.
    pub(super) sheet: Option<SheetWork>,
    /// A lesson beside it.
    pub(super) lesson: Option<LessonWork>,
    /// Why what was open last is not.
    pub(super) told: Option<String>,
    /// Whether a card asks what to work on.
    pub(super) is_asked: bool,
    /// Whether what was open last stays what is open at the next start.
    pub(super) keeps_last: bool,
}

impl From<Session> for Beginning {
    /// With this and no other.
    fn from(session: Session) -> Self {
        Self {
            session,
            sheet: None,
            lesson: None,
            told: None,
            is_asked: false,
            keeps_last: false,
        }
    }
}

impl Beginning {
    /// The document that is open.
    #[must_use]
    pub fn document(&self) -> &Document {
        self.session.document()
    }

    /// With a plate sheet, and its unit in front where that can be opened.
    ///
    /// # Errors
    /// When the sheet cannot be read or is none.
    pub fn with_sheet(file: &Path) -> Result<Self, FileProblem> {
        let sheet = SheetWork::open(file)?;
        let unit = sheet.unit_file();
        let unit = unit.and_then(|unit| Session::open(&unit).ok());
        let session = match unit {
            Some(unit) => unit,
            None => Session::demo()?,
        };
        Ok(Self {
            sheet: Some(sheet),
            ..session.into()
        })
    }

    /// With a lesson to be made, and the demo unit in front.
    ///
    /// # Errors
    /// When it cannot be read or is no lesson.
    pub fn with_lesson(file: &Path) -> Result<Self, FileProblem> {
        let lesson = LessonWork::open(file)?;
        Ok(Self {
            lesson: Some(lesson),
            ..Session::demo()?.into()
        })
    }

    /// With a lesson of a file, and the first unit that it shows, or the demo unit where it has none: what is
    /// there when the lesson ends. The unit is no work of anybody's, so what was open last stays that.
    ///
    /// # Errors
    /// When the lesson cannot be read any more.
    pub fn behind_lesson(lesson: &OpenLesson, file: &Path) -> Result<Self, FileProblem> {
        let first = lesson.steps.iter().find_map(|step| step.as_ref().ok());
        let session = match first {
            Some(step) => Session::new(Document::clone(&step.first.document), None),
            None => Session::demo()?,
        };
        Ok(Self {
            lesson: Some(LessonWork::open(file)?),
            keeps_last: true,
            ..session.into()
        })
    }

    /// With the first unit of a folder that can be opened, by the names of the units; with a new unit where
    /// none can: beside the board of a folder stands no unit from elsewhere.
    ///
    /// # Errors
    /// Never with the demo unit that is built in.
    pub fn with_folder(folder: &Path) -> Result<Self, FileProblem> {
        let files = units_in(folder).unwrap_or_default().into_iter();
        let named = files.filter_map(|file| {
            let name = open_unit(&file).ok()?.name.to_lowercase();
            Some((name, file))
        });
        let first = named.min().and_then(|(_, file)| Session::open(&file).ok());
        let session = match first {
            Some(first) => first,
            None => Session::new(Session::demo()?.document().as_new(), None),
        };
        Ok(session.into())
    }

    /// With what was open last, unless it is gone, is no unit file any more or is open in another
    /// window; then a card asks. `is_open_elsewhere` tells of a file whether another window has it.
    ///
    /// # Errors
    /// Never with the demo unit that is built in.
    pub fn with_last(
        preferences: &Preferences,
        is_open_elsewhere: impl Fn(&Path) -> bool,
    ) -> Result<Self, FileProblem> {
        let told = match &preferences.last_open {
            None => None,
            Some(file) if is_open_elsewhere(file) => {
                Some(format!("{} is open in another window.", file.display()))
            }
            Some(file) => match Session::open(file) {
                Ok(session) => return Ok(session.into()),
                Err(_) if !file.exists() => Some(format!(
                    "{} was open last, and is not there any more.",
                    file.display()
                )),
                Err(problem) => Some(format!("What was open last is not opened. {problem}")),
            },
        };
        Ok(Self {
            session: Session::demo()?,
            sheet: None,
            lesson: None,
            told,
            is_asked: true,
            keeps_last: false,
        })
    }
}
