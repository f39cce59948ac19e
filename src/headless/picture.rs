//! Pictures without a display: the unit on a sheet, as SVG or PNG.

use std::path::Path;

use crate::analysis::Solved;
use crate::command::Problem;
use crate::drawing::{LensChoice, Page, PlateSheet, SideView, Standing, Theme, to_png, to_svg};
use crate::store;

/// Draws a unit on a sheet.
#[must_use]
pub fn sheet(solved: &Solved, theme: Theme, standing: Standing) -> PlateSheet {
    let view = SideView {
        standing,
        ..SideView::of(solved)
    };
    let document = &solved.document;
    PlateSheet::of(
        &document.name,
        document.fitted_name(),
        &view,
        LensChoice::default(),
        theme,
        Page::A4,
    )
}

/// Writes a picture of a solved unit; the ending chooses SVG or PNG.
///
/// # Errors
/// When the ending is another, or the file cannot be written.
pub fn write_picture(
    solved: &Solved,
    out: &Path,
    dark: bool,
    standing: Standing,
) -> Result<(), Problem> {
    let problem = |what: String| Problem::Picture {
        file: out.to_owned(),
        what,
    };
    let theme = if dark { Theme::Dark } else { Theme::Light };
    let sheet = sheet(solved, theme, standing);
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
