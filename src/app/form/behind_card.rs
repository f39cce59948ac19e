//! The card that works behind centre out from other readings.

use egui::Ui;

use super::field::Fields;
use super::others_card::FromOthers;
use crate::analysis::other_readings::{BehindFrom, Derived, Taken};
use crate::app::desk::Slot;
use crate::drawing::{Scene, reading_picture};
use crate::geometry::rise_of_segment;
use crate::unit::{Document, Field, Reading};
use crate::units::{Angle, Length, Measure as _, Quantity, System};

/// Behind centre from other readings.
#[derive(Debug)]
pub struct BehindCard {
    method: BehindFrom,
    /// One reading for each method.
    readings: [Quantity<Length>; 3],
    /// Where a block to a square touches the front face, over the plate.
    touches_at: Quantity<Length>,
    /// How far the bench knife's front face leans back, where it is known.
    front_angle: Option<Quantity<Angle>>,
    is_ahead: bool,
}

impl BehindCard {
    /// A card that begins with what the bench readings say now.
    pub fn for_document(document: &Document, system: System) -> Self {
        let bench = &document.bench;
        let radius = bench.reel_diameter.value() * 0.5;
        let behind = bench.behind_centre.value();
        let gap = bench.gap.value();
        let to_centre = radius + gap;
        let rise = rise_of_segment(to_centre, Length::from_mm(behind.mm().abs()))
            .map_or(Length::ZERO, |rise| rise - gap);
        let height = bench.height_of_cut.value();
        // Below the reel and above the foot of the lip's front face: halfway between.
        let lip = document.knife.lip_thickness.value();
        let below_edge = (Length::from_mm(rise.mm().max(0.0)) + lip) * 0.5;
        let touches_at = Quantity::from_value(height - below_edge, system);
        let front_angle = document.knife.front_angle.clone();
        let front = front_angle.as_ref().map_or(Angle::ZERO, Quantity::value);
        let leans = bench.attitude.value() + front;
        let leans_back = (height - touches_at.value()) * leans.rad().tan();
        let lengths = [rise, height - rise, behind + radius + leans_back];
        Self {
            method: BehindFrom::default(),
            // To the last digit: behind centre must come out as it stood.
            readings: lengths.map(|length| Quantity::exactly(length, system)),
            touches_at,
            front_angle,
            is_ahead: behind.mm() < 0.0,
        }
    }

    fn place(&self) -> usize {
        let place = BehindFrom::ALL.iter().position(|m| *m == self.method);
        place.unwrap_or(0)
    }

    fn read(&self) -> &Quantity<Length> {
        &self.readings[self.place()]
    }

    fn taken(&self) -> Taken<'_> {
        Taken {
            reading: self.read(),
            touches_at: &self.touches_at,
            front_angle: self.front_angle.as_ref(),
            is_ahead: self.is_ahead,
        }
    }

    /// What a tip that stands beside the place that is read does to the number.
    fn tip_off_told(&self, document: &Document, system: System) -> String {
        let blades = document.reel.blades.max(1);
        let half_space = Angle::from_deg(180.0 / f64::from(blades));
        let told = [
            (Angle::from_deg(2.0), "2°"),
            (half_space, "half a blade space"),
        ];
        let [near, far] = told.map(|(off, name)| {
            let found = self.method.with_tip_off(&document.bench, self.taken(), off);
            match found {
                Ok(behind) => format!("{name} off that place: {}", system.length(behind)),
                Err(_) => format!("{name} off that place: no such reading"),
            }
        });
        format!("On this unit with the tip {near}; {far}.")
    }
}

impl FromOthers for BehindCard {
    type Of = Length;

    fn name(&self) -> &'static str {
        "behind centre"
    }

    fn title(&self) -> &'static str {
        "Behind centre from other readings"
    }

    fn reading(&self) -> Reading {
        Reading::BehindCentre
    }

    fn ways(&self) -> Vec<(&'static str, bool)> {
        let ways = BehindFrom::ALL.into_iter();
        ways.map(|method| (method.name(), method == self.method))
            .collect()
    }

    fn choose(&mut self, way: usize) {
        self.method = BehindFrom::ALL[way];
    }

    fn how(&self, _document: &Document) -> &'static str {
        self.method.how()
    }

    fn picture(&self, _document: &Document, system: System) -> Scene {
        reading_picture(self.method, self.read().value().entry(system))
    }

    fn fields_ui(&mut self, ui: &mut Ui, fields: &mut Fields) {
        let (place, name) = (self.place(), self.method.reading());
        fields.quantity(ui, name, Slot::OtherReading, &mut self.readings[place]);
        if self.method.asks_where_it_touches() {
            let name = "Touches the face at";
            fields.quantity(ui, name, Slot::TouchesAt, &mut self.touches_at);
        }
        if self.method.has_two_sides() {
            ui.horizontal(|ui| {
                ui.label("The edge stands");
                ui.selectable_value(&mut self.is_ahead, false, "behind centre");
                ui.selectable_value(&mut self.is_ahead, true, "ahead of centre");
            });
        }
    }

    fn basis(&self, _document: &Document) -> String {
        format!(
            "{} are your readings, with their ±.",
            self.method.stands_on()
        )
    }

    fn off_to_write(&self, system: System) -> Option<&'static str> {
        self.read().half_width().is_none().then_some(match system {
            System::Millimetre => "0.02 mm",
            System::InchDecimal | System::InchFraction => "1 thou",
        })
    }

    fn found(&self, document: &Document, system: System) -> Result<Derived, String> {
        let found = self.method.behind_centre(&document.bench, self.taken());
        found.map_err(|why| why.sentence().shown_in(system))
    }

    fn told(
        &self,
        _found: &Derived,
        document: &Document,
        system: System,
    ) -> (Option<String>, String) {
        let fine = ": a ± in a field is the half-width of an even spread, which carries the same uncertainty on. From then on it counts as a reading by itself; that it came from reel and height of cut is not remembered, so clearances may show more ± than they have.";
        (Some(self.tip_off_told(document, system)), fine.to_owned())
    }

    fn fill(&self, document: &mut Document, reading: Quantity<Length>) {
        document.bench.behind_centre = reading;
    }

    fn rests_on(&self) -> &'static [Field] {
        &[
            Field::Reading(Reading::ReelDiameter),
            Field::Reading(Reading::HeightOfCut),
        ]
    }
}
