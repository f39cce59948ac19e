//! The card that works the lean of the slide out from two places of what slides.

use egui::Ui;

use super::field::Fields;
use super::others_card::FromOthers;
use crate::analysis::lean_from::{Place, Slid, lean_from};
use crate::analysis::other_readings::Derived;
use crate::app::desk::Slot;
use crate::drawing::{Scene, lean_picture};
use crate::unit::{ClosingReadings, Document, Field, Reading};
use crate::units::{Angle, Length, Quantity, System};

/// How far the places stand apart to begin with, to be typed over.
const APART: Length = Length::from_mm(10.0);

/// The lean of the slide from two readings.
#[derive(Debug)]
pub struct LeanCard {
    slid: Slid,
    first: Place,
    second: Place,
}

impl LeanCard {
    /// A card that begins with what the document says now. None where nothing slides.
    pub fn for_document(document: &Document, system: System) -> Option<Self> {
        let (slid, lean) = match &document.closing {
            ClosingReadings::ReelSlides { lean } => (Slid::Reel, lean),
            ClosingReadings::KnifeSlides { lean } => (Slid::Knife, lean),
            ClosingReadings::ReelPivots { .. } | ClosingReadings::KnifePivots { .. } => {
                return None;
            }
        };
        let bench = &document.bench;
        let behind = bench.behind_centre.value();
        let to_centre = bench.reel_diameter.value() * 0.5 + bench.gap.value();
        let line_rad = (behind.mm() / to_centre.mm()).clamp(-1.0, 1.0).asin();
        let lean = lean
            .as_ref()
            .map_or(Angle::from_rad(line_rad), Quantity::value);
        let height = match slid {
            Slid::Reel => bench.height_of_cut.value() + to_centre * line_rad.cos(),
            Slid::Knife => bench.height_of_cut.value(),
        };
        let place = |behind: Length, height: Length| Place {
            // To the last digit: the lean must come out as it stood.
            behind: Quantity::exactly(behind, system),
            height: Quantity::exactly(height, system),
        };
        let (sin, cos) = lean.rad().sin_cos();
        let second = match slid {
            Slid::Reel => place(behind + APART * sin, height + APART * cos),
            // A knife is backed off downwards.
            Slid::Knife => place(behind + APART * sin, height - APART * cos),
        };
        Some(Self {
            slid,
            first: place(behind, height),
            second,
        })
    }
}

impl FromOthers for LeanCard {
    type Of = Angle;

    fn name(&self) -> &'static str {
        "lean of the slide"
    }

    fn title(&self) -> &'static str {
        "Lean of the slide from two readings"
    }

    fn reading(&self) -> Reading {
        Reading::Lean
    }

    fn how(&self, _document: &Document) -> &'static str {
        self.slid.how()
    }

    fn picture(&self, document: &Document, system: System) -> Scene {
        let lean = self.found(document, system);
        let number = lean.map_or_else(|_| "?".to_owned(), |lean| system.angle(lean.value));
        lean_picture(self.slid, number)
    }

    fn fields_ui(&mut self, ui: &mut Ui, fields: &mut Fields) {
        let height = self.slid.height();
        let first = &mut self.first;
        fields.quantity(
            ui,
            "Behind centre, first",
            Slot::OtherReading,
            &mut first.behind,
        );
        let name = format!("{height}, first");
        fields.quantity(ui, &name, Slot::FirstHeight, &mut first.height);
        let second = &mut self.second;
        fields.quantity(
            ui,
            "Behind centre, second",
            Slot::SecondReading,
            &mut second.behind,
        );
        let name = format!("{height}, second");
        fields.quantity(ui, &name, Slot::SecondHeight, &mut second.height);
    }

    fn basis(&self, _document: &Document) -> String {
        "Back it off as far as you can: the further it goes between the two readings, the smaller the ± of the lean. Only these four readings count."
            .to_owned()
    }

    fn off_to_write(&self, system: System) -> Option<&'static str> {
        let read = [&self.first, &self.second];
        let has_none = |place: &&Place| {
            place.behind.half_width().is_none() && place.height.half_width().is_none()
        };
        read.iter().all(has_none).then_some(match system {
            System::Millimetre => "0.1 mm",
            System::InchDecimal | System::InchFraction => "5 thou",
        })
    }

    fn found(&self, document: &Document, system: System) -> Result<Derived<Angle>, String> {
        let is_measured = !document.examples.has(Reading::ReelDiameter);
        let radius = document.bench.reel_diameter.value() * 0.5;
        for place in [&self.first, &self.second] {
            let stands = place.stands_over_plate(self.slid, is_measured.then_some(radius));
            stands.map_err(|why| why.sentence().shown_in(system))?;
        }
        let found = lean_from(self.slid, &self.first, &self.second);
        let found = found.map_err(|why| why.sentence().shown_in(system))?;
        if found.value.deg().abs() + found.half_width().deg() >= 90.0 {
            return Err(
                "With its ± the slide may lie flat. Back it off further, or take a finer reading."
                    .to_owned(),
            );
        }
        Ok(found)
    }

    fn told(
        &self,
        found: &Derived<Angle>,
        _document: &Document,
        _system: System,
    ) -> (Option<String>, String) {
        let way = if found.value.deg() < 0.0 {
            "It leans back at the top."
        } else {
            "It leans ahead at the top."
        };
        let fine = ", under Reel-to-knife adjustment: it counts from then on, in place of the line from edge to centre.";
        (Some(way.to_owned()), fine.to_owned())
    }

    fn fill(&self, document: &mut Document, reading: Quantity<Angle>) {
        match &mut document.closing {
            ClosingReadings::ReelSlides { lean } | ClosingReadings::KnifeSlides { lean } => {
                *lean = Some(reading);
            }
            // The card is of a slide, and no document changes beneath it.
            ClosingReadings::ReelPivots { .. } | ClosingReadings::KnifePivots { .. } => {}
        }
    }

    fn rests_on(&self) -> &'static [Field] {
        &[]
    }
}
