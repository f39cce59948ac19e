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
use crate::unit::{ClosingWay, Document, Field, Group, HardwarePoint, MowingEntry, Reading};

use crate::app::widgets::lettering::strong;
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
    fields.row(ui, "Name", Field::Name, document);
    fields.choice(ui, "Turf", Field::Turf, document);
}

fn reel_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let rows = [
        ("Diameter, new", Field::NewDiameter),
        ("Scrap size", Field::SmallestDiameter),
        ("Blades", Field::Blades),
    ];
    fields.rows(ui, document, &rows);
}

/// The bench measurements; whether behind centre is wanted from other readings.
fn bench_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) -> bool {
    note(
        ui,
        "Measured with the unit standing on the plate. A reading may carry ±.",
    );
    let rows = [
        ("Reel diameter, bench", Reading::ReelDiameter.into()),
        ("Height of cut, bench", Reading::HeightOfCut.into()),
        ("Attitude, bench", Reading::Attitude.into()),
        ("Behind centre, bench", Reading::BehindCentre.into()),
    ];
    fields.rows(ui, document, &rows);
    let wants_card = ui
        .button("Behind centre from other readings…")
        .on_hover_text("From the rise of the edge, or from a gauge block")
        .clicked();
    fields.row(ui, "Gap, bench", Reading::Gap, document);
    wants_card
}

fn rollers_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let rows = [
        ("Front, diameter", Reading::FrontDiameter.into()),
        ("Front, ahead of edge", Reading::FrontAhead.into()),
        ("Rear, diameter", Reading::RearDiameter.into()),
        ("Rear, behind edge", Reading::RearBehind.into()),
    ];
    fields.rows(ui, document, &rows);
}

fn closing_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    if fields.choice(ui, "Closed by", Field::Closing, document) {
        fields.set(Change::of("Closed by", Group::Closing));
    }
    match document.closing.way() {
        ClosingWay::ReelSlides => {
            let name = "Lean of the slide";
            fields.row_or(ui, name, Reading::Lean, document, "bench line");
        }
        ClosingWay::ReelPivots | ClosingWay::KnifePivots => {
            fields.row(ui, "Pivot, ahead of edge", Reading::PivotAhead, document);
            fields.row(ui, "Pivot, above plate", Reading::PivotAbove, document);
        }
    }
}

fn hardware_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Screw heads and lugs that could drag, measured from the bench knife's edge.",
    );
    let mut removed = None;
    for index in 0..document.hardware.len() {
        let number = index + 1;
        let behind = format!("Point {number}, behind");
        fields.row(ui, &behind, Reading::HardwareBehind(index), document);
        let below = format!("Point {number}, below");
        fields.row(ui, &below, Reading::HardwareBelow(index), document);
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
    note(ui, "Attitude, height, reel and extension are set above.");
    fields.row_or(ui, "Gap", Field::WantedGap, document, &gap);
    fields.row_or(ui, "Top ground", Field::TopGround, document, &none);
    fields.row_or(ui, "Face ground", Field::FaceGround, document, &none);
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
        document.mark_examples(Group::Mowing);
    }
    if document.mowing.is_some() {
        fields.group_rows(ui, document, Group::Mowing);
    }
}
