//! The command line: numbers and pictures without a window.
//!
//! What belongs here: reports and pictures, and doing the commands that ask for them. It imports
//! every room but `app`.

mod knives;
mod picture;
mod report;
mod why;
mod why_report;

pub use knives::{Printed, knives};
pub use picture::write_picture;
pub use report::{Report, table};
pub use why::{Asked, finding_named, why};

use std::path::Path;

use crate::analysis::Solved;
use crate::analysis::why::Aim;
use crate::command::{HeadlessCommand, Problem, WhatIf};
use crate::drawing::Standing;
use crate::store;
use crate::unit::Document;

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
        let mut document = store::open_unit(file)?;
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
