//! The window's title.

use egui::{Context, ViewportCommand};

use crate::app::desk::Desk;

/// The title last sent. Not every windowing system tells which title it shows, and sending it again
/// and again would never let the window rest.
#[derive(Debug, Default)]
pub struct Title(String);

impl Title {
    /// Sends the title if it changed: the unit, with a mark for unsaved changes.
    pub fn send(&mut self, ctx: &Context, desk: &Desk) {
        let mark = if desk.has_unsaved() { "• " } else { "" };
        let title = format!("{mark}{} - Sweepgauge", desk.document().name);
        if self.0 != title {
            self.0.clone_from(&title);
            ctx.send_viewport_cmd(ViewportCommand::Title(title));
        }
    }
}
