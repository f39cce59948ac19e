//! The program: a window, or a command that needs none.

use std::process::ExitCode;

use clap::Parser as _;
use sweepgauge::app::open_window;
use sweepgauge::command::{
    Arguments, Command, HeadlessCommand, Printout, Problem, WindowArguments, terminal,
};
use sweepgauge::headless;

fn main() -> ExitCode {
    match Arguments::try_parse() {
        Ok(arguments) => ended(run(arguments)),
        Err(refused) if refused.use_stderr() => {
            terminal::tell_lines(&refused.render().to_string());
            // The code for an argument that is wrong.
            ExitCode::from(2)
        }
        // Help and the version are asked for, too.
        Err(help) => ended(terminal::print(&Printout::Text(help.render().to_string()))),
    }
}

fn run(arguments: Arguments) -> Result<(), Problem> {
    match arguments.command {
        None => open_window(WindowArguments {
            file: arguments.file,
            ..WindowArguments::default()
        }),
        Some(Command::Window(window)) => open_window(window),
        Some(Command::Headless(HeadlessCommand::Lesson {
            file,
            check: false,
            handout: None,
            presenter,
            ..
        })) => open_window(WindowArguments {
            lesson: Some(file),
            presenter,
            ..WindowArguments::default()
        }),
        Some(Command::Headless(command)) => {
            headless::run(&command).and_then(|printed| terminal::print(&printed))
        }
    }
}

fn ended(done: Result<(), Problem>) -> ExitCode {
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            terminal::tell(&problem);
            problem.exit_code()
        }
    }
}
