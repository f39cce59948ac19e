//! The window: a form on the left, the area in front on the right.
//!
//! What belongs here: widgets, files as a person opens and saves them, painting marks with egui. A
//! `_ui` function shows and edits; what is computed comes from `analysis`, what is drawn from
//! `drawing`. The document is the truth, widgets own none. This room imports every other but
//! `headless`.
//!
//! Its own rooms, each importing only from those before it: `widgets`, `desk`, `files`, `form`,
//! `areas`, `show`, `shell`.

mod areas;
mod desk;
mod files;
mod form;
mod shell;
mod show;
mod widgets;

pub use areas::About;
pub use desk::{
    Ask, Change, Choosing, DEMO_UNIT, Dialogs, LessMotion, MotionWish, NoDialogs, NoMotionWish,
    NoOpener, NoPrinter, Opener, Opening, OtherUnit, Part, Preferences, PrintJob, Printed, Printer,
    Printing, Session, SessionId, WindowPlace, chosen,
};
#[cfg(all(unix, not(target_os = "macos")))]
pub use files::{PortalMotion, PortalPrinter};
pub use shell::{App, Beginning, open_window};
pub use show::show_style;
pub use widgets::look::dress;
