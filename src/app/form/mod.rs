//! The form: every group of the document, folded until it is wanted, and the setting over it.

mod behind_card;
mod field;
mod ground;
mod knives;
mod limits;
mod sliders;
mod straightedge;

pub use field::fill_in;
pub use knives::edited_knife_ui;
pub use sliders::show as setting_ui;

use egui::{CollapsingHeader, RichText, ScrollArea, Ui};

use self::behind_card::BehindCard;
use self::field::{Fields, note};
use self::ground::{ground_ui, wear_ui};
use self::knives::knives_ui;
use self::limits::limits_ui;
use super::desk::{Change, Desk};
use super::widgets::look::strong;
use crate::unit::{ClosingReadings, Document, Field, Group, HardwarePoint, MowingEntry, Reading};
use crate::units::{Length, Measure, Quantity, Speed, System, Turning};

/// The groups, in a column that scrolls.
pub fn show(ui: &mut Ui, desk: &mut Desk) {
    let wants_card = fill_in(ui, desk, |ui, fields, document| {
        let mut wants_card = false;
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            group(ui, "Unit", true, |ui| unit_ui(ui, fields, document));
            group(ui, "Reel", false, |ui| reel_ui(ui, fields, document));
            group(ui, "Bench measurements", true, |ui| {
                wants_card = bench_ui(ui, fields, document);
            });
            group(ui, "Rollers", false, |ui| {
                rollers_ui(ui, fields, document);
            });
            group(ui, "Closing the gap", false, |ui| {
                closing_ui(ui, fields, document);
            });
            group(ui, "Knife", false, |ui| {
                knives_ui(ui, fields, document);
            });
            group(ui, "Hardware under the knife", false, |ui| {
                hardware_ui(ui, fields, document);
            });
            group(ui, "Setting: gap and grinding", false, |ui| {
                gap_and_grinding_ui(ui, fields, document);
            });
            group(ui, "Mowing", false, |ui| {
                mowing_ui(ui, fields, document);
            });
            group(ui, "Ground", false, |ui| {
                ground_ui(ui, fields, document);
            });
            group(ui, "Wear", false, |ui| {
                wear_ui(ui, fields, document);
            });
            group(ui, "Limits", false, |ui| {
                limits_ui(ui, fields, document);
            });
            ui.add_space(8.0);
        });
        wants_card
    });
    if wants_card {
        let card = BehindCard::for_document(desk.document(), desk.system());
        desk.open_card(card);
    }
}

fn group(ui: &mut Ui, name: &str, is_open: bool, body: impl FnOnce(&mut Ui)) {
    CollapsingHeader::new(RichText::new(name).family(strong()))
        .id_salt(name)
        .default_open(is_open)
        .show_unindented(ui, |ui| {
            body(ui);
            ui.add_space(6.0);
        });
}

fn unit_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    fields.text(ui, "Name", Field::Name, &mut document.name);
    fields.choice(ui, "Turf", Field::Turf, &mut document.turf);
}

fn reel_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let reel = &mut document.reel;
    fields.quantity(
        ui,
        "Diameter, new",
        Field::NewDiameter,
        &mut reel.new_diameter,
    );
    fields.quantity(
        ui,
        "Scrap size",
        Field::SmallestDiameter,
        &mut reel.smallest_diameter,
    );
    fields.count(ui, "Blades", Field::Blades, &mut reel.blades);
}

/// The bench measurements; whether behind centre is wanted from other readings.
fn bench_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) -> bool {
    let bench = &mut document.bench;
    note(
        ui,
        "Measured with the unit standing on the plate. A reading may carry ±.",
    );
    fields.quantity(
        ui,
        "Reel diameter, bench",
        Reading::ReelDiameter,
        &mut bench.reel_diameter,
    );
    fields.quantity(
        ui,
        "Height of cut, bench",
        Reading::HeightOfCut,
        &mut bench.height_of_cut,
    );
    fields.quantity(
        ui,
        "Attitude, bench",
        Reading::Attitude,
        &mut bench.attitude,
    );
    fields.quantity(
        ui,
        "Behind centre, bench",
        Reading::BehindCentre,
        &mut bench.behind_centre,
    );
    let wants_card = ui
        .button("Behind centre from other readings…")
        .on_hover_text("From the rise of the edge, or from a gauge block")
        .clicked();
    fields.quantity(ui, "Gap, bench", Reading::Gap, &mut bench.gap);
    wants_card
}

