//! Steps without a reading: what was felt, ticked off.

use egui::Ui;

use crate::app::areas::plate::entry::Entries;
use crate::app::widgets::lettering::Lettering;
use crate::plate::Step;

/// What to feel for, and the tick.
pub fn tick_ui(ui: &mut Ui, entries: &mut Entries, step: Step) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let (more, name) = match step {
        Step::Bearings => (
            "Push and pull each end across the roller, then along it. If you can feel play, renew the bearing before you read on: play moves the roller further than the readings that follow.",
            "No play in any bearing",
        ),
        _ => (
            "If it rocks corner to corner, the frame or a roller bracket is twisted. If it sits firm, go on.",
            "It sits firm on both rollers",
        ),
    };
    ui.label(more);
    ui.add_space(6.0);
    let sheet = sheet.sheet();
    // A step to be done again is ticked anew.
    let mut is_done = sheet.ticked.contains(&step) && !sheet.again.contains(&step);
    let text = Lettering::InShort.of(name);
    if ui.checkbox(&mut is_done, text).changed() {
        entries.desk.edit_sheet(step.title(), None, |entries| {
            entries.tick(step, is_done);
        });
    }
}
