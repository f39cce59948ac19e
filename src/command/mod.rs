//! What is asked of the program: the words of the command line, and what is answered when it
//! cannot be done.
//!
//! What belongs here: what the window and the program without one share, being asked in the same
//! way. Arguments, what-ifs put into a document, a folder of units read, problems with their exit codes; no
//! report, no picture. The door to the terminal, through which both speak. This room imports those up to `store`.

mod arguments;
mod lesson_file;
mod problem;
mod shop_board;
pub mod terminal;
mod what_if;

pub use arguments::{AREA_FLAGS, Arguments, Command, HeadlessCommand, WindowArguments, caution};
pub use lesson_file::{OpenLesson, open_lesson, unit_of_lesson};
pub use problem::Problem;
pub use shop_board::{BoardUnit, Refused, RefusedKind, ShopBoard, damage_told};
pub use terminal::Printout;
pub use what_if::{WhatIf, WhatIfProblem, given_length};
