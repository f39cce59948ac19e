//! Lessons: a unit shown and explained in steps, to people in front of a screen or with paper in hand.
//!
//! What belongs here: the lesson as a person writes it, the text it is kept as, whether it makes sense,
//! and its steps solved, with every number of their texts worked out. [`Lesson`] is what is written,
//! [`SolvedStep`] a step with its units solved. Which pictures go with a step is for `drawing`, opening files
//! for `store`. This room imports `units`, `unit` and `analysis`.

mod answers;
mod arranged;
mod checked;
mod fields;
mod flaw;
mod large_numbers;
mod script;
mod solved;
mod step_move;
mod template;
mod text;
mod turned;
mod wrong_entry;

pub use answers::{Answer, answers};
pub use checked::{MOST_NUMBERS, MOST_STEPS};
pub use fields::{Figure, FigureOf, Whose, list_of_fields};
pub use flaw::{LessonFlaw, LessonFlawKind, LessonPlace};
pub use script::{Emphasis, Held, Lesson, LessonFormat, LessonView, SingleView, Step, UnitUse};
pub use solved::{
    Named, ShownFigure, SolvedStep, StepProblem, StepUnits, solve_steps, solve_with, units_of_steps,
};
pub use step_move::StepMove;
pub use text::{LESSON_FILE, parse_lesson, read_lesson, write_lesson};
pub use turned::Turned;
pub use wrong_entry::WrongEntry;
