//! Pictures without a display: the unit on a sheet, as SVG or PNG.

use std::path::Path;

use super::Read;
use crate::command::Problem;
use crate::drawing::{LensChoice, PlateSheet, SideView, Standing, Theme, to_png, to_svg};
use crate::store;

/// Draws a unit on a sheet.
#[must_use]
pub fn sheet(read: &Read, theme: Theme, standing: Standing) -> PlateSheet {
    let solved = &read.solved;
    let view = SideView {
        case: solved.case(),
        findings: &solved.findings,
        uncertainty: Some(&solved.uncertainty),
        ghost: solved.ghost(),
        overlays: &[],
        standing,
        system: solved.unit.system,
    };
    let document = &read.document;
    PlateSheet::of(
        &document.name,
        document.fitted_name(),
        &view,
        LensChoice::default(),
        theme,
    )
}

/// Writes a picture of a solved unit; the ending chooses SVG or PNG.
///
/// # Errors
/// When the ending is another, or the file cannot be written.
pub fn write_picture(
    read: &Read,
    out: &Path,
    dark: bool,
    standing: Standing,
) -> Result<(), Problem> {
    let problem = |what: String| Problem::Picture {
        file: out.to_owned(),
        what,
    };
    let theme = if dark { Theme::Dark } else { Theme::Light };
    let sheet = sheet(read, theme, standing);
    let ending = out
        .extension()
        .map(|e| e.to_string_lossy().to_lowercase())
        .unwrap_or_default();
    let bytes = match ending.as_str() {
        "svg" => to_svg(&sheet).into_bytes(),
        "png" => to_png(&sheet).map_err(problem)?,
        _ => return Err(problem("write a name that ends in .svg or .png".to_owned())),
    };
    store::write_whole(out, &bytes).map_err(|error| problem(format!("cannot be written: {error}")))
}
