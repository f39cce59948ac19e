//! The program as a person runs it.

use std::process::Command;

/// What one run of the program left behind.
#[derive(Debug)]
pub struct Run {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

pub fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
}

pub fn ran(command: &mut Command) -> Run {
    let output = command.output().expect("the program starts");
    Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).expect("plain text"),
        err: String::from_utf8(output.stderr).expect("plain text"),
    }
}
