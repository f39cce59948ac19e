//! Writing a file whole or not at all.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use tempfile::Builder;

/// Writes a file whole or not at all: a temporary file beside it, flushed to disk, then put in its
/// place; what stood there before stays until then. What is no file but leads elsewhere, such as a
/// pipe, is written to as it is.
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
    if let Some(old) = &old {
        if !old.is_file() {
            return fs::write(&target, bytes);
        }
        if old.permissions().readonly() {
            let what = "the file is read-only";
            return Err(io::Error::new(io::ErrorKind::PermissionDenied, what));
        }
    }
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut builder = Builder::new();
    builder.prefix(".sweepgauge-");
    make_as_readable_as_any(&mut builder);
    let mut temporary = builder.tempfile_in(folder)?;
    temporary.write_all(bytes)?;
    if let Some(old) = old {
        temporary.as_file().set_permissions(old.permissions())?;
    }
    temporary.as_file().sync_all()?;
    temporary.persist(&target).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file is private by itself; a new file is as readable as any other new file.
#[cfg(unix)]
fn make_as_readable_as_any(builder: &mut Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt as _;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn make_as_readable_as_any(_: &mut Builder<'_, '_>) {}
