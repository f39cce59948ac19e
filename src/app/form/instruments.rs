//! Typical ± by instrument, offered where readings are typed: one click, one step to take back.

use egui::{Align, Id, Layout, Ui};

use super::field::{Fields, note};
use crate::app::desk::Change;
use crate::app::widgets::lettering::Lettering;
use crate::unit::{Document, Field, Instrument};
use crate::units::System;

/// Width of the menu.
const WIDTH: f32 = 300.0;

/// The menu of instruments, beside a heading.
pub fn offs_menu_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let system = fields.system;
    ui.spacing_mut().button_padding.y = 0.0;
    let menu = ui.menu_button(Lettering::Label.of("±…"), |ui| {
        ui.set_width(WIDTH);
        offers_ui(ui, document, system)
    });
    if menu.inner.is_none() && ui.data_mut(|data| data.remove_temp::<()>(opened()).is_some()) {
        menu.response.request_focus();
    }
    let name = "± by instrument…";
    fields.marks.push(menu.response.id);
    menu.response
        .on_hover_text("A typical ± by instrument, for every reading that has none")
        .accessible_name(name);
    let chosen = menu.inner.unwrap_or_default();
    if chosen.is_empty() {
        return;
    }
    let given = chosen
        .into_iter()
        .flat_map(|instrument| document.give_offs(instrument, system));
    let change = given.fold(Change::new("± by instrument"), Change::and);
    fields.set(change);
}

/// The instruments that one reading can be taken with, beside its name, while it has no ±: one click.
pub fn off_menu_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    name: &str,
    field: Field,
    document: &mut Document,
) {
    let Field::Reading(reading) = field else {
        return;
    };
    if !document.wants_off(reading) {
        return;
    }
    let system = fields.system;
    let mut chosen = None;
    ui.spacing_mut().button_padding.y = 0.0;
    let menu = ui.menu_button(Lettering::Label.of("±"), |ui| {
        ui.set_width(WIDTH);
        let words = Layout::top_down(Align::Min);
        let help =
            "What it was taken with. Typical half-widths, rules of thumb: put your own over them.";
        ui.with_layout(words, |ui| note(ui, help));
        for instrument in Instrument::offered(reading) {
            let off = instrument.half_width(system);
            if ui
                .button(format!("{} ± {off}", instrument.name()))
                .clicked()
            {
                chosen = Some(instrument);
                ui.close();
            }
        }
    });
    fields.marks.push(menu.response.id);
    menu.response
        .on_hover_text("± not entered: a typical one by its instrument")
        .accessible_name(format!("{name}: ± by instrument"));
    if let Some(instrument) = chosen
        && document.give_off(reading, instrument, system)
    {
        let change = Change::new(format!("{name}: ± by instrument"));
        fields.set(change.and(field));
    }
}

/// Where it is kept that the menu is open.
fn opened() -> Id {
    Id::unique("± by instrument is open")
}

/// What is in the open menu: those that some reading without a ± is usually taken with. Which were
/// chosen. It opens with its first offer in hand, and closes on a choice.
fn offers_ui(ui: &mut Ui, document: &Document, system: System) -> Vec<Instrument> {
    // A menu stretches what stands in it, which spreads out words.
    let words = Layout::top_down(Align::Min);
    let is_new = !ui.is_sizing_pass() && ui.data(|data| data.get_temp::<()>(opened()).is_none());
    let is_wanted = |instrument: &Instrument| document.without_off(*instrument).next().is_some();
    if !Instrument::ALL.iter().any(is_wanted) {
        ui.with_layout(words, |ui| note(ui, "Every reading here has its ±."));
        return Vec::new();
    }
    let for_all = "For every reading that has no ± yet. Typical half-widths, rules of thumb: put your own over them.";
    ui.with_layout(words, |ui| note(ui, for_all));
    let mut chosen = Vec::new();
    let all = ui.button("All, each by its usual instrument");
    if is_new {
        all.request_focus();
        ui.data_mut(|data| data.insert_temp(opened(), ()));
    }
    if all.clicked() {
        chosen = Instrument::ALL.to_vec();
    }
    for instrument in Instrument::ALL {
        let count = document.without_off(instrument).count();
        if count == 0 {
            continue;
        }
        let readings = if count == 1 { "reading" } else { "readings" };
        let name = instrument.name();
        let off = instrument.half_width(system);
        let text = format!("{name} ± {off}: {count} {readings}");
        if ui.button(text).clicked() {
            chosen = vec![instrument];
        }
    }
    if !chosen.is_empty() {
        ui.close();
    }
    chosen
}
