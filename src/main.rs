//! The program: a window, or a command that needs none.

use std::io::{ErrorKind, Write as _};
use std::process::ExitCode;

use clap::Parser as _;
use sweepgauge::app::open_window;
use sweepgauge::command::{Arguments, Command, Problem, WindowArguments};
use sweepgauge::headless;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let done = match arguments.command {
        None => open_window(WindowArguments {
            file: arguments.file,
            ..WindowArguments::default()
        }),
        Some(Command::Window(window)) => open_window(window),
        Some(Command::Headless(command)) => headless::run(&command).and_then(|text| print(&text)),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("sweepgauge: {problem}");
            problem.exit_code()
        }
    }
}

/// Prints a report. Whoever reads it may stop reading early, which is no problem.
fn print(text: &str) -> Result<(), Problem> {
    match std::io::stdout().write_all(text.as_bytes()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Problem::Unprinted(error)),
        _ => Ok(()),
    }
}
