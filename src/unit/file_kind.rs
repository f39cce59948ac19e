//! The kinds of files that a person can write by hand, in the words that their refusals need.

use super::field::{Field, Group};
use super::most;

/// A kind of file: what it is called, how it begins, and what belongs at a place in it.
#[derive(Debug)]
pub struct FileKind {
    /// Its name, without an article: `unit file`.
    pub name: &'static str,
    /// What one file of it holds: `unit`.
    pub holds: &'static str,
    /// How it begins.
    pub begins: &'static str,
    /// The field it begins with.
    pub first_field: &'static str,
    /// The most bytes of one, read or written.
    pub most_bytes: usize,
    /// How many bytes one usually has, in a sentence's words.
    pub usual_bytes: &'static str,
    /// How many brackets deep everything stands on a line of its own when one is written.
    pub lines_deep: usize,
    /// What belongs at a path in it.
    pub wanted_at: fn(&str) -> &'static str,
}

/// The kind of file that begins with a field, by its name; none that begins otherwise.
#[must_use]
pub fn kind_that_begins_with(field: &str) -> Option<&'static str> {
    // Kinds of the rooms above are known here by their names alone.
    const KINDS: [(&str, &str); 4] = [
        ("format", "unit file"),
        ("plate_sheet", "plate sheet"),
        ("record", "unit's record"),
        ("lesson", "lesson"),
    ];
    let found = KINDS.into_iter().find(|(first, _)| *first == field);
    found.map(|(_, name)| name)
}

/// What belongs where a quantity does: it tells its own kind.
pub const WANTED_QUANTITY: &str = "its value in quotes, with its unit";

/// Unit files.
pub static UNIT_FILE: FileKind = FileKind {
    name: "unit file",
    holds: "unit",
    begins: "(format: 1, name: …",
    first_field: "format",
    most_bytes: most::FILE_BYTES,
    usual_bytes: "a few thousand",
    lines_deep: 2,
    wanted_at,
};

/// What stands at a path of a unit file, as it is written.
fn wanted_at(path: &str) -> &'static str {
    if path == "format" {
        return "the number 1";
    }
    if path.starts_with("examples") {
        return "a list of readings in quotes, like [\"bench.reel_diameter\"]";
    }
    let field = Field::at_path(path).map(|field| field.kind().wanted());
    let group = || Group::at_path(path).map(Group::wanted);
    field.or_else(group).unwrap_or(WANTED_QUANTITY)
}
