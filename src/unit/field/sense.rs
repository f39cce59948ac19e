//! How far a reading can make sense at all. What a person types past it is refused at its field: a slip of
//! the decimal point, the unit or the field. A file that holds such a reading still opens, and it is told; so
//! is a reading that cannot be true beside another.

use super::{Field, KnifePart, Reading};
use crate::unit::Document;
use crate::units::{Quoted, System};

/// The largest reel, starting value, no source: a good deal over the largest that mow.
const REEL_MM: f64 = 508.0;
/// The highest cut, starting value, no source: higher grass is mown by other machines.
const CUT_MM: f64 = 152.4;
/// The steepest attitude either way, starting value, no source.
const ATTITUDE_DEG: f64 = 30.0;
/// The widest gap, starting value, no source: grass is cut by a sheet of paper's thickness or less.
const GAP_MM: f64 = 25.4;
/// The largest roller, starting value, no source.
const ROLLER_MM: f64 = 508.0;
/// A roller's farthest centre from the edge, starting value, no source.
const ROLLER_AWAY_MM: f64 = 1016.0;
/// The longest knife from screw line to edge, starting value, no source.
const REACH_MM: f64 = 152.4;
/// The widest knife, starting value, no source.
const WIDTH_MM: f64 = 254.0;
/// The thickest knife, starting value, no source.
const THICKNESS_MM: f64 = 50.8;

impl Field {
    /// The most that can make sense in it either way, in the base unit of its kind; none where any
    /// value may.
    #[must_use]
    pub const fn most_sensible(self) -> Option<f64> {
        match self {
            Self::NewDiameter
            | Self::SmallestDiameter
            | Self::WantedReelDiameter
            | Self::Reading(Reading::ReelDiameter) => Some(REEL_MM),
            Self::WantedHeightOfCut | Self::Reading(Reading::HeightOfCut) => Some(CUT_MM),
            Self::WantedAttitude | Self::Reading(Reading::Attitude) => Some(ATTITUDE_DEG),
            Self::WantedGap | Self::Reading(Reading::Gap) => Some(GAP_MM),
            // The edge stands under the reel, or it could not cut.
            Self::Reading(Reading::BehindCentre) => Some(REEL_MM / 2.0),
            Self::Reading(Reading::FrontDiameter | Reading::RearDiameter) => Some(ROLLER_MM),
            Self::Reading(Reading::FrontAhead | Reading::RearBehind) => Some(ROLLER_AWAY_MM),
            Self::Reading(Reading::Knife(_, part)) => match part {
                KnifePart::Reach => Some(REACH_MM),
                KnifePart::Width | KnifePart::LipLength => Some(WIDTH_MM),
                KnifePart::LipThickness | KnifePart::BodyThickness => Some(THICKNESS_MM),
                KnifePart::TopAngle
                | KnifePart::FrontAngle
                | KnifePart::TopGround
                | KnifePart::FaceGround => None,
            },
            _ => None,
        }
    }

    /// Why what stands in it makes no sense on any unit; none while it does.
    #[must_use]
    pub fn past_sense(self, document: &Document, system: System) -> Option<String> {
        let most = self.most_sensible()?;
        // A last digit of rounding is no slip.
        if self.base(document)?.abs() <= most * (1.0 + 1e-9) {
            return None;
        }
        let text = self.text(document).unwrap_or_default();
        let told = self.kind().written(most, system).unwrap_or_default();
        Some(format!(
            "{} is far more than any unit has here, {told} at most: check the decimal point, the unit and the field",
            Quoted(&text)
        ))
    }

    /// Why what stands in it cannot be true, by itself or beside another field; none while it can. It is
    /// told at its field, and computed with all the same: which of the two is wrong is not known.
    #[must_use]
    pub fn doubted(self, document: &Document, system: System) -> Option<String> {
        self.past_sense(document, system)
            .or_else(|| self.past_another(document))
    }

