//! What the window begins with: the file asked for, what was open last, or a card to choose from.

use std::path::Path;

use crate::app::desk::{Preferences, Session};
use crate::store::FileProblem;
use crate::unit::Document;

/// What the window begins with.
#[derive(Debug)]
pub struct Beginning {
    pub(super) session: Session,
    /// Why what was open last is not.
    pub(super) told: Option<String>,
    /// Whether a card asks what to work on.
    pub(super) is_asked: bool,
}

impl From<Session> for Beginning {
    /// With this and no other.
    fn from(session: Session) -> Self {
        Self {
            session,
            told: None,
            is_asked: false,
        }
    }
}

impl Beginning {
    /// The document that is open.
    #[must_use]
    pub fn document(&self) -> &Document {
        self.session.document()
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
            told,
            is_asked: true,
        })
    }
}
