//! A field as a person reads it away from its place in the form: which knife or point it is of, and what
//! stands in it.

use std::borrow::Cow;

use super::{Field, Group, Kind};
use crate::unit::{Document, Fitted};

impl Field {
    /// What it is called where the form around it is not seen: with its knife, its point, or that it
    /// is as wanted.
    #[must_use]
    pub fn name_in(self, document: &Document) -> String {
        let name = self.name();
        match self.group() {
            Group::Knife(knife) => format!("{name}, {}", knife_told(knife, document)),
            Group::Hardware(point) => format!("{name}, point {}", point + 1),
            _ if self.is_wanted_too() => format!("{name}, as wanted"),
            _ => name.to_owned(),
        }
    }

    /// Whether it is a setting of what is measured as well.
    const fn is_wanted_too(self) -> bool {
        matches!(
            self,
            Self::WantedReelDiameter
                | Self::WantedHeightOfCut
                | Self::WantedAttitude
                | Self::WantedGap
        )
    }

    /// What stands in it as a person reads it: as typed, and a choice by its name. None where it is
    /// left out.
    #[must_use]
    pub fn told_in(self, document: &Document) -> Option<Cow<'_, str>> {
        let text = self.text(document)?;
        let Kind::Choice(choice) = self.kind() else {
            return Some(text);
        };
        let offers = choice.offers();
        let offer = offers.iter().find(|offer| offer.word == text);
        Some(offer.map_or(text, |offer| Cow::Borrowed(offer.name)))
    }
}

/// A knife by its name, or by its place while it has none.
fn knife_told(knife: Fitted, document: &Document) -> String {
    let name = match knife {
        Fitted::Bench => Some(&document.knife.name),
        Fitted::Option(place) => document.options.get(place).map(|knife| &knife.name),
    };
    match (name, knife) {
        (Some(name), _) if !name.trim().is_empty() => format!("knife \"{name}\""),
        (_, Fitted::Bench) => "knife as measured".to_owned(),
        (_, Fitted::Option(place)) => format!("knife {} to compare", place + 1),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::unit::{self, KnifePart, Reading};

    fn demo() -> Document {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        unit::read_text(text).expect("the demo unit")
    }

    #[test]
    fn no_two_fields_of_a_unit_are_called_the_same() {
        let document = demo();
        let mut named: BTreeMap<String, Field> = BTreeMap::new();
        for field in Field::all(&document) {
            let other = named.insert(field.name_in(&document), field);
            assert_eq!(other, None, "{field}");
        }
    }

    #[test]
    fn a_knife_is_named_by_its_name_and_without_one_by_its_place() {
        let mut document = demo();
        let reach = |knife| Field::from(Reading::Knife(knife, KnifePart::Reach));
        let told = reach(Fitted::Option(1)).name_in(&document);
        assert_eq!(
            told,
            format!("Reach, knife \"{}\"", document.options[1].name)
        );
        document.options[1].name.clear();
        let told = reach(Fitted::Option(1)).name_in(&document);
        assert_eq!(told, "Reach, knife 2 to compare");
    }

    #[test]
    fn a_choice_is_told_by_its_name_and_not_by_the_word_of_the_file() {
        let document = demo();
        for field in Field::all(&document) {
            let (text, told) = (field.text(&document), field.told_in(&document));
            match field.kind() {
                Kind::Choice(choice) if told.is_some() => {
                    let offers = choice.offers();
                    assert!(
                        offers
                            .iter()
                            .any(|offer| Some(offer.name) == told.as_deref())
                    );
                }
                _ => assert_eq!(text, told, "{field}"),
            }
        }
        assert_eq!(
            Field::Closing.told_in(&document).as_deref(),
            Some("Reel slides")
        );
    }
}
