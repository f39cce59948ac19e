//! The unit file: RON text in and out, refused whole with file, line, column and field, and saved
//! so that an older file is never harmed.

use std::fs;
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use thiserror::Error;

use super::Document;
use super::locate::{Places, line_and_column, past_remarks};
use super::told::Told;

/// A unit file is a few thousand bytes; past this it is something else.
const LARGEST_BYTES: u64 = 1_000_000;

/// Why a unit file could not be read or written.
#[derive(Debug, Error)]
pub enum FileProblem {
    /// It could not be read at all.
    #[error("{}: cannot be read: {source}", .file.display())]
    Unreadable {
        /// The file.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// It is far larger than a unit file.
    #[error(
        "{}:1:1: field format: the file is larger than {} bytes; a unit file is a few thousand, and begins with (format: 1, …", .file.display(), LARGEST_BYTES
    )]
    TooLarge {
        /// The file.
        file: PathBuf,
    },
    /// Its text or a value in it is wrong.
    #[error("{}:{line}:{column}: field {field}: {what}", .file.display())]
    Wrong {
        /// The file.
        file: PathBuf,
        /// Line from 1.
        line: usize,
        /// Column from 1.
        column: usize,
        /// The field, as `bench.reel_diameter`.
        field: String,
        /// What is wrong, and what would be right.
        what: String,
    },
    /// It could not be written; what stood there before is whole.
    #[error("{}: could not be saved: {source}; the file that was there is unchanged", .file.display())]
    Unsaved {
        /// The file.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

/// Reads a unit file and checks that it makes sense.
///
/// # Errors
/// When it cannot be read, is no unit file, or holds a value that makes no sense.
pub fn read(file: &Path) -> Result<Document, FileProblem> {
    let unreadable = |source| FileProblem::Unreadable {
        file: file.to_owned(),
        source,
    };
    let mut bytes = Vec::new();
    fs::File::open(file)
        .and_then(|opened| opened.take(LARGEST_BYTES + 1).read_to_end(&mut bytes))
        .map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_BYTES {
        return Err(FileProblem::TooLarge {
            file: file.to_owned(),
        });
    }
    match std::str::from_utf8(&bytes) {
        Ok(text) => read_text(file, text),
        Err(error) => {
            let readable = String::from_utf8_lossy(&bytes[..error.valid_up_to()]);
            let what = "this is not UTF-8 text; save the file as UTF-8";
            Err(wrong(
                file,
                &readable,
                readable.len(),
                None,
                what.to_owned(),
            ))
        }
    }
}

/// Reads the text of a unit file and checks that it makes sense. `file` is only named in problems.
///
/// # Errors
/// When it is no unit file, or holds a value that makes no sense.
pub fn read_text(file: &Path, text: &str) -> Result<Document, FileProblem> {
    // Some editors put an invisible mark before UTF-8 text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut document = parse(file, text)?;
    text[..past_remarks(text, 0)].clone_into(&mut document.remarks);
    match document.checked() {
        Ok(_) => Ok(document),
        Err(flaw) => {
            let byte = Places::of(text).start_of(&flaw.path).unwrap_or(0);
            Err(wrong(
                file,
                text,
                byte,
                Some(flaw.path),
                flaw.kind.to_string(),
            ))
        }
    }
}

fn parse(file: &Path, text: &str) -> Result<Document, FileProblem> {
    let options = options();
    let mut deserializer = ron::Deserializer::from_str_with_options(text, &options)
        .map_err(|error| at_parser(file, text, None, &error))?;
    let document = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = plain_path(&error.path().to_string());
        at_parser(
            file,
            text,
            path.as_deref(),
            &deserializer.span_error(error.into_inner()),
        )
    })?;
    deserializer
        .end()
        .map_err(|error| at_parser(file, text, None, &deserializer.span_error(error)))?;
    Ok(document)
}

fn options() -> ron::Options {
    // `Some(…)` may be left out, as people who edit by hand do.
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// serde's path without the variants and options it passes through; nothing at the top.
fn plain_path(path: &str) -> Option<String> {
    let is_field = |part: &&str| part.starts_with(|c: char| c.is_lowercase() || c == '[');
    let plain = path
        .split('.')
        .filter(is_field)
        .collect::<Vec<_>>()
        .join(".");
    (!plain.is_empty()).then_some(plain)
}

/// A problem the parser met, told where and as the person who wrote the file sees it.
fn at_parser(
    file: &Path,
    text: &str,
    path: Option<&str>,
    error: &ron::error::SpannedError,
) -> FileProblem {
    let told = Told::of(text, path, error);
    wrong(file, text, told.byte, told.field, told.what)
}

fn wrong(file: &Path, text: &str, byte: usize, field: Option<String>, what: String) -> FileProblem {
    let (line, column) = line_and_column(text, byte);
    let field = field
        .or_else(|| Places::of(text).field_before(byte).map(str::to_owned))
        .unwrap_or_else(|| "format".to_owned());
    FileProblem::Wrong {
        file: file.to_owned(),
        line,
        column,
        field,
        what,
    }
}

/// The text of a unit file.
#[must_use]
pub fn write_text(document: &Document) -> String {
    let layout = PrettyConfig::new()
        .struct_names(false)
        .depth_limit(2)
        .new_line("\n");
    // A document holds only texts, counts and lists of them: there is nothing RON cannot write.
    let mut text = ron::Options::default()
        .to_string_pretty(document, layout)
        .unwrap_or_else(|error| unreachable!("a document is plain text: {error}"));
    text.push('\n');
    text.insert_str(0, &document.remarks);
    text
}

/// Saves a document: a temporary file beside the target, flushed to disk, then put in its place.
///
/// # Errors
/// When it could not be written; what stood there before is whole.
pub fn save(document: &Document, file: &Path) -> Result<(), FileProblem> {
    write_whole(file, write_text(document).as_bytes()).map_err(|source| FileProblem::Unsaved {
        file: file.to_owned(),
        source,
    })
}

/// Writes a file whole or not at all: what stood there before stays until all of it is written.
///
/// # Errors
/// When it cannot be written.
pub fn write_whole(file: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link the file it leads to is replaced, not the link; a link that leads nowhere yet
    // is followed as far as it goes.
    let target = fs::canonicalize(file)
        .or_else(|_| fs::read_link(file).map(|to| file.with_file_name(to)))
        .unwrap_or_else(|_| file.to_owned());
    let old = fs::metadata(&target).ok();
    if old
        .as_ref()
        .is_some_and(|meta| meta.permissions().readonly())
    {
        let what = "the file is read-only";
        return Err(io::Error::new(io::ErrorKind::PermissionDenied, what));
    }
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut temporary =
        as_readable_as_any(tempfile::Builder::new().prefix(".sweepgauge-")).tempfile_in(folder)?;
    temporary.write_all(bytes)?;
    if let Some(old) = old {
        temporary.as_file().set_permissions(old.permissions())?;
    }
    temporary.as_file().sync_all()?;
    temporary.persist(&target).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file is private by itself; a new unit file is as readable as any other new file.
#[cfg(unix)]
fn as_readable_as_any<'a, 'b>(
    builder: &'a mut tempfile::Builder<'b, 'b>,
) -> &'a mut tempfile::Builder<'b, 'b> {
    use std::os::unix::fs::PermissionsExt as _;
    builder.permissions(fs::Permissions::from_mode(0o666))
}

#[cfg(not(unix))]
fn as_readable_as_any<'a, 'b>(
    builder: &'a mut tempfile::Builder<'b, 'b>,
) -> &'a mut tempfile::Builder<'b, 'b> {
    builder
}
