//! Typical ± by instrument, offered where readings are typed: one click, one step to take back.

use egui::{Align, Button, Id, Layout, Ui};

use super::field::{Fields, note};
use crate::app::desk::Change;
use crate::app::widgets::lettering::Lettering;
use crate::unit::{Document, Field, Instrument, Reading};
use crate::units::System;

/// Why the reel's diameter gets none here.
const REEL_APART: &str =
    "Not the reel diameter: caliper and tape read short on most reels. Take \"Reel from…\".";

/// Width of the menu.
const WIDTH: f32 = 300.0;

/// The menu of instruments, beside a heading.
pub fn offs_menu_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let system = fields.system;
    ui.spacing_mut().button_padding.y = 0.0;
    let menu = ui.menu_button(Lettering::Label.of("±…"), |ui| {
        ui.set_width(WIDTH);
        offers_ui(ui, fields, document)
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
    let given: Vec<_> = chosen
        .into_iter()
        .flat_map(|instrument| {
            document.give_offs(instrument, system, |reading| {
                !fields.has_wrong_draft(reading.into())
            })
        })
        .collect();
    let change = Change::new("± by instrument");
    fields.set(given.into_iter().fold(change, Change::and));
}

/// The instruments that one reading can be taken with, beside its name, while it has no ±: one click.
/// None while what is typed there is wrong: a ± is given to what stands in the document.
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
    if !document.wants_off(reading) || fields.has_wrong_draft(field) {
        return;
    }
    let system = fields.system;
    ui.spacing_mut().button_padding.y = 0.0;
    let menu = ui.menu_button(Lettering::Label.of("±"), |ui| {
        ui.set_width(WIDTH);
        if Instrument::offered(reading).is_empty() {
            fields.is_reel_wanted |= reel_offer_ui(ui);
            return None;
        }
        one_offer_ui(ui, reading, document, system)
    });
    fields.marks.push(menu.response.id);
    menu.response
        .on_hover_text("± not entered: a typical one by its instrument")
        .accessible_name(format!("{name}: ± by instrument"));
    if let Some(instrument) = menu.inner.flatten()
        && document.give_off(reading, instrument, system)
    {
        let change = Change::new(format!("{name}: ± by instrument"));
        fields.set(change.and(field));
    }
}

/// What is in the open menu of one reading; what was chosen. A ± that the reading cannot have says why.
fn one_offer_ui(
    ui: &mut Ui,
    reading: Reading,
    document: &Document,
    system: System,
) -> Option<Instrument> {
    let words = Layout::top_down(Align::Min);
    let help = "The instrument it was read with. Typical plus or minus, rules of thumb: replace them with your own.";
    ui.with_layout(words, |ui| note(ui, help));
    let mut chosen = None;
    for instrument in Instrument::offered(reading).iter().copied() {
        let off = instrument.half_width(system);
        let refused = document.refuses_off(reading, instrument, system);
        let button = Button::new(format!("{} ± {off}", instrument.name()));
        if ui.add_enabled(refused.is_none(), button).clicked() {
            chosen = Some(instrument);
            ui.close();
        }
        if let Some(why) = refused {
            ui.with_layout(words, |ui| note(ui, &why));
        }
    }
    chosen
}

/// What gives a reel's diameter its ±; whether it was chosen.
fn reel_offer_ui(ui: &mut Ui) -> bool {
    let words = Layout::top_down(Align::Min);
    let help = "A bare caliper or tape reads short on most reels, by more than a ± of either holds. Work the diameter out from other readings with a ± each.";
    ui.with_layout(words, |ui| note(ui, help));
    let is_chosen = ui.button("Reel from…").clicked();
    if is_chosen {
        ui.close();
    }
    is_chosen
}

/// Where it is kept that the menu is open.
fn opened() -> Id {
    Id::unique("± by instrument is open")
}

/// What is in the open menu: those that some reading without a ± is usually taken with. Which were
/// chosen. It opens with its first offer in hand, and closes on a choice.
fn offers_ui(ui: &mut Ui, fields: &Fields, document: &Document) -> Vec<Instrument> {
    let system = fields.system;
    // A menu stretches what stands in it, which spreads out words.
    let words = Layout::top_down(Align::Min);
    let is_new = !ui.is_sizing_pass() && ui.data(|data| data.get_temp::<()>(opened()).is_none());
    let can_take = |instrument: Instrument| {
        let wanting = document.without_off(instrument);
        wanting.filter(move |reading| {
            !fields.has_wrong_draft((*reading).into())
                && document.refuses_off(*reading, instrument, system).is_none()
        })
    };
    let is_reel_open = document.wants_off(Reading::ReelDiameter);
    if !Instrument::ALL
        .into_iter()
        .any(|of| can_take(of).next().is_some())
    {
        let told = if is_reel_open {
            "Every reading that an instrument can give a ± has one."
        } else {
            "Every reading here has its ±."
        };
        ui.with_layout(words, |ui| note(ui, told));
        if is_reel_open {
            ui.with_layout(words, |ui| note(ui, REEL_APART));
        }
        return Vec::new();
    }
    let for_all = "For every reading that has no ± yet. Typical plus or minus, rules of thumb: replace them with your own.";
    ui.with_layout(words, |ui| note(ui, for_all));
    if is_reel_open {
        ui.with_layout(words, |ui| note(ui, REEL_APART));
    }
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
        let count = can_take(instrument).count();
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
