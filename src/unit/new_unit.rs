//! A new unit: what it is asked for, and how much of that is still an example.

use super::{
    AsRead, Document, ExampleCount, Field, Fitted, GroundEntry, Group, Pieces, Reading,
    SettingEntry, WearEntry,
};

impl Field {
    /// Whether a new unit is asked for its reading, so that it can be an example.
    #[must_use]
    pub const fn is_asked_for(self) -> bool {
        match self {
            Self::NewDiameter | Self::SmallestDiameter | Self::Blades => true,
            Self::Reading(reading) => match reading {
                Reading::ReelDiameter
                | Reading::HeightOfCut
                | Reading::Attitude
                | Reading::BehindCentre
                | Reading::Gap
                | Reading::FrontDiameter
                | Reading::FrontAhead
                | Reading::RearDiameter
                | Reading::RearBehind
                | Reading::PivotAhead
                | Reading::PivotAbove
                | Reading::GroundSpeed
                | Reading::ReelSpeed => true,
                Reading::Knife(Fitted::Bench, part) => !part.can_be_left_out(),
                Reading::Lean
                | Reading::Knife(Fitted::Option(_), _)
                | Reading::HardwareBehind(_)
                | Reading::HardwareBelow(_)
                | Reading::RollerSink
                | Reading::FrontSink
                | Reading::RearSink
                | Reading::GroundRadius
                | Reading::FrontRunout
                | Reading::RearRunout
                | Reading::EndDifference => false,
            },
            Self::Name
            | Self::Serial
            | Self::Set
            | Self::Date
            | Self::Notes
            | Self::Turf
            | Self::Closing
            | Self::KnifeText(..)
            | Self::HardwareOn(_)
            | Self::WantedReelDiameter
            | Self::WantedHeightOfCut
            | Self::WantedAttitude
            | Self::WantedGap
            | Self::FittedKnife
            | Self::Extension
            | Self::TopGround
            | Self::FaceGround
            | Self::FrontMove
            | Self::RearMove
            | Self::GroundShape
            | Self::StraightedgeLength
            | Self::StraightedgeGap
            | Self::StraightedgeAt
            | Self::FrontPitch
            | Self::RearPitch
            | Self::Spacers
            | Self::AGrind
            | Self::LeastLip
            | Self::SweepWatch
            | Self::SweepOver
            | Self::GapWatch
            | Self::GapOver
            | Self::LeastUnderside
            | Self::MostAheadOfCentre
            | Self::LeastBehindCentre
            | Self::ClipLeast
            | Self::LeastRoom
            | Self::ClipWatch
            | Self::ClipOver
            | Self::LeastAttitude
            | Self::MostAttitude => false,
        }
    }

    /// Whether what stands in it is still an example.
    #[must_use]
    pub fn is_example(self, document: &Document) -> bool {
        document.examples.has(self) && self.text(document).is_some()
    }
}

impl Document {
    /// A new unit to type over: this one's readings, each marked as an example, without what belongs
    /// to it alone.
    #[must_use]
    pub fn as_new(&self) -> Self {
        let mut new = self.clone();
        "New unit".clone_into(&mut new.name);
        new.as_read = AsRead::default();
        new.hardware.clear();
        new.options.clear();
        new.setting = SettingEntry::default();
        new.mowing = None;
        new.ground = GroundEntry::default();
        new.wear = WearEntry::default();
        new.limits = None;
        (new.serial, new.set, new.date, new.notes) = (None, None, None, None);
        (new.knife.price, new.knife.notes) = (None, None);
        new.knife.quantity = Pieces::default();
        (new.knife.top_ground, new.knife.face_ground) = (None, None);
        new.mark_examples(Group::Unit);
        new
    }

    /// The readings that a new unit is asked for and that this one has, in the order of the unit file.
    pub fn asked_for(&self) -> impl Iterator<Item = Field> {
        Field::all(self).filter(|field| field.is_asked_for() && field.text(self).is_some())
    }

    /// How many of its readings are still examples.
    #[must_use]
    pub fn example_count(&self) -> ExampleCount {
        if self.examples.is_empty() {
            return ExampleCount::default();
        }
        let readings = self.asked_for();
        readings.fold(ExampleCount::default(), |count, field| ExampleCount {
            examples: count.examples + usize::from(self.examples.has(field)),
            readings: count.readings + 1,
        })
    }

