//! The text of a unit file, read: RON. A text that is wrong is refused whole, with line, column
//! and field.
//!
//! Reading has two halves: [`parse_text`] gives the document a text holds, [`read_text`] also asks
//! whether it makes sense.

use ron::extensions::Extensions;
use serde::de::DeserializeOwned;
use thiserror::Error;

use super::file_kind::{FileKind, UNIT_FILE};
use super::places::{Places, line_and_column};
use super::syntax_fault::SyntaxFault;
use super::{AsRead, Document};
use crate::units::clipped;

/// What is wrong with the text of a unit file, and where.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{line}:{column}: field {field}: {what}")]
pub struct TextProblem {
    /// Line from 1.
    pub line: usize,
    /// Column from 1.
    pub column: usize,
    /// The field, as `bench.reel_diameter`.
    pub field: String,
    /// What is wrong, and what would be right.
    pub what: String,
}

/// The letters of a field's path that are told; a path of the program's own is shorter.
const LONGEST_PATH: usize = 80;

impl TextProblem {
    /// A problem at a byte of a text; without a field, in the one that begins last before it.
    #[must_use]
    pub fn at(
        kind: &FileKind,
        text: &str,
        byte: usize,
        field: Option<String>,
        what: String,
    ) -> Self {
        let (line, column) = line_and_column(text, byte);
        let field = field
            .or_else(|| Places::of(text).field_before(byte).map(str::to_owned))
            .unwrap_or_else(|| kind.first_field.to_owned());
        Self {
            line,
            column,
            field: clipped(&field, LONGEST_PATH).to_string(),
            what,
        }
    }

    /// A problem with the value at a path of a text: at the value, or where it would stand.
    #[must_use]
    pub fn at_path(
        kind: &FileKind,
        text: &str,
        path: String,
        around: Option<&str>,
        what: String,
    ) -> Self {
        let text = without_mark(text);
        let places = Places::of(text);
        // What is left out has no place but that of the brackets it is missing from.
        let byte = places
            .start_of(&path)
            .or_else(|| places.start_of(around?))
            .unwrap_or(0);
        Self::at(kind, text, byte, Some(path), what)
    }

    /// A problem the parser met, told where and as the person who wrote the file sees it.
    fn at_parser(
        kind: &FileKind,
        text: &str,
        path: Option<&str>,
        error: &ron::error::SpannedError,
    ) -> Self {
        let fault = SyntaxFault::of(text, path, error, kind);
        Self::at(kind, text, fault.byte, fault.field, fault.what)
    }
}

/// Reads the text of a unit file and checks that it makes sense.
///
/// # Errors
/// When it is no unit file, or holds a value that makes no sense.
pub fn read_text(text: &str) -> Result<Document, TextProblem> {
    let document = parse_text(text)?;
    match document.checked() {
        Ok(_) => Ok(document),
        Err(flaw) => Err(TextProblem::at_path(
            &UNIT_FILE,
            text,
            flaw.field.to_string(),
            Some(&flaw.field.group().to_string()),
            flaw.kind.to_string(),
        )),
    }
}

/// Reads the text of a unit file without asking whether its values make sense: a document that was
/// put away in the middle of being edited comes back as it was.
///
/// # Errors
/// When it is no unit file, or a value in it cannot be read.
pub fn parse_text(text: &str) -> Result<Document, TextProblem> {
    let mut document: Document = parse(text, &UNIT_FILE)?;
    document.as_read = AsRead::new(text);
    Ok(document)
}

/// Reads the text of a file of a kind, without asking whether its values make sense.
///
/// # Errors
/// When it is no such file, or a value in it cannot be read.
pub fn parse<T: DeserializeOwned>(text: &str, kind: &FileKind) -> Result<T, TextProblem> {
    let text = without_mark(text);
    let options = options();
    let mut deserializer = ron::Deserializer::from_str_with_options(text, &options)
        .map_err(|error| TextProblem::at_parser(kind, text, None, &error))?;
    let read = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = plain_path(&error.path().to_string());
        let error = deserializer.span_error(error.into_inner());
        TextProblem::at_parser(kind, text, path.as_deref(), &error)
    })?;
    deserializer.end().map_err(|error| {
        TextProblem::at_parser(kind, text, None, &deserializer.span_error(error))
    })?;
    Ok(read)
}

/// The text past the invisible mark that some editors put before UTF-8.
pub(super) fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

fn options() -> ron::Options {
    // `Some(…)` may be left out, as people who edit by hand do.
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// serde's path without the variants and options it passes through; none at the top.
fn plain_path(path: &str) -> Option<String> {
    let mut plain = String::new();
    for part in path.split('.') {
        let is_field = part.starts_with(|c: char| c.is_lowercase());
        // What stands in a variant's list keeps its place in it.
        let kept = if is_field {
            part
        } else {
            &part[part.find('[').unwrap_or(part.len())..]
        };
        if is_field && !plain.is_empty() {
            plain.push('.');
        }
        plain.push_str(kept);
    }
    (!plain.is_empty()).then_some(plain)
}
