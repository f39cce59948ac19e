//! The record of a unit: what was done to it, an entry a line, the oldest first.
//!
//! A line an entry, so that one is added without touching what stands before it, and what a crash left
//! half written spoils no line but its own.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::checks::{day, exact_angle, hours, measured, names_and_notes, text};
use super::date::Day;
use super::flaw::SheetFlaw;
use crate::unit::{FileKind, Rule, TextProblem, WANTED_QUANTITY, most, parse};
use crate::units::{Angle, Length, Quantity};

/// The most bytes of a record.
const RECORD_BYTES: usize = 8_000_000;
/// The most entries of a record that are read.
pub const MOST_ENTRIES: usize = 20_000;

/// Records of units.
pub static RECORD_FILE: FileKind = FileKind {
    name: "unit's record",
    holds: "entry",
    begins: "(record: 1) on its first line",
    first_field: "record",
    most_bytes: RECORD_BYTES,
    usual_bytes: "a few thousand",
    lines_deep: 2,
    wanted_at,
};

fn wanted_at(path: &str) -> &'static str {
    match path {
        "record" => "the number 1",
        "date" | "by" | "hours" | "what" | "knife" | "notes" => "a text in quotes",
        _ => WANTED_QUANTITY,
    }
}

/// The format of records that this program writes, and the newest it reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RecordFormat;

impl RecordFormat {
    /// Its number.
    pub const NUMBER: u32 = 1;
}

/// The first line of a record.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Heading {
    record: RecordFormat,
}

/// One thing that was done to a unit, as typed. Whatever is not known is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Entry {
    /// The day, as 2026-11-25.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub date: String,
    /// Who did it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// The machine's hours.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub hours: String,
    /// What was done, in few words.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub what: String,
    /// The reel's diameter after it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reel_diameter: Option<Quantity<Length>>,
    /// The knife that was fitted.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub knife: String,
    /// Metal taken off the knife's top face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top_ground: Option<Quantity<Length>>,
    /// Metal taken off the knife's front face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub face_ground: Option<Quantity<Length>>,
    /// The height of cut it was set to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height_of_cut: Option<Quantity<Length>>,
    /// The attitude it was set to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub attitude: Option<Quantity<Angle>>,
    /// How far the edge stood behind centre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub behind_centre: Option<Quantity<Length>>,
    /// How far the front roller was out of parallel before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub front_before: Option<Quantity<Length>>,
    /// And after.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub front_after: Option<Quantity<Length>>,
    /// How far the rear roller was out of parallel before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rear_before: Option<Quantity<Length>>,
    /// And after.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rear_after: Option<Quantity<Length>>,
    /// Whatever else is worth knowing.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl Entry {
    /// Its day; none where it has none.
    #[must_use]
    pub fn day(&self) -> Option<Day> {
        day("date", &self.date).ok().flatten()
    }

    /// The machine's hours; none where they are not known.
    #[must_use]
    pub fn hours_run(&self) -> Option<f64> {
        hours("hours", &self.hours).ok().flatten()
    }

    /// Checks that it makes sense.
    ///
    /// # Errors
    /// The first value that makes none, with its path and what would be right.
    pub fn check(&self) -> Result<(), SheetFlaw> {
        day("date", &self.date)?;
        hours("hours", &self.hours)?;
        names_and_notes(&self.by, &self.notes)?;
        text("what", &self.what, most::NAME_LETTERS)?;
        text("knife", &self.knife, most::NAME_LETTERS)?;
        for (path, length, rule) in [
            ("reel_diameter", &self.reel_diameter, Rule::AboveZero),
            ("top_ground", &self.top_ground, Rule::NotNegative),
            ("face_ground", &self.face_ground, Rule::NotNegative),
            ("height_of_cut", &self.height_of_cut, Rule::AboveZero),
            ("behind_centre", &self.behind_centre, Rule::InProportion),
            ("front_before", &self.front_before, Rule::InProportion),
            ("front_after", &self.front_after, Rule::InProportion),
            ("rear_before", &self.rear_before, Rule::InProportion),
            ("rear_after", &self.rear_after, Rule::InProportion),
        ] {
            if let Some(length) = length {
                measured(path, length, rule)?;
            }
        }
        if let Some(attitude) = &self.attitude {
            exact_angle("attitude", attitude, Rule::WithinUpright)?;
        }
        Ok(())
    }
}

/// A record as it was read: every entry that is whole, and what is wrong with every line that is not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    /// The entries, the oldest first.
    pub entries: Vec<Entry>,
    /// The lines that are no entry, each with its place and what is wrong.
    pub damaged: Vec<TextProblem>,
}

impl Record {
    /// The latest day that an entry has; none where none has one.
    #[must_use]
    pub fn last_day(&self) -> Option<Day> {
        self.entries.iter().filter_map(Entry::day).max()
    }
}

/// The first line of a record.
pub(crate) fn heading_line() -> String {
    line_of(&Heading::default())
}

/// An entry as the line of a record, without the line's end.
#[must_use]
pub fn entry_line(entry: &Entry) -> String {
    line_of(entry)
}

fn line_of(value: &impl Serialize) -> String {
    // Texts and quantities only, in which a line's end is written as an escape: never beyond RON.
    let line = ron::to_string(value)
        .unwrap_or_else(|error| unreachable!("an entry is plain text: {error}"));
    line.replace(['\n', '\r'], " ")
}

