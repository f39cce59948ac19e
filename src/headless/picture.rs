//! Pictures without a display: SVG from the scene, PNG from that SVG with the bundled fonts.

use std::path::Path;
use std::sync::Arc;

use resvg::usvg::fontdb;
use resvg::{tiny_skia, usvg};

use super::{Problem, Read};
use crate::drawing::{LensChoice, PlateSheet, SideView, Standing, Theme, fonts, to_svg};

/// Pixels of a PNG for a paper unit.
const PIXELS: f32 = 1.5;

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
    let svg = to_svg(&sheet(read, theme, standing));
    let ending = out
        .extension()
        .map(|e| e.to_string_lossy().to_lowercase())
        .unwrap_or_default();
    let bytes = match ending.as_str() {
        "svg" => svg.into_bytes(),
        "png" => png(&svg).map_err(problem)?,
        _ => return Err(problem("write a name that ends in .svg or .png".to_owned())),
    };
    std::fs::write(out, bytes).map_err(|error| problem(format!("cannot be written: {error}")))
}

fn png(svg: &str) -> Result<Vec<u8>, String> {
    let mut fonts = fontdb::Database::new();
    fonts.load_font_data(fonts::REGULAR.to_vec());
    fonts.load_font_data(fonts::SEMIBOLD.to_vec());
    let options = usvg::Options {
        fontdb: Arc::new(fonts),
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_str(svg, &options).map_err(|error| error.to_string())?;
    let size = tree
        .size()
        .to_int_size()
        .scale_by(PIXELS)
        .ok_or("the picture has no size")?;
    let mut pixels =
        tiny_skia::Pixmap::new(size.width(), size.height()).ok_or("the picture is too large")?;
    resvg::render(
        &tree,
        tiny_skia::Transform::from_scale(PIXELS, PIXELS),
        &mut pixels.as_mut(),
    );
    pixels.encode_png().map_err(|error| error.to_string())
}
