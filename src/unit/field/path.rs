//! Where a field stands in the unit file: its path, and the field at a path.

use std::fmt;

use super::{Field, Group, Reading};

impl Field {
    /// The field at a path of the unit file: `options[0].reach`.
    #[must_use]
    pub fn at_path(path: &str) -> Option<Self> {
        Self::that_stand_at(index_in(path)).find(|field| field.to_string() == path)
    }
}

impl Group {
    /// The group at a path of the unit file: `bench.front_roller`.
    #[must_use]
    pub fn at_path(path: &str) -> Option<Self> {
        Field::that_stand_at(index_in(path))
            .flat_map(|field| field.group().and_around())
            .find(|group| group.to_string() == path)
    }
}

/// The place in a list that a path goes through.
fn index_in(path: &str) -> usize {
    let inside = path
        .split_once('[')
        .and_then(|(_, rest)| rest.split_once(']'));
    inside
        .and_then(|(index, _)| index.parse().ok())
        .unwrap_or_default()
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let row = self.row();
        if row.group == Group::Unit {
            f.write_str(row.word)
        } else {
            write!(f, "{}.{}", row.group, row.word)
        }
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Field::Reading(*self).fmt(f)
    }
}
