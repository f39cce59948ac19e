//! What is read along the bar, the reel and the knife.

use egui::Ui;

use super::gauge_bar::bars_aside_ui;
use super::reel_from::{ReelRead, reel_from_ui};
use super::shown::Shown;
use crate::analysis::plate::ExpectedCut;
use crate::app::areas::plate::entry::{Beside, Entries, number_ui, told_ui};
use crate::app::widgets::lettering::Lettering;
use crate::plate::{GapOfKnife, SheetField, Side, Station};
use crate::units::Length;

fn at_sides(of: fn(Side) -> SheetField) -> Vec<(&'static str, SheetField)> {
    vec![("left", of(Side::Left)), ("right", of(Side::Right))]
}

fn at_stations(of: fn(Station) -> SheetField) -> Vec<(&'static str, SheetField)> {
    Station::ALL
        .map(|station| (station.word(), of(station)))
        .to_vec()
}

/// The gauge bar under both ends of the knife, and the plate.
pub fn bar_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    ui.label(Lettering::Heading.of("Bar, measured under both ends of the knife"));
    let bar = Beside {
        entries: at_sides(SheetField::Bar),
        hint: "0.250 in",
    };
    entries.beside(ui, &bar);
    bars_aside_ui(ui, entries);
    entries.row(ui, "Plate flat within", SheetField::PlateFlat, "not known");
    let Some([left, right]) = shown.result.as_ref().and_then(|result| result.readings.bar) else {
        return;
    };
    let difference = shown.system.length(right.value - left.value);
    number_ui(ui, "Bar, right minus left", &difference);
    let told =
        "A thicker end of the bar lifts the knife there. It is taken out of the rollers' numbers.";
    ui.label(Lettering::FinePrint.of(told).weak());
}

/// The reel's diameter.
pub fn reel_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown, read: &mut ReelRead) {
    ui.label(Lettering::Heading.of("Reel diameter"));
    let reel = Beside {
        entries: at_stations(SheetField::Reel),
        hint: "5.000 in",
    };
    entries.beside(ui, &reel);
    reel_from_ui(ui, entries, shown, read);
    let Some(result) = &shown.result else { return };
    if let Some(taper) = result.reel_taper {
        number_ui(ui, "Taper, left minus right", &shown.system.length(taper));
    }
    if let Some(barrel) = result.reel_barrel {
        let told = shown.system.length(barrel);
        number_ui(ui, "Barrel, middle over the ends", &told);
    }
}

/// The gap between knife and reel.
pub fn knife_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    ui.label(Lettering::Heading.of("Leaf that goes"));
    let goes = Beside {
        entries: at_stations(SheetField::KnifeGoes),
        hint: "0.001 in",
    };
    entries.beside(ui, &goes);
    ui.label(Lettering::Heading.of("Leaf that stops"));
    let stops = Beside {
        entries: at_stations(SheetField::KnifeStopsAt),
        hint: "0.0015 in",
    };
    entries.beside(ui, &stops);
    let Some(result) = &shown.result else { return };
    let read = &result.readings.knife_to_reel;
    for station in Station::ALL {
        if let Some(GapOfKnife { gap, half_width }) = read.at(station) {
            let told = format!(
                "{} ± {}",
                shown.system.length(*gap),
                shown.system.length(*half_width)
            );
            number_ui(ui, &format!("Gap, {}", station.word()), &told);
        }
    }
    if let (Some(left), Some(right)) = (read.left, read.right) {
        let told = shown.system.length(right.gap - left.gap);
        number_ui(ui, "Gap, right minus left", &told);
    }
}

/// The height of cut off the bar, and what was expected.
pub fn height_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    ui.label(Lettering::Heading.of("Height of cut, off the bar"));
    let height = Beside {
        entries: at_stations(SheetField::Height),
        hint: "0.125 in",
    };
    entries.beside(ui, &height);
    let Some(result) = &shown.result else { return };
    match &result.cut {
        Some(cut) => cut_ui(ui, cut, shown),
        None => {
            ui.label("Read both rollers, with the unit known, to see the height of cut to expect.");
        }
    }
}

fn cut_ui(ui: &mut Ui, cut: &ExpectedCut, shown: &Shown) {
    let length = |length: Length| shown.system.length(length);
    let told = |value: Length, off: Length| format!("{} ± {}", length(value), length(off));
    number_ui(
        ui,
        "Expected, right minus left",
        &told(cut.right_less_left, cut.expanded),
    );
    let heights = cut.heights.map(length);
    number_ui(ui, "Expected left, middle, right", &heights.join(", "));
    if let Some(measured) = cut.measured {
        let value = measured.right_less_left;
        let told = measured.expanded.map_or_else(
            || format!("{}, ± not entered", length(value)),
            |off| told(value, off),
        );
        number_ui(ui, "Measured, right minus left", &told);
    }
    if let Some(told) = cut.told(shown.system) {
        told_ui(ui, cut.level(), &told);
    }
}

/// The attitude at both ends.
pub fn attitude_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown) {
    ui.label(Lettering::Heading.of("Attitude at both ends"));
    let attitude = Beside {
        entries: at_sides(SheetField::Attitude),
        hint: "4 deg ± 0.1 deg",
    };
    entries.beside(ui, &attitude);
    let Some([left, right]) = shown.result.as_ref().and_then(|r| r.readings.attitude) else {
        return;
    };
    let system = shown.system;
    number_ui(
        ui,
        "Attitude, right minus left",
        &system.angle(right.value - left.value),
    );
    let middle = (left.value + right.value) * 0.5;
    number_ui(ui, "Mean", &system.angle(middle));
}
