//! What the parser met, in the words of the person who wrote the file.

use super::file_kind::{FileKind, kind_that_begins_with};
use super::places::{Places, byte_at, past_remarks};
use crate::units::clipped;

/// Where something is wrong, in which field, and the sentence; without a field, the one that is
/// written last before the place.
pub(super) struct SyntaxFault {
    pub(super) byte: usize,
    pub(super) field: Option<String>,
    pub(super) what: String,
}

impl SyntaxFault {
    pub(super) fn of(
        text: &str,
        path: Option<&str>,
        error: &ron::error::SpannedError,
        kind: &FileKind,
    ) -> Self {
        use ron::Error as E;
        let places = Places::of(text);
        let end = error.span.end;
        let stands = byte_at(text, end.line, end.col).min(text.len());
        let new = |byte, field: Option<String>, what: &str| Self {
            byte,
            field,
            what: what.to_owned(),
        };
        let first = past_remarks(text, 0);
        if path.is_none() && !text[first..].starts_with('(') {
            let FileKind { name, begins, .. } = kind;
            let what = if text[first..].is_empty() {
                format!("the file is empty; a {name} begins with {begins}")
            } else {
                format!("this is not a {name}; one begins with {begins}")
            };
            return new(0, Some(kind.first_field.to_owned()), &what);
        }
        if matches!(error.code, E::UnclosedBlockComment) {
            let what = "a remark that begins with /* is not closed; end it with */";
            return new(places.unclosed_remark().unwrap_or(stands), None, what);
        }
        let open_quote = places.quote_run_on_to(text, stands);
        if open_quote.is_some() || matches!(error.code, E::ExpectedStringEnd) {
            let byte = open_quote.or_else(|| places.start_of(path?));
            let what = "a quote is not closed on its line; end the text with \"";
            return new(byte.unwrap_or(stands), None, what);
        }
        let is_about_what_was_read = matches!(
            error.code,
            E::Message(_)
                | E::InvalidValueForType { .. }
                | E::MissingStructField { .. }
                | E::TrailingCharacters
        );
        if !is_about_what_was_read && text[stands..].trim().is_empty() {
            let what = "the file ends too early; a bracket or a quote is not closed";
            return new(stands, None, what);
        }
        let word = word_before(text, stands);
        let value = path.and_then(|path| places.start_of(path));
        match &error.code {
            E::Message(what) => new(value.unwrap_or(stands), path.map(str::to_owned), what),
            E::MissingStructField { field, .. } => new(
                stands,
                Some(joined(path, field)),
                &format!("the field \"{field}\" is missing; add it before this bracket"),
            ),
            E::DuplicateStructField { field, .. } => new(
                word.start,
                Some(joined(path, field)),
                &format!("the field \"{field}\" is here twice; keep one"),
            ),
            E::NoSuchStructField {
                expected, found, ..
            } => new(
                word.start,
                path.map(str::to_owned),
                &match kind_that_begins_with(found)
                    .filter(|_| path.is_none_or(|path| path == found))
                {
                    Some(other) => format!("this is a {other}, not a {}", kind.name),
                    None => format!(
                        "there is no field \"{}\" here; the fields are {}",
                        clipped(found, LONGEST),
                        expected.join(", ")
                    ),
                },
            ),
            E::ExpectedMapColon => new(
                word.start,
                // Where no word stands there is no field to name but the one before.
                (!word.is_empty()).then(|| joined(path, &text[word.clone()])),
                "a colon is missing between the field's name and its value",
            ),
            E::TrailingCharacters => {
                let byte = past_remarks(text, stands);
                new(
                    byte,
                    None,
                    &format!(
                        "there is more text after the {}'s closing bracket",
                        kind.holds
                    ),
                )
            }
            E::InvalidEscape(_) => new(
                value.unwrap_or(stands),
                None,
                "a backslash in a text is written twice, like \\\\",
            ),
            E::ExpectedComma => Self::comma(text, &places, stands, kind),
            code => Self::unlike(text, &places, path, stands, code, kind),
        }
    }

    /// No comma where the parser wants one: a value that goes on too long, or a comma left out.
    fn comma(text: &str, places: &Places, stands: usize, kind: &FileKind) -> Self {
        let field = places.field_before(stands);
        let value = field.and_then(|field| places.start_of(field));
        if let (Some(field), Some(value)) = (field, value)
            && !text[value..stands].is_empty()
            && text[value..stands].chars().all(is_bare)
        {
            return Self::found(text, field, value, (kind.wanted_at)(field));
        }
        Self {
            byte: text[..stands].trim_end().len(),
            field: field.map(str::to_owned),
            what: "a comma is missing here".to_owned(),
        }
    }

    /// Something else than what a field holds stands there.
    fn unlike(
        text: &str,
        places: &Places,
        path: Option<&str>,
        stands: usize,
        code: &ron::Error,
        kind: &FileKind,
    ) -> Self {
        let near = path.or_else(|| places.field_before(stands));
        let value = near.and_then(|near| places.start_of(near));
        if matches!(
            code,
            ron::Error::UnexpectedChar(_) | ron::Error::ExpectedIdentifier
        ) && value != Some(stands)
        {
            let before = text[..stands].trim_end();
            let stroke = text[stands..]
                .starts_with('/')
                .then_some(stands)
                .or_else(|| before.strip_suffix('/').map(str::len));
            let what = match stroke {
                Some(_) => "a slash belongs in a quoted text; a remark begins with //",
                None => {
                    "a field's name and a colon belong here; a comma or a bracket may be wrong before it"
                }
            };
            return Self {
                byte: stroke.unwrap_or(stands),
                field: None,
                what: what.to_owned(),
            };
        }
        let field = near.unwrap_or(kind.first_field);
        let wanted = match code {
            ron::Error::InvalidValueForType { expected, .. } => expected.as_str(),
            _ => (kind.wanted_at)(field),
        };
        Self::found(text, field, value.unwrap_or(stands), wanted)
    }

    fn found(text: &str, field: &str, byte: usize, wanted: &str) -> Self {
        let found = match token(&text[byte..]) {
            "" => "nothing".to_owned(),
            token => clipped(token, LONGEST).to_string(),
        };
        Self {
            byte,
            field: Some(field.to_owned()),
            what: format!("found {found}; write {wanted}"),
        }
    }
}

fn joined(path: Option<&str>, field: &str) -> String {
    path.map_or_else(|| field.to_owned(), |path| format!("{path}.{field}"))
}

/// The word that ends at or last before a byte.
fn word_before(text: &str, byte: usize) -> std::ops::Range<usize> {
    let before = text[..byte].trim_end();
    let start = before.trim_end_matches(|c: char| c.is_alphanumeric() || c == '_');
    start.len()..before.len()
}

/// A value as it is written: up to the comma, bracket or line's end that ends it.
fn token(rest: &str) -> &str {
    let mut depth = 0_usize;
    let mut is_quoted = false;
    let rest = &rest[..rest.find("//").unwrap_or(rest.len())];
    let end = rest.find(|c: char| {
        match c {
            '\n' => return true,
            '"' => is_quoted = !is_quoted,
            _ if is_quoted => {}
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' if depth > 0 => depth -= 1,
            ',' | ';' | ')' | ']' | '}' => return depth == 0,
            _ => {}
        }
        false
    });
    rest[..end.unwrap_or(rest.len())].trim_end()
}

fn is_bare(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | '+')
}

/// The letters of what was found that are told.
const LONGEST: usize = 40;
