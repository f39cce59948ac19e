//! What readings are taken with, and how far each can be off: typical half-widths to begin with.

use super::document::Document;
use super::field::{Field, KnifePart, Reading};
use super::fitted::Fitted;
use crate::units::System;

/// An instrument of the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instrument {
    /// A caliper over a reel, a roller or a knife.
    Caliper,
    /// A gauge bar across the rollers, or a height gauge.
    GaugeBar,
    /// A square to the plate, and a scale between marks.
    SquareAndScale,
    /// An angle gauge zeroed on the plate.
    AngleGauge,
    /// A tape or a long rule.
    Tape,
    /// A feeler gauge.
    Feeler,
    /// A dial gauge.
    DialGauge,
}

impl Instrument {
    /// Every one of them, in the order they are offered.
    pub const ALL: [Self; 7] = [
        Self::Caliper,
        Self::GaugeBar,
        Self::SquareAndScale,
        Self::AngleGauge,
        Self::Tape,
        Self::Feeler,
        Self::DialGauge,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Caliper => "caliper",
            Self::GaugeBar => "gauge bar",
            Self::SquareAndScale => "square and scale",
            Self::AngleGauge => "angle gauge",
            Self::Tape => "tape",
            Self::Feeler => "feeler",
            Self::DialGauge => "dial gauge",
        }
    }

    /// How far its readings are typically off, as a person who works in `system` writes it: a starting
    /// value, no source.
    #[must_use]
    pub const fn half_width(self, system: System) -> &'static str {
        let is_metric = matches!(system, System::Millimetre);
        match self {
            Self::Caliper | Self::GaugeBar if is_metric => "0.05 mm",
            Self::Caliper | Self::GaugeBar => "0.002 in",
            Self::SquareAndScale if is_metric => "0.5 mm",
            Self::SquareAndScale => "0.02 in",
            Self::AngleGauge => "0.2 deg",
            Self::Tape if is_metric => "1 mm",
            Self::Tape => "0.04 in",
            Self::Feeler if is_metric => "0.01 mm",
            Self::Feeler => "0.0005 in",
            Self::DialGauge if is_metric => "0.02 mm",
            Self::DialGauge => "0.001 in",
        }
    }

    /// What a reading can be taken with, the usual one first; none for what no instrument of the shop
    /// reads to its ±: caliper and tape read a reel short by more than they can be off, so its diameter
    /// is worked out from other readings (common practice, no source).
    #[must_use]
    pub const fn offered(reading: Reading) -> &'static [Self] {
        match reading {
            Reading::FrontDiameter
            | Reading::RearDiameter
            | Reading::Knife(
                _,
                KnifePart::LipThickness
                | KnifePart::LipLength
                | KnifePart::BodyThickness
                | KnifePart::TopGround
                | KnifePart::FaceGround,
            ) => &[Self::Caliper],
            Reading::HardwareBelow(_) | Reading::Knife(_, KnifePart::Reach | KnifePart::Width) => {
                &[Self::Caliper, Self::SquareAndScale]
            }
            Reading::HeightOfCut | Reading::EndDifference => &[Self::GaugeBar],
            Reading::BehindCentre | Reading::HardwareBehind(_) => &[Self::SquareAndScale],
            Reading::PivotAhead | Reading::PivotAbove => &[Self::SquareAndScale, Self::Tape],
            Reading::Attitude
            | Reading::Lean
            | Reading::Knife(_, KnifePart::TopAngle | KnifePart::FrontAngle) => &[Self::AngleGauge],
            Reading::FrontAhead | Reading::RearBehind => &[Self::Tape, Self::SquareAndScale],
            Reading::Gap => &[Self::Feeler],
            Reading::FrontRunout | Reading::RearRunout => &[Self::DialGauge],
            Reading::ReelDiameter
            | Reading::GroundSpeed
            | Reading::ReelSpeed
            | Reading::RollerSink
            | Reading::FrontSink
            | Reading::RearSink
            | Reading::GroundRadius => &[],
        }
    }

    /// What a reading is usually taken with; none where that is no instrument of the shop.
    #[must_use]
    pub fn usual(reading: Reading) -> Option<Self> {
        Self::offered(reading).first().copied()
    }
}

