//! Typical ± by instrument, offered where readings are typed: one click, one step to take back.

use egui::Ui;

use super::field::{Fields, note};
use crate::app::desk::Change;
use crate::unit::{Document, Instrument, Reading};

/// Width of the menu.
const WIDTH: f32 = 300.0;

/// The menu of instruments that some reading without a ± is usually taken with.
pub fn offs_menu_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let system = fields.system;
    let offers: Vec<_> = Instrument::ALL
        .into_iter()
        .map(|instrument| (instrument, document.without_off(instrument).count()))
        .filter(|(_, count)| *count > 0)
        .collect();
    if offers.is_empty() {
        return;
    }
    let mut chosen = None;
    ui.menu_button("± by instrument…", |ui| {
        ui.set_min_width(WIDTH);
        note(
            ui,
            "For every reading that has no ± yet. Typical half-widths, starting values, no source: put your own over them.",
        );
        if ui.button("All, each by its usual instrument").clicked() {
            chosen = Some(Instrument::ALL.to_vec());
        }
        for (instrument, count) in &offers {
            let readings = if *count == 1 { "reading" } else { "readings" };
            let name = instrument.name();
            let off = instrument.half_width(system);
            let text = format!("{name} ± {off}: {count} {readings}");
            if ui.button(text).clicked() {
                chosen = Some(vec![*instrument]);
            }
        }
    })
    .response
    .on_hover_text("A ± for every reading that has none");
    if let Some(instruments) = chosen {
        let given: Vec<Reading> = instruments
            .into_iter()
            .flat_map(|instrument| document.give_offs(instrument, system))
            .collect();
        let named = Change::new("± by instrument");
        let change = given
            .into_iter()
            .fold(named, |change, reading| change.and(reading));
        fields.set(change);
    }
}