    /// Marks every reading of a group as an example, if a new unit is asked for it.
    pub fn mark_examples(&mut self, group: Group) {
        let fields: Vec<_> = self.asked_for().collect();
        for field in fields {
            if field.group().is_within(group) {
                self.examples.mark(field);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{ClosingWay, Knife, KnifePart, OneOf as _, read_text, write_text};
    use crate::units::{Quantity, System};

    fn demo() -> Document {
        read_text(include_str!("../../demo-units/fairway-trailed.ron")).unwrap()
    }

    #[test]
    fn a_new_unit_marks_every_reading_it_asks_for() {
        let new = demo().as_new();
        let count = new.example_count();
        assert_eq!((count.examples, count.readings), (17, 17));
        assert_eq!(
            count.told().unwrap(),
            "17 of 17 readings are still examples"
        );
        assert!(new.asked_for().all(|field| field.is_example(&new)));
        assert_eq!(demo().example_count().told(), None);
    }

    #[test]
    fn what_is_typed_is_no_example_even_where_it_is_the_same() {
        let mut new = demo().as_new();
        let field = Field::from(Reading::ReelDiameter);
        let text = field.text(&new).unwrap().into_owned();
        field.set(&mut new, &text, System::InchDecimal).unwrap();
        assert!(!field.is_example(&new));
        assert!(field.set(&mut new, "wide", System::InchDecimal).is_err());
        let blades = Field::Blades;
        assert!(blades.set(&mut new, "some", System::InchDecimal).is_err());
        assert!(blades.is_example(&new), "a wrong text is no reading");
        assert_eq!(new.example_count().examples, 16);
    }

    #[test]
    fn the_last_example_is_told_in_the_singular() {
        let count = ExampleCount {
            examples: 1,
            readings: 17,
        };
        assert_eq!(
            count.told().unwrap(),
            "1 of 17 readings is still an example"
        );
    }

    #[test]
    fn examples_go_into_the_file_and_come_back() {
        let mut new = demo().as_new();
        for field in new.asked_for().collect::<Vec<_>>() {
            if field != Field::from(Reading::Gap) && field != Field::NewDiameter {
                new.examples.keep(field);
            }
        }
        let text = write_text(&new);
        let listed = text.split_once("examples: [").expect("listed").1;
        let listed: Vec<_> = listed.split('"').skip(1).step_by(2).collect();
        assert_eq!(listed, ["reel.new_diameter", "bench.gap"]);
        assert_eq!(read_text(&text).unwrap(), new);
        let own = write_text(&demo());
        assert!(!own.contains("examples"), "left out where there are none");
    }

    #[test]
    fn a_place_that_is_made_up_is_marked_and_one_that_stays_is_not() {
        let mut own = demo();
        Field::Closing
            .set(&mut own, "ReelPivots", System::InchDecimal)
            .unwrap();
        assert_eq!(own.example_count().examples, 2);
        let ahead = Field::from(Reading::PivotAhead);
        ahead.set(&mut own, "-5 in", System::InchDecimal).unwrap();
        Field::Closing
            .set(
                &mut own,
                ClosingWay::KnifePivots.word(),
                System::InchDecimal,
            )
            .unwrap();
        assert_eq!(own.examples.iter().count(), 1);
        Field::Closing
            .set(&mut own, "ReelSlides", System::InchDecimal)
            .unwrap();
        assert!(own.example_count().is_none(), "no pivot, no example");
    }

    #[test]
    fn a_knife_put_in_place_keeps_the_marks_of_what_it_left_alone() {
        let mut new = demo().as_new();
        let reach = Quantity::parse("1.6 in").unwrap();
        let knife = Knife {
            reach,
            ..new.knife.clone()
        };
        new.put_knife(Fitted::Bench, knife);
        let is_example = |part| Field::from(Reading::Knife(Fitted::Bench, part)).is_example(&new);
        assert!(!is_example(KnifePart::Reach));
        assert!(is_example(KnifePart::Width));
    }
}
