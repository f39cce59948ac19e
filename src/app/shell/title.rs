//! The window's title.

use egui::{Context, ViewportCommand};

use crate::app::desk::Desk;
use crate::units::clipped;

/// The letters of a name that a title shows: some desktops stand still over thousands of them.
const LONGEST_NAME: usize = 120;

/// The title last sent. Not every windowing system tells which title it shows, and sending it again
/// and again would never let the window rest.
#[derive(Debug, Default)]
pub struct Title(String);

impl Title {
    /// Sends the title if it changed: the unit, with a mark for unsaved changes.
    pub fn send(&mut self, ctx: &Context, desk: &Desk) {
        let mark = if desk.has_unsaved() { "• " } else { "" };
        let name = clipped(&desk.document().name, LONGEST_NAME);
        let title = format!("{mark}{name} - Sweepgauge");
        if self.0 != title {
            self.0.clone_from(&title);
            ctx.send_viewport_cmd(ViewportCommand::Title(title));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::desk::{Change, NoDialogs, Preferences, Session};

    #[test]
    fn a_title_is_short_and_steers_nothing() {
        let session = Session::demo().expect("the demo unit opens");
        let mut desk = Desk::new(session, Preferences::default(), Box::new(NoDialogs));
        desk.edit(Change::new("Name"), |document| {
            document.name = format!("\u{202e}a\n{}", "ö".repeat(100_000));
        });
        let mut title = Title::default();
        title.send(&Context::default(), &desk);
        assert!(title.0.starts_with("• \\u{202e}a\\nö"), "{}", title.0);
        assert!(title.0.ends_with("ö… - Sweepgauge") && title.0.chars().count() < 160);
    }
}
