//! The form's straightedge: the ground's radius from its length and the gap under it.

use egui::{Button, RichText, Ui};

use super::field::{Fields, note};
use crate::analysis::other_readings::{Derived, GroundFound, ground_from_straightedge};
use crate::app::desk::Change;
use crate::unit::{Document, Field, GapPlace, Group, Reading, ShapeEntry, StraightedgeEntry};

use crate::app::widgets::lettering::strong;
use crate::units::{Length, Measure as _, Quantity, System};

pub fn straightedge_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let mut is_known = document.ground.straightedge.is_some();
    let name = "Measured with a straightedge";
    if ui.checkbox(&mut is_known, name).changed() {
        fields.set(Change::of(name, Group::Straightedge));
        document.ground.straightedge = is_known.then(|| beginning(fields.system));
    }
    if !is_known {
        return;
    }
    fields.row(ui, "Straightedge", Field::StraightedgeLength, document);
    fields.row(ui, "Gap under it", Field::StraightedgeGap, document);
    fields.choice(ui, "Gap read at", Field::StraightedgeAt, document);
    let Some(entry) = &document.ground.straightedge else {
        return;
    };
    let system = fields.system;
    let is_wrong = [Field::StraightedgeLength, Field::StraightedgeGap]
        .iter()
        .any(|field| fields.problem(*field).is_some());
    let found = ground_from_straightedge(&entry.length, &entry.gap, entry.at.gap_at());
    let (text, shape) = match found {
        _ if is_wrong => ("The readings are not right yet.".to_owned(), None),
        Err(why) => (why.sentence().shown_in(system), None),
        Ok(GroundFound::Level) => ("Level ground".to_owned(), Some(ShapeEntry::Level)),
        Ok(GroundFound::Crest(radius)) => (
            told("A crest", &radius, system),
            Some(ShapeEntry::Crest(as_radius(&radius, system))),
        ),
        Ok(GroundFound::Hollow(radius)) => (
            told("A hollow", &radius, system),
            Some(ShapeEntry::Hollow(as_radius(&radius, system))),
        ),
    };
    ui.label(RichText::new(text).family(strong()));
    let is_taken = shape.as_ref() == Some(&document.ground.shape);
    let button = Button::new("Use as the ground's shape");
    if ui
        .add_enabled(shape.is_some() && !is_taken, button)
        .clicked()
        && let Some(shape) = shape
    {
        fields
            .set(Change::of("Shape of the ground", Field::GroundShape).and(Reading::GroundRadius));
        document.ground.shape = shape;
    }
    note(
        ui,
        "Lay it along the direction of travel. The radius carries its ± on into the ground's shape.",
    );
}

/// A reading to type over: no gap, so that no crest or hollow is told that nobody measured.
fn beginning(system: System) -> StraightedgeEntry {
    let length = match system {
        System::Millimetre => Length::from_mm(2000.0),
        System::InchDecimal | System::InchFraction => Length::from_inches(72.0),
    };
    StraightedgeEntry {
        length: Quantity::from_value(length, system),
        gap: Quantity::from_value(Length::ZERO, system),
        at: GapPlace::default(),
    }
}

fn told(what: &str, radius: &Derived, system: System) -> String {
    let shown = system.radius(radius.value);
    if radius.standard.mm() > 0.0 {
        let off = system.radius(radius.expanded);
        format!("{what} of {shown} ± {off} radius (95 %)")
    } else {
        format!("{what} of {shown} radius")
    }
}

/// A radius as it is written for a ground: metres or feet, with the half-width that carries its
/// uncertainty on.
fn as_radius(radius: &Derived, system: System) -> Quantity<Length> {
    let (unit, decimals) = match system {
        System::Millimetre => ("m", 3),
        System::InchDecimal | System::InchFraction => ("ft", 2),
    };
    let size = Length::size_of(unit);
    let written = |length: Length| format!("{:.decimals$} {unit}", length.mm() / size);
    let half_width = radius.half_width();
    let text = if half_width.mm() > 0.0 {
        format!("{} ± {}", written(radius.value), written(half_width))
    } else {
        written(radius.value)
    };
    Quantity::parse(&text).unwrap_or_else(|_| radius.as_reading(system))
}
