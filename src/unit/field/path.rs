//! Where a field stands in the unit file: its path, and the field at a path.

use std::fmt;

use super::{Field, Group, Reading};

/// Where a text typed for the ground's radius is kept.
const RADIUS: &str = "ground.radius";

impl Field {
    /// The field at a path of the unit file: `options[0].reach`.
    #[must_use]
    pub fn at_path(path: &str) -> Option<Self> {
        Self::that_stand_at(index_in(path)).find(|field| field.to_string() == path)
    }

    /// What tells it where a text that is typed into it is kept: its path in the unit file. The ground's radius
    /// has one of its own here; in the file it stands in the brackets of the ground's shape.
    #[must_use]
    pub fn kept_path(self) -> String {
        match self {
            Self::Reading(Reading::GroundRadius) => RADIUS.to_owned(),
            _ => self.to_string(),
        }
    }

    /// The field that a text was typed into, by where it was kept; none where there is no such field.
    #[must_use]
    pub fn at_kept_path(path: &str) -> Option<Self> {
        let radius = Self::Reading(Reading::GroundRadius);
        if path == RADIUS {
            return Some(radius);
        }
        // A shape is chosen, never typed: what was kept as one, before the radius had a path, is its radius.
        Self::at_path(path).map(|field| match field {
            Self::GroundShape => radius,
            _ => field,
        })
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
