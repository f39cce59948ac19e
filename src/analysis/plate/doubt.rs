//! A reading that cannot be, or not beside another: where it stands, how bad it is, and what it is in words.

use crate::analysis::Level;
use crate::plate::{SheetField, Step};
use crate::units::{Sentence, System};

/// A reading that cannot be, or not beside another.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Where it stands; it is told under the last of them.
    pub fields: Vec<SheetField>,
    /// How bad it is.
    pub level: Level,
    /// What it is, to be read after the name of its last field.
    told: Told,
    /// Whether it is a reading that is doubted; otherwise what was read is no good for the unit.
    is_of_reading: bool,
}

/// A sentence without its end.
#[derive(Clone, Debug, PartialEq)]
enum Told {
    Sentence(Sentence),
    Text(String),
}

impl Doubt {
    pub(super) fn new(fields: &[SheetField], level: Level, told: Sentence) -> Self {
        Self {
            fields: fields.to_vec(),
            level,
            told: Told::Sentence(told),
            is_of_reading: true,
        }
    }

    /// A reading that nobody doubts, of what is not as the unit wants it.
    pub(super) fn of_unit(field: SheetField, level: Level, told: Sentence) -> Self {
        Self {
            is_of_reading: false,
            ..Self::new(&[field], level, told)
        }
    }

    /// The same in words that hold no quantity.
    pub(super) fn in_words(field: SheetField, level: Level, told: String) -> Self {
        Self {
            fields: vec![field],
            level,
            told: Told::Text(told),
            is_of_reading: true,
        }
    }

    /// Whether it is to be read again; otherwise it was read well, and is no good for the unit.
    #[must_use]
    pub const fn is_of_reading(&self) -> bool {
        self.is_of_reading
    }

    /// The step in which it was read; none where it belongs to the whole sheet.
    #[must_use]
    pub fn step(&self) -> Option<Step> {
        self.fields.last().and_then(|field| field.step())
    }

    /// What it is, without the name of its field and without an end.
    #[must_use]
    pub fn told(&self, system: System) -> String {
        match &self.told {
            Told::Sentence(sentence) => sentence.shown_in(system),
            Told::Text(text) => text.clone(),
        }
    }

    /// The same as a sentence that stands by itself.
    #[must_use]
    pub fn told_alone(&self, system: System) -> String {
        format!("{}: {}.", self.name(), self.told(system))
    }

    /// The name of its last field; of leaves that share it, that of the first and every place.
    fn name(&self) -> String {
        let is_leaf = |field: &SheetField| matches!(field, SheetField::KnifeStopsAt(_));
        let first = self.fields.first().filter(|first| is_leaf(first));
        let name = first.or(self.fields.last());
        let name = name.map_or_else(String::new, |field| field.name());
        let after = self.fields.iter().skip(1);
        let places = after.filter_map(|field| match field {
            SheetField::KnifeStopsAt(station) => Some(station.word()),
            _ => None,
        });
        places.fold(name, |name, place| format!("{name}, {place}"))
    }

    /// Whether another says the same of another field.
    pub(super) fn says_as(&self, other: &Self) -> bool {
        (self.level, self.is_of_reading, &self.told)
            == (other.level, other.is_of_reading, &other.told)
    }
}
