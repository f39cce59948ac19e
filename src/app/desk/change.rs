//! A change of the document: what it is called, and which part of the document it sets.

use std::borrow::Cow;

use egui::Id;

use crate::app::widgets::words::within_line;
use crate::unit::{Document, Field, Group, Kind, Reading};

/// Longer entries are cut short where a change is told.
const LONGEST_ENTRY: usize = 40;

/// What a change is called, and which parts of the document it sets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    name: Cow<'static, str>,
    parts: Vec<Part>,
    /// The text field it is typed into.
    holder: Option<Id>,
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
            holder: None,
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

    /// The same change, as it is typed into a text field. It is one step with what is typed there
    /// before and after.
    #[must_use]
    pub(in crate::app) fn typed_into(mut self, field: Id) -> Self {
        self.holder = Some(field);
        self
    }

    /// The text field it is typed into; none for what is set in another way.
    pub(in crate::app) fn holder(&self) -> Option<Id> {
        self.holder
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it did, to be read after "Undo": its name, and what then stood in the one field it set.
    pub(super) fn told_in(&self, document: &Document) -> String {
        let name = within_line(&self.name);
        let [Part::Field(field)] = self.parts[..] else {
            return name;
        };
        match field.told_in(document) {
            Some(text) if field.kind() == Kind::Text => {
                format!("{name} \"{}\"", shortened(&text))
            }
            Some(text) => format!("{name} {}", shortened(&text)),
            None if field.is_setting() => format!("{name} as measured"),
            None => name,
        }
    }

    /// The same where the text that was typed is wrong and could not be taken.
    pub(super) fn told_as_wrong(&self) -> String {
        format!("what was typed into {}", within_line(&self.name))
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

fn shortened(text: &str) -> String {
    let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match text.char_indices().nth(LONGEST_ENTRY) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text,
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