fn rollers_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let front = &mut document.bench.front_roller;
    fields.quantity(
        ui,
        "Front, diameter",
        Reading::FrontDiameter,
        &mut front.diameter,
    );
    fields.quantity(
        ui,
        "Front, ahead of edge",
        Reading::FrontAhead,
        &mut front.ahead,
    );
    let rear = &mut document.bench.rear_roller;
    fields.quantity(
        ui,
        "Rear, diameter",
        Reading::RearDiameter,
        &mut rear.diameter,
    );
    fields.quantity(
        ui,
        "Rear, behind edge",
        Reading::RearBehind,
        &mut rear.behind,
    );
}

fn closing_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let closing = &mut document.closing;
    let mut way = closing.way();
    if fields.choice(ui, "Closed by", Field::Closing, &mut way) {
        fields.set(Change::of("Closed by", Group::Closing));
        closing.close_by(way, fields.system);
    }
    match closing {
        ClosingReadings::ReelSlides { lean } => {
            fields.optional(ui, "Lean of the slide", Reading::Lean, lean, "bench line");
        }
        ClosingReadings::ReelPivots { ahead, above }
        | ClosingReadings::KnifePivots { ahead, above } => {
            fields.quantity(ui, "Pivot, ahead of edge", Reading::PivotAhead, ahead);
            fields.quantity(ui, "Pivot, above plate", Reading::PivotAbove, above);
        }
    }
}

fn hardware_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Screw heads and lugs that could drag, measured from the bench knife's edge.",
    );
    let mut removed = None;
    for (index, point) in document.hardware.iter_mut().enumerate() {
        let number = index + 1;
        fields.quantity(
            ui,
            &format!("Point {number}, behind"),
            Reading::HardwareBehind(index),
            &mut point.behind,
        );
        fields.quantity(
            ui,
            &format!("Point {number}, below"),
            Reading::HardwareBelow(index),
            &mut point.below,
        );
        if ui.small_button(format!("Remove point {number}")).clicked() {
            removed = Some(index);
        }
    }
    if let Some(index) = removed {
        document.hardware.remove(index);
        fields.set(Change::of("Removed hardware point", Group::HardwareList));
    }
    if ui.button("Add a point").clicked() {
        fields.set(Change::new("Added hardware point"));
        document.hardware.push(HardwarePoint {
            behind: document.knife.reach.clone(),
            below: document.knife.body_thickness.clone(),
        });
    }
}

fn gap_and_grinding_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let gap = document.bench.gap.shown_in(fields.system);
    let none = Length::ZERO.entry(fields.system);
    let setting = &mut document.setting;
    note(ui, "Attitude, height, reel and extension are set above.");
    fields.optional(ui, "Gap", Field::WantedGap, &mut setting.gap, &gap);
    fields.optional(
        ui,
        "Top ground",
        Field::TopGround,
        &mut setting.top_ground,
        &none,
    );
    fields.optional(
        ui,
        "Face ground",
        Field::FaceGround,
        &mut setting.face_ground,
        &none,
    );
}

/// Speeds to begin with, to be typed over.
pub fn example_speeds(system: System) -> MowingEntry {
    MowingEntry {
        ground_speed: Quantity::from_value(Speed::from_base(1788.16), system),
        reel_speed: Quantity::from_value(Turning::from_base(1000.0), system),
    }
}

fn mowing_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let mut is_known = document.mowing.is_some();
    let name = "Speeds are known";
    if ui.checkbox(&mut is_known, name).changed() {
        fields.set(Change::of(name, Group::Mowing));
        let system = fields.system;
        document.mowing = is_known.then(|| example_speeds(system));
    }
    if let Some(mowing) = &mut document.mowing {
        fields.quantity(
            ui,
            "Ground speed",
            Reading::GroundSpeed,
            &mut mowing.ground_speed,
        );
        fields.quantity(ui, "Reel speed", Reading::ReelSpeed, &mut mowing.reel_speed);
    }
}