impl Document {
    /// Whether a reading stands there without a ±, and an instrument, or for the reel's diameter other
    /// readings, can give it one. An example is not read yet, and a knife to compare is as its supplier
    /// says.
    #[must_use]
    pub fn wants_off(&self, reading: Reading) -> bool {
        let field = Field::from(reading);
        let can_have_one = Instrument::usual(reading).is_some() || reading == Reading::ReelDiameter;
        let is_read = !matches!(reading, Reading::Knife(Fitted::Option(_), _))
            && can_have_one
            && field.text(self).is_some();
        is_read && !field.is_example(self) && field.half_width(self).is_none()
    }

    /// The document with the typical ± of an instrument beside one reading, for somebody who works in
    /// `system`. An example stays one.
    fn with_off(
        &self,
        reading: Reading,
        instrument: Instrument,
        system: System,
    ) -> Result<Self, String> {
        let field = Field::from(reading);
        let text = field.text(self).unwrap_or_default();
        let text = format!("{text} ± {}", instrument.half_width(system));
        let mut with_off = self.clone();
        let taken = field.set(&mut with_off, &text, system);
        taken.map_err(|problem| problem.to_string())?;
        field.check(&with_off).map_err(|flaw| flaw.to_string())?;
        if self.examples.has(field) {
            with_off.examples.mark(field);
        }
        Ok(with_off)
    }

    /// Why a reading cannot have the typical ± of an instrument: one smaller than what it could be off
    /// is no reading with it. None where it can.
    #[must_use]
    pub fn refuses_off(
        &self,
        reading: Reading,
        instrument: Instrument,
        system: System,
    ) -> Option<String> {
        self.with_off(reading, instrument, system).err()
    }

    /// Gives one reading the typical ± of an instrument, for somebody who works in `system`; whether it
    /// took it. An example stays one.
    pub fn give_off(&mut self, reading: Reading, instrument: Instrument, system: System) -> bool {
        let with_off = self.with_off(reading, instrument, system);
        with_off.is_ok_and(|with_off| {
            *self = with_off;
            true
        })
    }

