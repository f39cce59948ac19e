//! The program: a window, or a command that needs none.

use std::process::ExitCode;

use clap::Parser as _;
use sweepgauge::headless::{self, Arguments};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match arguments.command {
        Some(command) => match headless::run(&command) {
            Ok(text) => {
                print!("{text}");
                ExitCode::SUCCESS
            }
            Err(problem) => {
                eprintln!("sweepgauge: {problem}");
                problem.exit_code()
            }
        },
        None => ExitCode::SUCCESS,
    }
}
