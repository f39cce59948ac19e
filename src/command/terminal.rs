//! The one door of texts to standard output and standard error: no letter of a name or a message
//! steers a terminal, and none that cannot be written makes the program fall over.

use std::fmt::Display;
use std::io::{self, ErrorKind, IsTerminal as _, Write};

use super::Problem;
use crate::units::{in_plain_letters, is_hidden};

/// What a command prints.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Printout {
    /// Lines to read, or JSON, which are shown alike everywhere.
    Text(String),
    /// Rows for a spreadsheet: exact to the letter, but where a terminal would show them.
    Rows(String),
}

fn steers(c: char) -> bool {
    is_hidden(c) && c != '\n'
}

/// Prints what a command gives. Whoever reads it may stop reading early, which is no problem.
///
/// # Errors
/// When it cannot be written.
pub fn print(printed: &Printout) -> Result<(), Problem> {
    let stdout = io::stdout();
    let is_exact = matches!(printed, Printout::Rows(_)) && !stdout.is_terminal();
    let (Printout::Text(text) | Printout::Rows(text)) = printed;
    let mut stdout = stdout.lock();
    let written = if is_exact {
        stdout.write_all(text.as_bytes())
    } else {
        write_plain(&mut stdout, text)
    };
    match written.and_then(|()| stdout.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Problem::Unprinted(error)),
        _ => Ok(()),
    }
}

fn write_plain(out: &mut impl Write, text: &str) -> io::Result<()> {
    let text = in_plain_letters(text, steers).to_string();
    out.write_all(text.as_bytes())
}

/// Tells a problem on standard error, on a line of its own. Where that cannot be written the exit
/// code still tells.
pub fn tell(problem: &impl Display) {
    let problem = problem.to_string();
    let line = in_plain_letters(&problem, is_hidden);
    let _ = writeln!(io::stderr(), "sweepgauge: {line}");
}

/// Tells lines of help on standard error.
pub fn tell_lines(lines: &str) {
    let _ = write_plain(&mut io::stderr(), lines);
}