    /// The readings without a ± that are usually taken with an instrument, in the order of the file.
    /// Knives to compare are not on the bench: they are as their supplier says.
    pub fn without_off(&self, instrument: Instrument) -> impl Iterator<Item = Reading> + '_ {
        Field::all(self).filter_map(move |field| {
            let Field::Reading(reading) = field else {
                return None;
            };
            let is_of_it = !matches!(reading, Reading::Knife(Fitted::Option(_), _))
                && Instrument::usual(reading) == Some(instrument);
            let is_there = is_of_it && field.text(self).is_some();
            (is_there && field.half_width(self).is_none()).then_some(reading)
        })
    }

    /// Gives every reading without a ± that is usually taken with an instrument, and that `is_wanted`,
    /// its typical one, for somebody who works in `system`; the readings that took it. An example stays
    /// one.
    pub fn give_offs(
        &mut self,
        instrument: Instrument,
        system: System,
        is_wanted: impl Fn(Reading) -> bool,
    ) -> Vec<Reading> {
        let mut given: Vec<_> = self.without_off(instrument).collect();
        given.retain(|reading| is_wanted(*reading) && self.give_off(*reading, instrument, system));
        given
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::read_text;

    fn demo() -> Document {
        read_text(include_str!("../../demo-units/fairway-trailed.ron")).expect("reads")
    }

    #[test]
    fn a_reading_gets_the_off_of_its_usual_instrument_and_keeps_one_of_its_own() {
        let mut document = demo();
        let system = System::InchDecimal;
        let behind = Field::from(Reading::BehindCentre);
        behind
            .set(&mut document, "0.3 in ± 0.01 in", system)
            .expect("a reading");
        let height = Field::from(Reading::HeightOfCut);
        height
            .set(&mut document, "1/2 in", system)
            .expect("a reading");
        for instrument in Instrument::ALL {
            document.give_offs(instrument, system, |_| true);
            assert_eq!(
                document.without_off(instrument).count(),
                0,
                "{}",
                instrument.name()
            );
        }
        assert_eq!(behind.text(&document).as_deref(), Some("0.3 in ± 0.01 in"));
        assert_eq!(height.text(&document).as_deref(), Some("1/2 in ± 0.002 in"));
        document.checked().expect("still a unit");
    }

    #[test]
    fn one_reading_takes_the_off_of_whatever_instrument_it_was_taken_with() {
        let mut document = demo();
        let system = System::InchDecimal;
        let behind = Field::from(Reading::BehindCentre);
        behind
            .set(&mut document, "0.3 in", system)
            .expect("a reading");
        assert!(document.wants_off(Reading::BehindCentre));
        assert!(document.give_off(Reading::BehindCentre, Instrument::SquareAndScale, system));
        assert_eq!(behind.text(&document).as_deref(), Some("0.3 in ± 0.02 in"));
        assert!(!document.wants_off(Reading::BehindCentre));
    }

    #[test]
    fn every_reading_is_offered_what_a_shop_takes_it_with_and_no_other_instrument() {
        use Instrument::{AngleGauge, Caliper, DialGauge, Feeler, GaugeBar, SquareAndScale, Tape};
        let bench = |part| Reading::Knife(Fitted::Bench, part);
        let across = [SquareAndScale, Tape];
        let expected: [(Reading, &[Instrument]); 31] = [
            (Reading::ReelDiameter, &[]),
            (Reading::HeightOfCut, &[GaugeBar]),
            (Reading::Attitude, &[AngleGauge]),
            (Reading::BehindCentre, &[SquareAndScale]),
            (Reading::Gap, &[Feeler]),
            (Reading::FrontDiameter, &[Caliper]),
            (Reading::FrontAhead, &[Tape, SquareAndScale]),
            (Reading::RearDiameter, &[Caliper]),
            (Reading::RearBehind, &[Tape, SquareAndScale]),
            (Reading::Lean, &[AngleGauge]),
            (Reading::PivotAhead, &across),
            (Reading::PivotAbove, &across),
            (bench(KnifePart::Reach), &[Caliper, SquareAndScale]),
            (bench(KnifePart::Width), &[Caliper, SquareAndScale]),
            (bench(KnifePart::LipThickness), &[Caliper]),
            (bench(KnifePart::LipLength), &[Caliper]),
            (bench(KnifePart::BodyThickness), &[Caliper]),
            (bench(KnifePart::TopAngle), &[AngleGauge]),
            (bench(KnifePart::FrontAngle), &[AngleGauge]),
            (bench(KnifePart::TopGround), &[Caliper]),
            (bench(KnifePart::FaceGround), &[Caliper]),
            (Reading::HardwareBehind(0), &[SquareAndScale]),
            (Reading::HardwareBelow(0), &[Caliper, SquareAndScale]),
            (Reading::GroundSpeed, &[]),
            (Reading::ReelSpeed, &[]),
            (Reading::RollerSink, &[]),
            (Reading::FrontSink, &[]),
            (Reading::RearSink, &[]),
            (Reading::FrontRunout, &[DialGauge]),
            (Reading::RearRunout, &[DialGauge]),
            (Reading::EndDifference, &[GaugeBar]),
        ];
        for (reading, instruments) in expected {
            assert_eq!(Instrument::offered(reading), instruments, "{reading:?}");
        }
    }

    #[test]
    fn a_reel_diameter_gets_no_off_of_an_instrument_that_reads_it_short() {
        let mut document = demo();
        let system = System::Millimetre;
        let reel = Field::from(Reading::ReelDiameter);
        reel.set(&mut document, "170 mm", system)
            .expect("a reading");
        for instrument in Instrument::ALL {
            document.give_offs(instrument, system, |_| true);
        }
        assert_eq!(reel.text(&document).as_deref(), Some("170 mm"));
        assert!(document.wants_off(Reading::ReelDiameter));
    }

    #[test]
    fn a_reading_that_cannot_have_an_off_says_why() {
        let mut document = demo();
        let system = System::Millimetre;
        let height = Field::from(Reading::HeightOfCut);
        height
            .set(&mut document, "12.7 mm", system)
            .expect("a reading");
        let refused = |document: &Document| {
            document.refuses_off(Reading::HeightOfCut, Instrument::GaugeBar, system)
        };
        assert_eq!(refused(&document), None);
        height
            .set(&mut document, "12.7 mm ± 0.1 mm", system)
            .expect("a reading");
        let why = refused(&document).expect("it has its own");
        assert!(!why.is_empty());
        let before = document.clone();
        assert!(!document.give_off(Reading::HeightOfCut, Instrument::GaugeBar, system));
        assert_eq!(document, before);
    }

    #[test]
    fn an_example_with_an_off_stays_an_example() {
        let mut document = demo().as_new();
        let count = document.example_count();
        let given = document.give_offs(Instrument::Caliper, System::Millimetre, |_| true);
        assert!(given.contains(&Reading::FrontDiameter));
        assert_eq!(document.example_count(), count);
    }
}
