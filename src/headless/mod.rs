//! The command line: numbers and pictures without a window.
//!
//! What belongs here: reading arguments, applying what-ifs to a document, writing reports and
//! pictures, exit codes. It imports every room but `app`.

mod arguments;
mod picture;
mod report;
mod what_if;

pub use arguments::{Arguments, Command, WindowArguments};
pub use picture::{bundled_fonts, write_picture};
pub use report::{Report, table};
pub use what_if::{WhatIf, WhatIfProblem};

use std::path::PathBuf;
use std::process::ExitCode;

use thiserror::Error;

use crate::analysis::{Case, Findings, Solution};
use crate::geometry::Impossible;
use crate::unit::{Document, FileProblem, Fitted, Flaw, Unit};

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
    #[error("with what was asked, {0}")]
    Flaw(#[from] Flaw),
    /// The geometry cannot exist.
    #[error("{}: {sentence}", .file.display())]
    Impossible {
        /// The unit file.
        file: PathBuf,
        /// Why, in the file's own units.
        sentence: String,
    },
    /// A picture could not be written.
    #[error("{}: {what}", .file.display())]
    Picture {
        /// The picture.
        file: PathBuf,
        /// Why.
        what: String,
    },
    /// There is no screen for a window.
    #[error(
        "no window can be opened here: {0}. Without a display, use `sweepgauge report FILE` for the numbers or `sweepgauge picture FILE OUT.svg` for the drawing."
    )]
    NoDisplay(String),
}

impl Problem {
    /// The code the program exits with.
    #[must_use]
    pub fn exit_code(&self) -> ExitCode {
        ExitCode::from(match self {
            Self::File(_) | Self::WhatIf(_) | Self::Flaw(_) | Self::Picture { .. } => 2,
            Self::Impossible { .. } => 3,
            Self::NoDisplay(_) => 4,
        })
    }
}

/// A unit file read, changed by a what-if, checked and solved.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The document with the what-if in it.
    pub document: Document,
    /// The same in plain values.
    pub unit: Unit,
    /// Its solution.
    pub solution: Solution,
    /// What was found.
    pub findings: Findings,
}

impl Solved {
    /// Reads a unit file and solves it with a what-if.
    ///
    /// # Errors
    /// When the file or the what-if is wrong, or the geometry cannot exist.
    pub fn from_file(file: &std::path::Path, what_if: &WhatIf) -> Result<Self, Problem> {
        let impossible = |error: Impossible, unit: &Unit| Problem::Impossible {
            file: file.to_owned(),
            sentence: error.sentence().shown_in(unit.system),
        };
        let mut document = crate::unit::read(file)?;
        what_if.apply(&mut document, |error, unit| impossible(error, unit))?;
        let unit = document.checked()?;
        let solution =
            Solution::of(&unit, &unit.setting).map_err(|error| impossible(error, &unit))?;
        let case = Case {
            unit: &unit,
            setting: &unit.setting,
            solution: &solution,
        };
        let findings = Findings::about(&case);
        Ok(Self {
            document,
            unit,
            solution,
            findings,
        })
    }

    /// The case, for judging and drawing.
    #[must_use]
    pub fn case(&self) -> Case<'_> {
        Case {
            unit: &self.unit,
            setting: &self.unit.setting,
            solution: &self.solution,
        }
    }

    /// Name of the knife fitted.
    #[must_use]
    pub fn knife_name(&self) -> &str {
        match self.unit.fitted {
            Fitted::Bench => &self.document.knife.name,
            Fitted::Option(index) => &self.document.options[index].name,
        }
    }
}

/// Runs a command that needs no window and gives what it prints.
///
/// # Errors
/// When the command cannot be done; the problem knows its exit code.
pub fn run(command: &Command) -> Result<String, Problem> {
    match command {
        Command::Report {
            file,
            json,
            what_if,
        } => {
            let solved = Solved::from_file(file, what_if)?;
            Ok(if *json {
                Report::of(&solved).to_json()
            } else {
                table(&solved)
            })
        }
        Command::Picture {
            file,
            out,
            dark,
            turf,
            what_if,
        } => {
            let solved = Solved::from_file(file, what_if)?;
            write_picture(&solved, out, *dark, *turf)?;
            Ok(String::new())
        }
        Command::Window(_) => Ok(String::new()),
    }
}