/// Reads a record. Lines that are damaged are told beside the entries that are whole.
///
/// # Errors
/// When it is no record, or one of a format that this program does not know.
pub fn read_record(text: &str) -> Result<Record, TextProblem> {
    let mut record = Record::default();
    let mut is_headed = false;
    for (index, line) in text.split('\n').enumerate() {
        let plain = line.trim().trim_start_matches('\u{feff}').trim_start();
        if plain.is_empty() || plain.starts_with("//") {
            continue;
        }
        let in_file = |problem: TextProblem| TextProblem {
            line: index + problem.line,
            ..problem
        };
        if !is_headed {
            is_headed = true;
            if is_heading(plain) {
                parse::<Heading>(line, &RECORD_FILE).map_err(in_file)?;
                continue;
            }
            // The first line of a record may be torn by a crash, and entries stand after it; what has
            // none of its own is no record.
            if !text.contains("\n(date:") {
                if is_entry(plain) {
                    return Err(TextProblem::at(
                        &RECORD_FILE,
                        text,
                        0,
                        None,
                        format!(
                            "the first line is missing; a record begins with {}",
                            RECORD_FILE.begins
                        ),
                    ));
                }
                let problem = parse::<Heading>(line, &RECORD_FILE).err();
                return Err(problem.map_or_else(|| no_record(text), in_file));
            }
        }
        match entry_of(line) {
            Ok(entry) if record.entries.len() < MOST_ENTRIES => record.entries.push(entry),
            Ok(_) => {
                let what = format!("a record has at most {MOST_ENTRIES} entries; begin a new one");
                let problem = TextProblem::at(&RECORD_FILE, line, 0, None, what);
                record.damaged.push(in_file(problem));
                break;
            }
            Err(problem) => record.damaged.push(in_file(of_line(line, plain, problem))),
        }
    }
    // What is blank was made by a crash before its first entry was written.
    Ok(record)
}

/// What is wrong with a line that stands where an entry does.
fn of_line(line: &str, plain: &str, problem: TextProblem) -> TextProblem {
    let what = if line.contains(char::REPLACEMENT_CHARACTER) {
        "the line is not text in UTF-8; write it again"
    } else if !plain.starts_with('(') {
        "the line is not an entry; one begins with (date: \"2026-11-25\", …"
    } else {
        return problem;
    };
    TextProblem::at(&RECORD_FILE, line, 0, None, what.to_owned())
}

/// Whether a line is an entry, as far as it begins.
fn is_entry(line: &str) -> bool {
    let inside = line.strip_prefix('(').map(str::trim_start);
    inside.is_some_and(|inside| inside.starts_with("date"))
}

fn is_heading(line: &str) -> bool {
    let inside = line.strip_prefix('(').map(str::trim_start);
    inside.is_some_and(|inside| inside.starts_with("record"))
}

fn no_record(text: &str) -> TextProblem {
    let what = format!(
        "this is not a {}; one begins with {}",
        RECORD_FILE.name, RECORD_FILE.begins
    );
    TextProblem::at(&RECORD_FILE, text, 0, None, what)
}

fn entry_of(line: &str) -> Result<Entry, TextProblem> {
    let entry: Entry = parse(line, &RECORD_FILE)?;
    match entry.check() {
        Ok(()) => Ok(entry),
        Err(flaw) => {
            let what = flaw.kind.to_string();
            Err(TextProblem::at_path(
                &RECORD_FILE,
                line,
                flaw.path,
                None,
                what,
            ))
        }
    }
}

impl Serialize for RecordFormat {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Self::NUMBER)
    }
}

impl<'de> Deserialize<'de> for RecordFormat {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match u32::deserialize(deserializer)? {
            Self::NUMBER => Ok(Self),
            other => Err(de::Error::custom(format!(
                "this program does not know record {other}; it reads and writes record {}",
                Self::NUMBER
            ))),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(notes: &str) -> Entry {
        Entry {
            date: "2026-11-25".to_owned(),
            hours: "1210".to_owned(),
            reel_diameter: Quantity::parse("4.96 in ± 0.005 in").ok(),
            notes: notes.to_owned(),
            ..Entry::default()
        }
    }

    #[test]
    fn an_entry_is_one_line_whatever_stands_in_it_and_comes_back() {
        for notes in ["", "a \"b\"\nand c\r\n\\ (date:", "ä, //, )]"] {
            let line = entry_line(&entry(notes));
            assert!(!line.contains(['\n', '\r']), "{line}");
            let text = format!("{}\n{line}\n{line}", heading_line());
            let record = read_record(&text).unwrap();
            assert_eq!(record.entries, vec![entry(notes); 2]);
            assert!(record.damaged.is_empty(), "{record:?}");
        }
    }

    #[test]
    fn torn_lines_are_told_and_spoil_no_other() {
        let line = entry_line(&entry("x"));
        let torn = &line[..line.len() - 9];
        let text = format!("{}\n{line}\n{torn}\n{line}\n", heading_line());
        let record = read_record(&text).unwrap();
        assert_eq!(record.entries.len(), 2);
        let [damage] = &record.damaged[..] else {
            panic!("{record:?}");
        };
        assert_eq!(damage.line, 3);
        let headless = format!("(rec\n{line}\n");
        let record = read_record(&headless).unwrap();
        assert_eq!((record.entries.len(), record.damaged.len()), (1, 1));
    }

    #[test]
    fn what_is_no_record_is_refused() {
        assert_eq!(read_record(" \n"), Ok(Record::default()));
        for text in ["hello", "(format: 1, name: \"a\")", "(record: 2)\n"] {
            let problem = read_record(text).unwrap_err();
            assert!(problem.line >= 1 && !problem.what.is_empty(), "{problem}");
        }
    }
}
