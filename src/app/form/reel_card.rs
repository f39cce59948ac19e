//! The card that works the reel's diameter out from other readings.

use egui::Ui;

use super::field::Fields;
use super::others_card::FromOthers;
use crate::analysis::ReelWay;
use crate::analysis::other_readings::Derived;
use crate::app::desk::Slot;
use crate::drawing::{Scene, reel_picture};
use crate::unit::{Document, Field, Reading};
use crate::units::{Length, Measure as _, Quantity, System};

/// What a way reads, and how thick its tape is or its bars are.
#[derive(Clone, Debug)]
struct Read {
    reading: Quantity<Length>,
    other: Quantity<Length>,
}

/// The reel's diameter from other readings.
#[derive(Debug)]
pub struct ReelCard {
    way: ReelWay,
    /// One for each way, in the order of [`ReelWay::ALL`].
    read: [Read; 4],
}

impl ReelCard {
    /// A card that begins with what the bench reading says now.
    pub fn for_document(document: &Document, system: System) -> Self {
        let diameter = document.bench.reel_diameter.value();
        let blades = document.reel.blades;
        let read = ReelWay::ALL.map(|way| {
            let other = other_to_begin_with(way, system);
            // To the last digit: the diameter must come out as it stood.
            let reading = way.reading_on(diameter, blades, other.value());
            Read {
                reading: Quantity::exactly(reading, system),
                other,
            }
        });
        Self {
            way: ReelWay::default(),
            read,
        }
    }

    fn place(&self) -> usize {
        let place = ReelWay::ALL.iter().position(|way| *way == self.way);
        place.unwrap_or(0)
    }
}

impl FromOthers for ReelCard {
    type Of = Length;

    fn name(&self) -> &'static str {
        "reel diameter"
    }

    fn title(&self) -> &'static str {
        "Reel diameter from other readings"
    }

    fn reading(&self) -> Reading {
        Reading::ReelDiameter
    }

    fn ways(&self) -> Vec<(&'static str, bool)> {
        let ways = ReelWay::ALL.into_iter();
        ways.map(|way| (way.name(), way == self.way)).collect()
    }

    fn choose(&mut self, way: usize) {
        self.way = ReelWay::ALL[way];
    }

    fn how(&self, document: &Document) -> &'static str {
        self.way.how(document.reel.blades)
    }

    fn picture(&self, document: &Document, system: System) -> Scene {
        let number = self.read[self.place()].reading.value().entry(system);
        reel_picture(self.way, document.reel.blades, number)
    }

    fn fields_ui(&mut self, ui: &mut Ui, fields: &mut Fields) {
        let (place, way) = (self.place(), self.way);
        let read = &mut self.read[place];
        fields.quantity(ui, way.reading(), Slot::OtherReading, &mut read.reading);
        if let Some(name) = way.other() {
            fields.quantity(ui, name, Slot::Thickness, &mut read.other);
        }
    }

    fn basis(&self, document: &Document) -> String {
        format!("Worked out for {} blades.", document.reel.blades)
    }

    fn off_to_write(&self, system: System) -> Option<&'static str> {
        let reading = &self.read[self.place()].reading;
        reading.half_width().is_none().then_some(match system {
            System::Millimetre => "0.1 mm",
            System::InchDecimal | System::InchFraction => "5 thou",
        })
    }

    fn found(&self, document: &Document, system: System) -> Result<Derived, String> {
        let Read { reading, other } = &self.read[self.place()];
        if other.value().mm() < 0.0 {
            return Err("A thickness is zero or more. Check the reading.".to_owned());
        }
        let found = self.way.diameter(reading, other, document.reel.blades);
        let found = found.map_err(|why| why.sentence().shown_in(system))?;
        if found.value <= found.half_width() {
            return Err("The reading and its ± leave no reel. Check the reading.".to_owned());
        }
        Ok(found)
    }

    fn told(
        &self,
        _found: &Derived,
        _document: &Document,
        _system: System,
    ) -> (Option<String>, String) {
        (None, ".".to_owned())
    }

    fn fill(&self, document: &mut Document, reading: Quantity<Length>) {
        document.bench.reel_diameter = reading;
    }

    fn rests_on(&self) -> &'static [Field] {
        &[Field::Blades]
    }
}

/// A tape's or bars' thickness to begin with, to be typed over.
fn other_to_begin_with(way: ReelWay, system: System) -> Quantity<Length> {
    let is_metric = system == System::Millimetre;
    let thickness = match (way, is_metric) {
        (ReelWay::Bars, true) => Length::from_mm(25.0),
        (ReelWay::Bars, false) => Length::from_inches(1.0),
        (ReelWay::Tape, true) => Length::from_mm(0.2),
        (ReelWay::Tape, false) => Length::from_inches(0.008),
        (ReelWay::Tips | ReelWay::DiameterTape, _) => Length::ZERO,
    };
    Quantity::from_value(thickness, system)
}
