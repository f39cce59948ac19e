//! A document as the text of a unit file: what was read, changed where its values changed; or all of it
//! anew.

use ron::ser::PrettyConfig;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::file_kind::{FileKind, UNIT_FILE};
use super::places::remarks;
use super::text::{parse, without_mark};
use super::{AsRead, Document, kept_text};
use crate::units::is_hidden;

/// The text of a unit file, and what became of the remarks in the one it was read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The text.
    pub text: String,
    /// What became of the remarks.
    pub remarks: Remarks,
}

/// What becomes of a person's remarks when a unit file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remarks {
    /// They stand where they stood, as far as what they stand beside does.
    InPlace,
    /// The text could not be kept: they stand all together before the unit.
    Gathered,
}

/// The text of a unit file. It always gives the document back.
///
/// Of a document that was read from a text, that text, changed only where values changed; what was
/// taken out goes with the remark on its own line.
#[must_use]
pub fn write(document: &Document) -> Written {
    written(document, &document.as_read, &UNIT_FILE)
}

/// The text alone of [`write()`].
#[must_use]
pub fn write_text(document: &Document) -> String {
    write(document).text
}

/// The text of a file of any kind, as [`write()`] writes that of a unit.
#[must_use]
pub fn written<T>(document: &T, as_read: &AsRead, kind: &FileKind) -> Written
where
    T: Serialize + DeserializeOwned + PartialEq,
{
    let Some(read) = as_read.text() else {
        return Written {
            text: anew(document, kind),
            remarks: Remarks::InPlace,
        };
    };
    let kept = kept(read, document, kind);
    let remarks = match kept {
        Some(_) => Remarks::InPlace,
        None => Remarks::Gathered,
    };
    let text = kept.unwrap_or_else(|| gathered(read) + &anew(document, kind));
    Written { text, remarks }
}

/// The text that was read, changed where the document's values are others than its own; none where
/// that would not give the document back.
fn kept<T>(read: &str, document: &T, kind: &FileKind) -> Option<String>
where
    T: Serialize + DeserializeOwned + PartialEq,
{
    let as_read: T = parse(read, kind).ok()?;
    if as_read == *document {
        return Some(read.to_owned());
    }
    let plain = without_mark(read);
    let mark = &read[..read.len() - plain.len()];
    let changed = kept_text::changed(plain, &anew(&as_read, kind), &anew(document, kind))?;
    let gives_it_back = parse::<T>(&changed, kind).is_ok_and(|again| again == *document);
    gives_it_back.then(|| format!("{mark}{changed}"))
}

/// The remarks of a text, a line or more each.
fn gathered(read: &str) -> String {
    let lines = remarks(without_mark(read)).into_iter();
    lines
        .map(|remark| format!("{}\n", remark.trim_end()))
        .collect::<Vec<_>>()
        .concat()
}

/// The text of a document as if it was never read.
fn anew(document: &impl Serialize, kind: &FileKind) -> String {
    let layout = PrettyConfig::new()
        .struct_names(false)
        .depth_limit(kind.lines_deep)
        .new_line("\n");
    // A document holds only texts, counts and lists of them: none of them is beyond RON.
    let text = ron::Options::default()
        .to_string_pretty(document, layout)
        .unwrap_or_else(|error| unreachable!("a document is plain text: {error}"));
    as_typed(&text) + "\n"
}

/// A text of the serializer with letters of every script as they were typed, where it writes
/// escapes; a letter that hides or steers stays an escape.
fn as_typed(text: &str) -> String {
    let mut typed = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('\\') {
        typed.push_str(&rest[..at]);
        // A backslash and what it is before: another one, a quote, a letter.
        let escape = &rest[at..];
        let ends = escape
            .char_indices()
            .nth(2)
            .map_or(escape.len(), |(end, _)| end);
        let code = escape
            .strip_prefix("\\u{")
            .and_then(|code| code.split_once('}'))
            .map(|(code, _)| code);
        let letter = code
            .and_then(|code| char::from_u32(u32::from_str_radix(code, 16).ok()?))
            .filter(|letter| !is_hidden(*letter));
        rest = if let (Some(letter), Some(code)) = (letter, code) {
            typed.push(letter);
            &escape["\\u{}".len() + code.len()..]
        } else {
            typed.push_str(&escape[..ends]);
            &escape[ends..]
        };
    }
    typed + rest
}
