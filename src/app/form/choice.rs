//! A field that is one of a few.

use egui::{ComboBox, Ui};

use super::field::Fields;
use crate::app::desk::{Change, Slot};
use crate::app::widgets::help::explain;
use crate::app::widgets::list::list_ui;
use crate::unit::{Document, Field, Kind};

impl Fields<'_> {
    /// A field that is one of a few, without its name; whether another was chosen.
    pub fn choice_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: Field,
        document: &mut Document,
    ) -> bool {
        let Kind::Choice(choice) = field.kind() else {
            return false;
        };
        let offers = choice.offers();
        let before = field.text(document).unwrap_or_default().into_owned();
        let mut chosen: &str = &before;
        let shown = offers.iter().find(|offer| offer.word == before);
        let shown = shown.map_or("", |offer| offer.name);
        let list = ComboBox::from_id_salt(Slot::from(field))
            .width(ui.available_width())
            .selected_text(shown);
        let response = list_ui(ui, list, |ui, list| {
            for offer in &offers {
                if list.offer(ui, offer.word == before, offer.name) {
                    chosen = offer.word;
                }
            }
        })
        .accessible_name(name);
        self.first.get_or_insert(response.id);
        if response.has_focus() {
            self.in_hand = Some(Slot::from(field));
        }
        self.look(&response, field);
        explain(ui, response, field);
        let is_changed = chosen != before && field.set(document, chosen, self.system).is_ok();
        if is_changed {
            self.set(Change::of(name.to_owned(), field));
        }
        is_changed
    }
}
