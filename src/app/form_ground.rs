//! The form's ground and wear: what the rollers stand on, and what is out of true.

use egui::Ui;

use super::field::{Fields, choice, note};
use super::form_straightedge::straightedge_ui;
use crate::unit::{Document, ShapeEntry};
use crate::units::{Length, Quantity, System};

pub(super) fn ground_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    const NAMES: [&str; 3] = ["Level", "Crest", "Hollow"];
    let ground = &mut document.ground;
    fields.quantity(
        ui,
        "Roller sink",
        "ground.roller_sink",
        &mut ground.roller_sink,
    );
    let now = match ground.shape {
        ShapeEntry::Level => NAMES[0],
        ShapeEntry::Crest(_) => NAMES[1],
        ShapeEntry::Hollow(_) => NAMES[2],
    };
    let mut chosen = now;
    choice(ui, "Shape", "ground.shape", now, |ui| {
        for name in NAMES {
            ui.selectable_value(&mut chosen, name, name);
        }
    });
    if chosen != now {
        fields.drafts.remove("ground.shape");
        let radius = match &ground.shape {
            ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) => radius.clone(),
            ShapeEntry::Level => {
                let text = if fields.system == System::Millimetre {
                    "6 m"
                } else {
                    "20 ft"
                };
                Quantity::parse(text).unwrap_or_else(|_| {
                    Quantity::from_value(Length::from_mm(6000.0), fields.system)
                })
            }
        };
        ground.shape = match chosen {
            "Crest" => ShapeEntry::Crest(radius),
            "Hollow" => ShapeEntry::Hollow(radius),
            _ => ShapeEntry::Level,
        };
    }
    if let ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) = &mut ground.shape {
        fields.quantity(ui, "Radius", "ground.shape", radius);
    }
    straightedge_ui(ui, fields, ground);
}

pub(super) fn wear_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Unit blocked, engine off, key out: turn each roller by hand under a dial gauge and write the full reading.",
    );
    let wear = &mut document.wear;
    fields.quantity(
        ui,
        "Front roller runout",
        "wear.front_runout",
        &mut wear.front_runout,
    );
    fields.quantity(
        ui,
        "Rear roller runout",
        "wear.rear_runout",
        &mut wear.rear_runout,
    );
    fields.quantity(
        ui,
        "End to end difference",
        "wear.end_difference",
        &mut wear.end_difference,
    );
}
