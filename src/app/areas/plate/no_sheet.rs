//! The area while no sheet is open: begin one, or open one.

use crate::app::areas::no_work::NoWork;
use crate::app::desk::WorkKind;

/// What a plate sheet is for, and the two ways to begin it.
pub const NO_SHEET: NoWork = NoWork {
    kind: WorkKind::Sheet,
    title: "Rollers parallel to the cut line",
    about: &[
        "A plate sheet leads from the clean plate to the finished unit, step by step: runout, knife to reel, both rollers parallel on the gauge bar, and the height of cut that proves it.",
    ],
    buttons: ["New sheet for this unit", "Open a sheet…"],
};
