//! The form's knives: the one on the bench and those to compare.

use egui::{RichText, Ui};

use super::field::{Fields, note};
use crate::app::desk::Change;
use crate::app::widgets::look::strong;
use crate::unit::{Document, Field, Fitted, FlawKind, Group, Knife, KnifePart, KnifeText, Reading};

pub fn knives_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "The knife on the bench; the others are measured against it.",
    );
    edited_knife_ui(ui, fields, document, Fitted::Bench);
    let mut removed = None;
    for index in 0..document.options.len() {
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
    }
    if let Some(index) = removed {
        document.remove_knife(index);
        fields.set(Change::of("Removed knife", Group::Options));
    }
    if ui.button("Add a knife to compare").clicked() {
        fields.set(Change::new("Added knife"));
        document.add_knife(Knife {
            name: document.free_knife_name("knife 1"),
            price: None,
            notes: None,
            ..document.knife.clone()
        });
    }
}

/// The fields of one of the document's knives.
pub fn edited_knife_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document, place: Fitted) {
    let Some(before) = document.knife_at(place) else {
        return;
    };
    let mut knife = before.clone();
    let number = match place {
        Fitted::Bench => None,
        Fitted::Option(index) => Some(index + 1),
    };
    let others = document.knives().filter(|(other, _)| *other != place);
    let taken: Vec<&str> = others.map(|(_, other)| other.name.as_str()).collect();
    knife_ui(ui, fields, place, &mut knife, number, &taken);
    if document.knife_at(place) != Some(&knife) {
        document.put_knife(place, knife);
    }
}

fn knife_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    place: Fitted,
    knife: &mut Knife,
    number: Option<usize>,
    taken: &[&str],
) {
    let part = |part| Reading::Knife(place, part);
    let text = |text| Field::KnifeText(place, text);
    let named = |name: &str| number.map_or_else(|| name.to_owned(), |n| format!("{name}, {n}"));
    let is_free = |name: &str| match name {
        name if name.trim().is_empty() => Err(FlawKind::NoName.to_string()),
        name if taken.contains(&name) => Err(FlawKind::NameTwice(name.to_owned()).to_string()),
        _ => Ok(()),
    };
    let name = &mut knife.name;
    fields.checked_text(
        ui,
        &named("Knife name"),
        text(KnifeText::Name),
        name,
        is_free,
    );
    fields.quantity(
        ui,
        &named("Reach"),
        part(KnifePart::Reach),
        &mut knife.reach,
    );
    fields.quantity(
        ui,
        &named("Width"),
        part(KnifePart::Width),
        &mut knife.width,
    );
    fields.quantity(
        ui,
        &named("Lip thickness"),
        part(KnifePart::LipThickness),
        &mut knife.lip_thickness,
    );
    fields.quantity(
        ui,
        &named("Lip length"),
        part(KnifePart::LipLength),
        &mut knife.lip_length,
    );
    fields.quantity(
        ui,
        &named("Body thickness"),
        part(KnifePart::BodyThickness),
        &mut knife.body_thickness,
    );
    let mut price = knife.price.clone().unwrap_or_default();
    fields.text(ui, &named("Price"), text(KnifeText::Price), &mut price);
    if price != knife.price.as_deref().unwrap_or_default() {
        knife.price = (!price.is_empty()).then_some(price);
    }
    let mut notes = knife.notes.clone().unwrap_or_default();
    fields.text(ui, &named("Notes"), text(KnifeText::Notes), &mut notes);
    if notes != knife.notes.as_deref().unwrap_or_default() {
        knife.notes = (!notes.is_empty()).then_some(notes);
    }
}
