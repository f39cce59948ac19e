//! A change of the document: what it is called, and which part of the document it sets.

use std::borrow::Cow;

use crate::unit::{Field, Group, Reading};

/// What a change is called, and which parts of the document it sets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    name: Cow<'static, str>,
    parts: Vec<Part>,
}

/// A part of the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A field.
    Field(Field),
    /// A group of fields, with the groups in it.
    Group(Group),
    /// Every field.
    All,
}

impl Change {
    /// A change that names no part of the document, such as another knife in the list.
    #[must_use]
    pub fn new(name: impl Into<Cow<'static, str>>) -> Self {
        Self {
            name: name.into(),
            parts: Vec::new(),
        }
    }

    /// A change of one part of the document.
    #[must_use]
    pub fn of(name: impl Into<Cow<'static, str>>, part: impl Into<Part>) -> Self {
        Self::new(name).and(part)
    }

    /// The same change, which sets another part as well.
    #[must_use]
    pub fn and(mut self, part: impl Into<Part>) -> Self {
        self.parts.push(part.into());
        self
    }

    /// What it is called, to be read after "Undo".
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The parts of the document it sets. What is being typed into another part stays as long as its
    /// field does not move.
    #[must_use]
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Whether it sets a field.
    #[must_use]
    pub fn sets(&self, field: Field) -> bool {
        self.parts.iter().any(|part| match part {
            Part::Field(set) => *set == field,
            Part::Group(group) => field.group().is_within(*group),
            Part::All => true,
        })
    }
}

impl From<Field> for Part {
    fn from(field: Field) -> Self {
        Self::Field(field)
    }
}

impl From<Reading> for Part {
    fn from(reading: Reading) -> Self {
        Self::Field(reading.into())
    }
}

impl From<Group> for Part {
    fn from(group: Group) -> Self {
        Self::Group(group)
    }
}
