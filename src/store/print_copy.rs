//! Copies of what is printed: one without a name for the desktop's print dialog, one for its viewer.

use std::fs::File;
use std::io::{self, Seek as _, Write as _};
use std::path::PathBuf;

/// A file without a name that holds these bytes, read from its beginning: it goes when it is closed.
///
/// # Errors
/// When it cannot be written.
pub fn copy_to_print(bytes: &[u8]) -> io::Result<File> {
    let mut file = tempfile::tempfile()?;
    file.write_all(bytes)?;
    file.rewind()?;
    Ok(file)
}

/// A PDF in the system's folder of temporary files, for a viewer to open. It stays there: nobody knows
/// how long the viewer reads it.
///
/// # Errors
/// When it cannot be written; none is left then.
pub fn copy_to_view(bytes: &[u8]) -> io::Result<PathBuf> {
    let mut builder = tempfile::Builder::new();
    let mut file = builder.prefix("sweepgauge-").suffix(".pdf").tempfile()?;
    file.write_all(bytes)?;
    file.flush()?;
    let (_, path) = file.keep().map_err(|kept| kept.error)?;
    Ok(path)
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;

    use super::*;

    #[test]
    fn copies_hold_what_is_printed() {
        let mut read = Vec::new();
        copy_to_print(b"%PDF-")
            .unwrap()
            .read_to_end(&mut read)
            .unwrap();
        assert_eq!(read, b"%PDF-");
        let file = copy_to_view(b"%PDF-").unwrap();
        assert_eq!(std::fs::read(&file).unwrap(), b"%PDF-");
        assert!(file.extension().is_some_and(|ending| ending == "pdf"));
        std::fs::remove_file(file).unwrap();
    }
}
