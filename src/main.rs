//! The program: a window, or a command that needs none.

use std::process::ExitCode;

use clap::Parser as _;
use sweepgauge::app::open_window;
use sweepgauge::headless::{self, Arguments, Command, WindowArguments};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let done = match arguments.command {
        None => open_window(WindowArguments {
            file: arguments.file,
            ..WindowArguments::default()
        }),
        Some(Command::Window(window)) => open_window(window),
        Some(command) => headless::run(&command).map(|text| print!("{text}")),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("sweepgauge: {problem}");
            problem.exit_code()
        }
    }
}
