//! The command line: numbers and pictures without a window.
//!
//! What belongs here: reading arguments, applying what-ifs to a document, writing reports and
//! pictures, exit codes. It imports every room but `app`.

mod arguments;
mod knives;
mod picture;
mod report;
mod what_if;
mod why;
mod why_report;

pub use arguments::{Arguments, Command, HeadlessCommand, WindowArguments};
pub use knives::{Printed, knives};
pub use picture::write_picture;
pub use report::{Report, table};
pub use what_if::{WhatIf, WhatIfProblem};
pub use why::{Asked, finding_named, why};

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use thiserror::Error;

use crate::analysis::why::Aim;
use crate::analysis::{Solved, Unsolved};
use crate::drawing::Standing;
use crate::unit::{Document, FileProblem, Flaw};

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
    /// A word of an argument is none that is known.
    #[error("--{option}: there is no \"{what}\" here; write one of {known}")]
    Unknown {
        /// The argument.
        option: &'static str,
        /// What was written.
        what: String,
        /// What there is.
        known: String,
    },
    /// A picture could not be written.
    #[error("{}: {what}", .file.display())]
    Picture {
        /// The picture.
        file: PathBuf,
        /// Why.
        what: String,
    },
    /// A report could not be printed.
    #[error("the report could not be printed: {0}")]
    Unprinted(std::io::Error),
    /// There is no screen for a window.
    #[error(
        "no window can be opened here: {}. Without a display, use `sweepgauge report FILE` for the numbers or `sweepgauge picture FILE OUT.svg` for the drawing.",
        without_source_places(.0)
    )]
    NoDisplay(String),
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
        ExitCode::from(match self {
            Self::File(_)
            | Self::WhatIf(_)
            | Self::Flaw(_)
            | Self::Unknown { .. }
            | Self::Picture { .. }
            | Self::Unprinted(_) => 2,
            Self::Impossible { .. } => 3,
            Self::NoDisplay(_) => 4,
        })
    }
}

/// A unit file read, changed by a what-if, and solved.
#[derive(Clone, Debug)]
pub struct Read {
    /// The document with the what-if in it.
    pub document: Document,
    /// The same checked, solved and judged.
    pub solved: Solved,
}

impl Read {
    /// Reads a unit file and solves it with a what-if.
    ///
    /// # Errors
    /// When the file or the what-if is wrong, or the geometry cannot exist.
    pub fn from_file(file: &Path, what_if: &WhatIf) -> Result<Self, Problem> {
        let unsolved = |error| Problem::unsolved(Some(file), error);
        let mut document = crate::unit::read(file)?;
        what_if.apply(&mut document)?.map_err(unsolved)?;
        let solved = Solved::of(&document).map_err(unsolved)?;
        Ok(Self { document, solved })
    }
}

/// Runs a command that needs no window and gives what it prints.
///
/// # Errors
/// When the command cannot be done; the problem knows its exit code.
pub fn run(command: &HeadlessCommand) -> Result<String, Problem> {
    match command {
        HeadlessCommand::Report {
            file,
            json,
            what_if,
        } => {
            let read = Read::from_file(file, what_if)?;
            Ok(if *json {
                Report::of(&read).to_json()
            } else {
                table(&read)
            })
        }
        HeadlessCommand::Picture {
            file,
            out,
            dark,
            turf,
            crest,
            what_if,
        } => {
            let read = Read::from_file(file, what_if)?;
            let standing = match (turf, crest) {
                (_, true) => Standing::Crest,
                (true, false) => Standing::Turf,
                (false, false) => Standing::Plate,
            };
            write_picture(&read, out, *dark, standing)?;
            Ok(String::new())
        }
        HeadlessCommand::Why {
            file,
            json,
            finding,
            complaint,
            to_over,
            what_if,
        } => {
            let read = Read::from_file(file, what_if)?;
            let finding = finding
                .as_ref()
                .map(|name| finding_named(&read.solved.case(), name))
                .transpose()?;
            let asked = Asked {
                finding,
                aim: if *to_over { Aim::NotOver } else { Aim::Fine },
                complaint: *complaint,
                is_json: *json,
            };
            Ok(why(&read, asked))
        }
        HeadlessCommand::Knives {
            file,
            json,
            csv,
            what_if,
        } => {
            let printed = match (json, csv) {
                (true, _) => Printed::Json,
                (false, true) => Printed::Csv,
                (false, false) => Printed::Plain,
            };
            Ok(knives(&Read::from_file(file, what_if)?, printed))
        }
    }
}
