//! Readings that are still examples: nobody measured them on the unit they are told of.

use std::collections::BTreeSet;
use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Field;

/// The fields of a document whose readings are still examples, to be typed over or kept.
///
/// In a unit file, the list of their paths.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Examples(BTreeSet<Field>);

/// How many of a document's readings are still examples.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ExampleCount {
    /// Readings that are still examples.
    pub examples: usize,
    /// Readings that a new unit is asked for, the examples among them.
    pub readings: usize,
}

impl ExampleCount {
    /// Whether every reading is the unit's own.
    #[must_use]
    pub const fn is_none(self) -> bool {
        self.examples == 0
    }

    /// The line that stands beside a verdict; none where every reading is the unit's own.
    #[must_use]
    pub fn told(self) -> Option<String> {
        let Self { examples, readings } = self;
        match examples {
            0 => None,
            1 => Some(format!("1 of {readings} readings is still an example")),
            _ => Some(format!(
                "{examples} of {readings} readings are still examples"
            )),
        }
    }
}

impl Examples {
    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether the reading of a field is still an example.
    #[must_use]
    pub fn has(&self, field: impl Into<Field>) -> bool {
        self.0.contains(&field.into())
    }

    /// Marks a field, if a new unit is asked for its reading.
    pub fn mark(&mut self, field: impl Into<Field>) {
        let field = field.into();
        if field.is_asked_for() {
            self.0.insert(field);
        }
    }

    /// Takes a field's mark away: its reading is the unit's own. Whether it had one.
    pub fn keep(&mut self, field: impl Into<Field>) -> bool {
        self.0.remove(&field.into())
    }

    /// The marked fields, in the order of the unit file.
    pub fn iter(&self) -> impl Iterator<Item = Field> {
        self.0.iter().copied()
    }
}

impl Serialize for Field {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Examples {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let fields = Vec::<Example>::deserialize(deserializer)?;
        Ok(Self(
            fields.into_iter().map(|Example(field)| field).collect(),
        ))
    }
}

/// A path in the list of examples.
struct Example(Field);

impl<'de> Deserialize<'de> for Example {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(PathOfExample)
    }
}

struct PathOfExample;

impl de::Visitor<'_> for PathOfExample {
    type Value = Example;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("the path of a reading in quotes, like \"bench.reel_diameter\"")
    }

    fn visit_str<E: de::Error>(self, path: &str) -> Result<Example, E> {
        let found = Field::at_path(path).filter(|field| field.is_asked_for());
        found.map(Example).ok_or_else(|| {
            E::custom(format!(
                "\"{path}\" is not a reading that can be an example; write its path, like \"bench.reel_diameter\""
            ))
        })
    }
}
