//! The area while no lesson is open: begin one, or open one.

use crate::app::areas::no_work::NoWork;
use crate::app::desk::WorkKind;

/// What a lesson is for, and the two ways to begin.
pub const NO_LESSON: NoWork = NoWork {
    kind: WorkKind::Lesson,
    title: "A unit explained in steps",
    about: &[
        "A lesson shows a unit to people step by step: a picture, a few sentences, up to four large numbers. No number is typed; each is worked out from the unit of its step.",
        "From any area, View, Keep this as a step puts the unit in front behind the other steps.",
    ],
    buttons: ["New lesson", "Open a lesson…"],
};
