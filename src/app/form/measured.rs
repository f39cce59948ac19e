//! The first step of the form, as measured: every reading in the order of the work at the bench.

use egui::{ScrollArea, Ui};

use super::field::{Fields, note};
use super::ground::{ground_ui, wear_ui};
use super::instruments::offs_menu_ui;
use super::knives::{knives_to_compare_ui, knives_ui};
use super::limits::limits_ui;
use super::section::{heading_between, heading_ui, section_ui};
use crate::app::desk::Change;
use crate::app::widgets::focus::Followed;
use crate::unit::{
    ClosingWay, Document, Field, Fitted, Group, HardwareReadings, MountEntry, MowingEntry, Reading,
};
use crate::units::{Measure as _, Quantity, Speed, System, Turning};

/// A reading that is wanted from other readings, on a card of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WantedCard {
    BehindCentre,
    ReelDiameter,
    Lean,
}

/// The step; what is wanted from other readings.
pub fn measured_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
) -> Option<WantedCard> {
    ScrollArea::vertical()
        .id_salt("as measured")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            // The scroll bar floats over what stands at the edge.
            ui.set_max_width(ui.available_width() - 8.0);
            ui.spacing_mut().item_spacing.y = 4.0;
            unit_and_reel_ui(ui, fields, document);
            let wanted = plate_ui(ui, fields, document);
            rollers_ui(ui, fields, document);
            knives_ui(ui, fields, document);
            ui.add_space(4.0);
            let wanted = folded_ui(ui, fields, document).or(wanted);
            let of_reel = fields.is_reel_wanted.then_some(WantedCard::ReelDiameter);
            let wanted = wanted.or(of_reel);
            ui.add_space(8.0);
            followed.bring_in(ui);
            wanted
        })
        .inner
}

fn unit_and_reel_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    for pair in [
        [("Name", "Name", Field::Name), ("Turf", "Turf", Field::Turf)],
        [
            ("Reel, new", "Reel, new", Field::NewDiameter),
            (
                "Reel, minimum (scrap)",
                "Reel, minimum (scrap)",
                Field::SmallestDiameter,
            ),
        ],
        [
            ("Blades", "Blades", Field::Blades),
            bench(
                "Reel diameter",
                "Reel diameter, as measured",
                Reading::ReelDiameter,
            ),
        ],
    ] {
        fields.pair(ui, document, pair);
    }
}

/// A reading as it is shown, and as it is called where it stands alone.
fn bench(
    shown: &'static str,
    name: &'static str,
    reading: Reading,
) -> (&'static str, &'static str, Field) {
    (shown, name, reading.into())
}

/// What is measured on the plate; what is wanted from other readings.
fn plate_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) -> Option<WantedCard> {
    let mut wanted = None;
    let mut between = Vec::new();
    heading_between(
        ui,
        "On the plate",
        |ui| offs_menu_ui(ui, fields, document),
        |ui| {
            let behind = ui
                .small_button("Behind centre from…")
                .on_hover_text("From the rise of the edge, or from a gauge block")
                .accessible_name("Behind centre from other readings…");
            let reel = ui
                .small_button("Reel from…")
                .on_hover_text("From blade tips, two straight bars, or a tape round the blades")
                .accessible_name("Reel diameter from other readings…");
            between.extend([reel.id, behind.id]);
            if behind.clicked() {
                wanted = Some(WantedCard::BehindCentre);
            } else if reel.clicked() {
                wanted = Some(WantedCard::ReelDiameter);
            }
        },
    );
    // Whoever types one reading after the other comes to none of them.
    fields.marks.extend(between);
    for pair in [
        [
            bench(
                "Height of cut",
                "Height of cut, as measured",
                Reading::HeightOfCut,
            ),
            bench("Attitude", "Attitude, as measured", Reading::Attitude),
        ],
        [
            bench(
                "Behind centre",
                "Behind centre, as measured",
                Reading::BehindCentre,
            ),
            bench("Gap", "Gap, as measured", Reading::Gap),
        ],
    ] {
        fields.pair(ui, document, pair);
    }
    wanted
}

fn rollers_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    heading_ui(ui, "Rollers", "for roller moves and ground only");
    for pair in [
        [
            bench("Front, diameter", "Front, diameter", Reading::FrontDiameter),
            bench("Front, ahead", "Front, ahead of edge", Reading::FrontAhead),
        ],
        [
            bench("Rear, diameter", "Rear, diameter", Reading::RearDiameter),
            bench("Rear, behind", "Rear, behind edge", Reading::RearBehind),
        ],
    ] {
        fields.pair(ui, document, pair);
    }
}

