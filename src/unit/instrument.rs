//! What readings are taken with, and how far each can be off: typical half-widths to begin with.

use super::document::Document;
use super::field::{Field, Kind, KnifePart, Reading};
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

    /// What a reading is usually taken with; none where that is no instrument of the shop.
    #[must_use]
    pub const fn usual(reading: Reading) -> Option<Self> {
        match reading {
            Reading::ReelDiameter
            | Reading::FrontDiameter
            | Reading::RearDiameter
            | Reading::HardwareBelow(_)
            | Reading::Knife(
                _,
                KnifePart::LipThickness
                | KnifePart::LipLength
                | KnifePart::BodyThickness
                | KnifePart::Reach
                | KnifePart::Width
                | KnifePart::TopGround
                | KnifePart::FaceGround,
            ) => Some(Self::Caliper),
            Reading::HeightOfCut | Reading::EndDifference => Some(Self::GaugeBar),
            Reading::BehindCentre
            | Reading::HardwareBehind(_)
            | Reading::PivotAhead
            | Reading::PivotAbove => Some(Self::SquareAndScale),
            Reading::Attitude
            | Reading::Lean
            | Reading::Knife(_, KnifePart::TopAngle | KnifePart::FrontAngle) => {
                Some(Self::AngleGauge)
            }
            Reading::FrontAhead | Reading::RearBehind => Some(Self::Tape),
            Reading::Gap => Some(Self::Feeler),
            Reading::FrontRunout | Reading::RearRunout => Some(Self::DialGauge),
            Reading::GroundSpeed
            | Reading::ReelSpeed
            | Reading::RollerSink
            | Reading::FrontSink
            | Reading::RearSink
            | Reading::GroundRadius => None,
        }
    }
}

impl Instrument {
    /// What a reading can be taken with, the usual one first; none for what no instrument of the shop
    /// reads.
    pub fn offered(reading: Reading) -> impl Iterator<Item = Self> {
        let usual = Self::usual(reading);
        let is_angle = Field::from(reading).kind() == Kind::Angle;
        let others = Self::ALL.into_iter().filter(move |other| {
            usual.is_some() && usual != Some(*other) && is_angle == (*other == Self::AngleGauge)
        });
        usual.into_iter().chain(others)
    }
}

impl Document {
    /// Whether a reading stands there without a ±, and an instrument can give it one. An example is not
    /// read yet, and a knife to compare is as its supplier says.
    #[must_use]
    pub fn wants_off(&self, reading: Reading) -> bool {
        let field = Field::from(reading);
        let is_read = !matches!(reading, Reading::Knife(Fitted::Option(_), _))
            && Instrument::usual(reading).is_some()
            && field.text(self).is_some();
        is_read && !field.is_example(self) && field.half_width(self).is_none()
    }

    /// Gives one reading the typical ± of an instrument, for somebody who works in `system`; whether it
    /// took it: one smaller than what it could be off keeps standing as it is. An example stays one.
    pub fn give_off(&mut self, reading: Reading, instrument: Instrument, system: System) -> bool {
        let field = Field::from(reading);
        let is_example = self.examples.has(field);
        let text = field.text(self).unwrap_or_default();
        let text = format!("{text} ± {}", instrument.half_width(system));
        let mut with_off = self.clone();
        let is_taken = field.set(&mut with_off, &text, system).is_ok();
        if !is_taken || field.check(&with_off).is_err() {
            return false;
        }
        *self = with_off;
        if is_example {
            self.examples.mark(field);
        }
        true
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

    /// Gives every reading without a ± that is usually taken with an instrument its typical one, for
    /// somebody who works in `system`; the readings that took it. An example stays one.
    pub fn give_offs(&mut self, instrument: Instrument, system: System) -> Vec<Reading> {
        let wanted: Vec<_> = self.without_off(instrument).collect();
        let mut given = wanted;
        given.retain(|reading| self.give_off(*reading, instrument, system));
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
            document.give_offs(instrument, system);
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
        let offered: Vec<_> = Instrument::offered(Reading::BehindCentre).collect();
        assert_eq!(offered[0], Instrument::SquareAndScale);
        assert_eq!(offered.len(), Instrument::ALL.len() - 1);
        let angle = Instrument::offered(Reading::Attitude);
        assert_eq!(angle.collect::<Vec<_>>(), [Instrument::AngleGauge]);
        assert_eq!(Instrument::offered(Reading::ReelSpeed).count(), 0);
        assert!(document.wants_off(Reading::BehindCentre));
        assert!(document.give_off(Reading::BehindCentre, Instrument::Caliper, system));
        assert_eq!(behind.text(&document).as_deref(), Some("0.3 in ± 0.002 in"));
        assert!(!document.wants_off(Reading::BehindCentre));
    }

    #[test]
    fn an_example_with_an_off_stays_an_example() {
        let mut document = demo().as_new();
        let count = document.example_count();
        let given = document.give_offs(Instrument::Caliper, System::Millimetre);
        assert!(given.contains(&Reading::FrontDiameter));
        assert_eq!(document.example_count(), count);
    }
}