    fn past_another(self, document: &Document) -> Option<String> {
        let (other, is_past, why): (Self, fn(f64, f64) -> bool, _) = match self {
            Self::Reading(Reading::ReelDiameter) | Self::WantedReelDiameter => (
                Self::NewDiameter,
                |now, new| now > new * (1.0 + 1e-9),
                "is more than the new reel's {}, and a reel only wears: one of the two is wrong",
            ),
            Self::Reading(Reading::Knife(place, KnifePart::Reach)) => (
                Reading::Knife(place, KnifePart::Width).into(),
                |reach, width| reach >= width,
                "leaves no metal behind the screws of a knife {} wide: one of the two is wrong",
            ),
            _ => return None,
        };
        // An example beside a reading is marked as what it is.
        let is_example = [self, other]
            .iter()
            .any(|field| document.examples.has(*field));
        if is_example || !is_past(self.base(document)?, other.base(document)?) {
            return None;
        }
        let (text, other) = (self.text(document)?, other.text(document)?);
        Some(format!(
            "{} {}",
            Quoted(&text),
            why.replacen("{}", &other, 1)
        ))
    }
}

impl Document {
    /// The fields that hold what cannot be true, in the order of the unit file, each with the reason.
    pub fn doubts(&self, system: System) -> impl Iterator<Item = (Field, String)> + '_ {
        Field::all(self).filter_map(move |field| Some((field, field.doubted(self, system)?)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{self, Fitted};

    fn demo() -> Document {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        unit::read_text(text).expect("the demo unit")
    }

    #[test]
    fn a_slip_is_refused_where_it_is_typed_and_the_document_stays() {
        let knife = |part| Reading::Knife(crate::unit::Fitted::Bench, part);
        for (field, slip, right) in [
            (Field::from(Reading::Attitude), "51", "12"),
            (Reading::ReelDiameter.into(), "68.5", "10.5"),
            (knife(KnifePart::Reach).into(), "7", "3"),
            (Reading::HeightOfCut.into(), "8", "5"),
            (Reading::Gap.into(), "5.5", "0.055"),
            (Field::WantedAttitude, "-51 deg", "-12"),
        ] {
            let mut document = demo();
            let before = document.clone();
            let refused = field.set(&mut document, slip, System::InchDecimal);
            let told = refused.expect_err(slip).to_string();
            assert!(told.contains("at most"), "{told}");
            assert_eq!(document, before, "{field}");
            field
                .set(&mut document, right, System::InchDecimal)
                .expect(right);
        }
    }

    #[test]
    fn a_file_with_a_slip_in_it_opens_and_tells_where() {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        let slipped = text.replace("height_of_cut: \"0.5 in", "height_of_cut: \"50 in");
        assert_ne!(text, slipped);
        let document = unit::read_text(&slipped).expect("it opened before");
        let past: Vec<_> = document.doubts(System::Millimetre).collect();
        assert_eq!(past.len(), 1, "{past:?}");
        assert_eq!(past[0].0, Field::from(Reading::HeightOfCut));
        assert_eq!(demo().doubts(System::Millimetre).count(), 0);
    }

    #[test]
    fn what_cannot_be_true_beside_another_field_is_doubted_and_an_example_is_not() {
        let reach = |place| Field::from(Reading::Knife(place, KnifePart::Reach));
        for (field, text, doubted) in [
            (Field::from(Reading::ReelDiameter), "7.01 in", true),
            (Reading::ReelDiameter.into(), "7 in", false),
            (Field::WantedReelDiameter, "7.1 in", true),
            (reach(Fitted::Bench), "2.6 in", true),
            (reach(Fitted::Option(0)), "2.7 in", true),
            (reach(Fitted::Bench), "2.4 in", false),
        ] {
            let mut document = demo();
            field
                .set(&mut document, text, System::InchDecimal)
                .expect(text);
            let told = document.doubts(System::InchDecimal).next();
            assert_eq!(told.is_some(), doubted, "{field} {text}");
            if let Some((at, why)) = told {
                assert_eq!(at, field);
                assert!(
                    why.contains(text) && why.contains("one of the two"),
                    "{why}"
                );
                assert!(document.checked().is_ok(), "it is computed with");
                if field.is_asked_for() {
                    document.examples.mark(field);
                    assert_eq!(document.doubts(System::InchDecimal).count(), 0, "{field}");
                }
            }
        }
    }
}