/// What is measured once, or not on every unit; what is wanted from other readings.
fn folded_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) -> Option<WantedCard> {
    let mut wanted = None;
    let within = |group: Group| move |field: Field| field.group().is_within(group);
    let about = [Field::Serial, Field::Set, Field::Date, Field::Notes];
    let both = (&mut *fields, &mut *document);
    let is_about = |field| about.contains(&field);
    section_ui(
        ui,
        both,
        "About this unit",
        is_about,
        |ui, fields, document| {
            for field in about {
                fields.row(ui, field.name(), field, document);
            }
        },
    );
    let is_closing = |field| field == Field::Closing || within(Group::Closing)(field);
    let both = (&mut *fields, &mut *document);
    let name = "Reel-to-knife adjustment";
    section_ui(ui, both, name, is_closing, |ui, fields, document| {
        wanted = closing_ui(ui, fields, document);
    });
    let both = (&mut *fields, &mut *document);
    let name = "Hardware under the knife";
    section_ui(ui, both, name, within(Group::HardwareList), hardware_ui);
    let both = (&mut *fields, &mut *document);
    section_ui(ui, both, "Ground", within(Group::Ground), ground_ui);
    let both = (&mut *fields, &mut *document);
    section_ui(ui, both, "Wear", within(Group::Wear), wear_ui);
    let both = (&mut *fields, &mut *document);
    let name = "Adjusters and spacers";
    section_ui(ui, both, name, within(Group::Brackets), brackets_ui);
    let both = (&mut *fields, &mut *document);
    section_ui(
        ui,
        both,
        "Grinding knives",
        within(Group::Grinding),
        grinding_ui,
    );
    let both = (&mut *fields, &mut *document);
    section_ui(ui, both, "Mowing", within(Group::Mowing), mowing_ui);
    let both = (&mut *fields, &mut *document);
    section_ui(ui, both, "Limits", within(Group::Limits), limits_ui);
    let both = (&mut *fields, &mut *document);
    let is_option = |field: Field| matches!(field.group(), Group::Knife(Fitted::Option(_)));
    let name = "Knives to compare";
    section_ui(ui, both, name, is_option, knives_to_compare_ui);
    wanted
}

fn brackets_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "What moves the rollers. Once entered, every roller move is shown in turns and in spacers as well; only spacers that the machine's manual allows.",
    );
    fields.group_rows(ui, document, Group::Brackets);
}

fn grinding_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "What a grind takes. Once entered, every knife shows how many grinds are left in it.",
    );
    fields.group_rows(ui, document, Group::Grinding);
}

fn closing_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) -> Option<WantedCard> {
    note(
        ui,
        "How reel and knife come together again after grinding, or with another knife. Lean and pivot matter only then.",
    );
    if fields.choice(ui, "Adjusted by", Field::Closing, document) {
        fields.set(Change::of("Adjusted by", Group::Closing));
    }
    match document.closing.way() {
        ClosingWay::ReelSlides | ClosingWay::KnifeSlides => {
            let name = "Lean of the slide";
            fields.row_or(ui, name, Reading::Lean, document, "edge to centre");
            let is_wanted = ui
                .small_button("Lean from two readings…")
                .on_hover_text("Back it off by its adjuster and read its place twice")
                .clicked();
            is_wanted.then_some(WantedCard::Lean)
        }
        ClosingWay::ReelPivots | ClosingWay::KnifePivots => {
            fields.row(ui, "Pivot, ahead of edge", Reading::PivotAhead, document);
            fields.row(ui, "Pivot, above plate", Reading::PivotAbove, document);
            None
        }
    }
}

fn hardware_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    note(
        ui,
        "Screw heads and lugs that could drag, measured from the edge. They matter for the underside only.",
    );
    let mut removed = None;
    for index in 0..document.hardware.len() {
        let number = index + 1;
        let behind = format!("Point {number}, behind");
        fields.row(ui, &behind, Reading::HardwareBehind(index), document);
        let below = format!("Point {number}, below");
        fields.row(ui, &below, Reading::HardwareBelow(index), document);
        let field = Field::HardwareOn(index);
        let on = format!("Point {number}, on");
        let is_chosen = ui.horizontal(|ui| {
            ui.label(&on);
            fields.choice_entry(ui, &on, field, document)
        });
        if is_chosen.inner {
            fields.set(Change::of("Hardware on", field));
        }
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
        document.hardware.push(HardwareReadings {
            behind: document.knife.reach.clone(),
            below: document.knife.body_thickness.clone(),
            on: MountEntry::Bar,
        });
    }
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
    note(
        ui,
        "Speeds and blades give the clip length; nothing else depends on the speeds.",
    );
    if document.mowing.is_some() {
        fields.group_rows(ui, document, Group::Mowing);
    }
}
