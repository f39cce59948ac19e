//! The form's knives: the one on the bench and those to compare.

use egui::{RichText, Ui};

use super::field::{Fields, note};
use super::section::heading_ui;
use crate::app::desk::Change;
use crate::app::widgets::lettering::strong;
use crate::app::widgets::long_list::long_list_ui;
use crate::unit::{Document, Field, Fitted, Group, Knife, KnifePart, KnifeText, Pieces, Reading};

/// About how high the fields of a knife to compare are.
const OPTION: f32 = 340.0;

/// The knife that was on the unit while it was measured.
pub fn knives_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    heading_ui(
        ui,
        "Knife",
        "the one fitted; lip, body: for the underside only",
    );
    let field = |part| Field::from(Reading::Knife(Fitted::Bench, part));
    let cell = |part| (field(part).name(), field(part).name(), field(part));
    let name = (
        "Knife name",
        "Knife name",
        Field::KnifeText(Fitted::Bench, KnifeText::Name),
    );
    fields.pair(ui, document, [name, cell(KnifePart::Reach)]);
    let thick = [cell(KnifePart::LipThickness), cell(KnifePart::LipLength)];
    fields.pair(ui, document, thick);
    let body = [cell(KnifePart::BodyThickness), cell(KnifePart::Width)];
    fields.pair(ui, document, body);
}

/// Whatever else is written about that knife, and those to compare with it.
pub fn knives_to_compare_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(ui, "Measured against the knife above.");
    for text in [KnifeText::Price, KnifeText::Quantity, KnifeText::Notes] {
        let field = Field::KnifeText(Fitted::Bench, text);
        fields.row(ui, field.name(), field, document);
    }
    let faces = KnifePart::ALL
        .into_iter()
        .filter(|part| part.can_be_left_out());
    for part in faces {
        let field = Field::from(Reading::Knife(Fitted::Bench, part));
        fields.row(ui, field.name(), field, document);
    }
    let mut removed = None;
    let count = document.options.len();
    long_list_ui(ui, "options", count, OPTION, |ui, index| {
        ui.push_id(index, |ui| {
            ui.separator();
            ui.horizontal(|ui| {
                ui.label(RichText::new(format!("To compare, {}", index + 1)).family(strong()));
                let name = format!("Remove {}", document.options[index].name);
                let button = ui.small_button("Remove").accessible_name(&name);
                if button.on_hover_text(&name).clicked() {
                    removed = Some(index);
                }
            });
            edited_knife_ui(ui, fields, document, Fitted::Option(index));
        });
    });
    if let Some(index) = removed {
        document.remove_knife(index);
        fields.set(Change::of("Removed knife", Group::Options));
    }
    if ui.button("Add a knife to compare").clicked() {
        fields.set(Change::new("Added knife"));
        document.add_knife(Knife {
            name: document.free_knife_name("knife 1"),
            price: None,
            quantity: Pieces::default(),
            notes: None,
            // One to be ordered is new.
            top_ground: None,
            face_ground: None,
            ..document.knife.clone()
        });
    }
}

/// The fields of one of the document's knives.
pub fn edited_knife_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document, place: Fitted) {
    let named = |name: &str| match place {
        Fitted::Bench => name.to_owned(),
        Fitted::Option(index) => format!("{name}, {}", index + 1),
    };
    for field in Field::of_knife(place) {
        let is_name = field == Field::KnifeText(place, KnifeText::Name);
        let name = if is_name { "Knife name" } else { field.name() };
        fields.row(ui, &named(name), field, document);
    }
}
