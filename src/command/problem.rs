//! Why a command was not done, and the code the program then exits with.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use thiserror::Error;

use super::WhatIfProblem;
use crate::analysis::Unsolved;
use crate::plate::SheetFlaw;
use crate::store::FileProblem;
use crate::store::recovery::Flushed;
use crate::unit::{Flaw, RowProblem};
use crate::units::Quoted;

/// Why a command did not do what was asked.
#[derive(Debug, Error)]
pub enum Problem {
    /// A unit file is wrong.
    #[error(transparent)]
    File(#[from] FileProblem),
    /// A what-if is wrong.
    #[error(transparent)]
    WhatIf(#[from] WhatIfProblem),
    /// A what-if makes the unit senseless.
    #[error("with these what-ifs, {0}")]
    Flaw(#[from] Flaw),
    /// A value of a sheet makes no sense.
    #[error(transparent)]
    Sheet(#[from] SheetFlaw),
    /// The geometry cannot exist.
    #[error("{}: {sentence}", .file.display())]
    Impossible {
        /// The unit file.
        file: PathBuf,
        /// Why, in the file's own units.
        sentence: String,
    },
    /// A word of an argument is none that is known.
    #[error("--{option}: there is no {} here; write one of {known}", Quoted(.what))]
    Unknown {
        /// The argument.
        option: &'static str,
        /// What was written.
        what: String,
        /// What there is.
        known: String,
    },
    /// A reading given on the command line is none, or cannot be.
    #[error("--{option}: {what}")]
    Reading {
        /// The argument.
        option: &'static str,
        /// What is wrong, and what would be right.
        what: String,
    },
    /// A picture could not be written.
    #[error("{}: {what}", .file.display())]
    Picture {
        /// The picture.
        file: PathBuf,
        /// Why.
        what: String,
    },
    /// A sheet to print could not be made.
    #[error("{}: {what}", .file.display())]
    Paper {
        /// The sheet, or the folder it was to be made of.
        file: PathBuf,
        /// Why.
        what: String,
    },
    /// Steps of a lesson have no numbers.
    #[error("{}: {failed} of {of} steps could not be worked out; each says why", .file.display())]
    Steps {
        /// The lesson.
        file: PathBuf,
        /// How many could not.
        failed: usize,
        /// Of how many.
        of: usize,
        /// Whether it is the geometry of all of them that cannot exist; else a file or a value is wrong.
        is_impossible: bool,
    },
    /// A table could not be written.
    #[error(transparent)]
    Rows(#[from] RowProblem),
    /// A report could not be printed.
    #[error("the report could not be printed: {}", crate::store::plain(.0))]
    Unprinted(std::io::Error),
    /// There is no screen for a window.
    #[error(
        "no window can be opened here: {}. Without a display, use `sweepgauge report FILE` for the numbers or `sweepgauge picture FILE OUT.svg` for the drawing.",
        without_source_places(.0)
    )]
    NoDisplay(String),
    /// The screen of an open window was lost.
    #[error("the display is gone{}", told_of(*.0))]
    DisplayLost(Flushed),
    /// A window was told to end, and what was not saved in it could not be kept.
    #[error("told to end{}", told_of(Flushed::Unkept))]
    EndedWithLoss,
    /// A shot was told to end before it was saved.
    #[error("{}: told to end before the shot was saved", .file.display())]
    ShotEnded {
        /// The picture that was to be made.
        file: PathBuf,
    },
}

/// What became of what was not saved when a window ended without being closed, to be read after why.
fn told_of(flushed: Flushed) -> &'static str {
    match flushed {
        Flushed::NoneToKeep => "",
        Flushed::Kept => "; what was not saved was kept, and the next start offers it",
        Flushed::Unkept => "; what was not saved could not be kept",
    }
}

/// What a windowing library says, past the places in its own source that it names first.
fn without_source_places(what: &str) -> &str {
    let is_place = |before: &str| {
        let number = before.rsplit(':').next().unwrap_or_default();
        before.contains(".rs:") && number.bytes().all(|b| b.is_ascii_digit())
    };
    what.match_indices(": ")
        .filter(|(at, _)| is_place(&what[..*at]))
        .last()
        .map_or(what, |(at, joint)| &what[at + joint.len()..])
}

impl Problem {
    /// Why a document has no solution, with the file it came from.
    #[must_use]
    pub fn unsolved(file: Option<&Path>, unsolved: Unsolved) -> Self {
        match unsolved {
            Unsolved::Flaw(flaw) => Self::Flaw(flaw),
            Unsolved::Impossible { why, system } => Self::Impossible {
                file: file.unwrap_or(Path::new("demo unit")).to_owned(),
                sentence: why.sentence().shown_in(system),
            },
        }
    }

    /// The code the program exits with.
    #[must_use]
    pub fn exit_code(&self) -> ExitCode {
        ExitCode::from(self.code())
    }

    /// The same as a number.
    #[must_use]
    pub fn code(&self) -> u8 {
        match self {
            Self::File(_)
            | Self::WhatIf(_)
            | Self::Flaw(_)
            | Self::Sheet(_)
            | Self::Unknown { .. }
            | Self::Reading { .. }
            | Self::Picture { .. }
            | Self::Paper { .. }
            | Self::Rows(_)
            | Self::Unprinted(_)
            | Self::EndedWithLoss
            | Self::ShotEnded { .. } => 2,
            Self::Steps { is_impossible, .. } => 2 + u8::from(*is_impossible),
            Self::Impossible { .. } => 3,
            Self::NoDisplay(_) | Self::DisplayLost(_) => 4,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_is_said_to_be_kept_only_when_it_was() {
        let told = [Flushed::NoneToKeep, Flushed::Kept, Flushed::Unkept].map(|flushed| {
            let problem = Problem::DisplayLost(flushed);
            assert_eq!(problem.code(), 4);
            problem.to_string()
        });
        assert_eq!(told[0], "the display is gone");
        assert!(told[1].contains("was kept") && told[1].contains("the next start offers it"));
        assert!(told[2].contains("could not be kept") && !told[2].contains("offers"));
        assert_ne!(Problem::EndedWithLoss.code(), 0);
        let shot = Problem::ShotEnded {
            file: "shot.png".into(),
        };
        assert_ne!(shot.code(), 0);
    }
}
