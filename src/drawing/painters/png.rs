//! The PNG painter: the sheet's SVG as pixels, with the bundled fonts, and with the system's for letters
//! that those lack.

use std::sync::Arc;

use resvg::usvg::fontdb;
use resvg::{tiny_skia, usvg};
use skrifa::{FontRef, MetadataProvider as _};

use super::svg::to_svg;
use crate::drawing::paper::{fonts, words};
use crate::drawing::sheets::PlateSheet;

/// Pixels of a PNG for a paper unit: 192 to the inch.
const PIXELS: f32 = 2.0;

/// Paints a sheet as a PNG file's bytes.
///
/// # Errors
/// When the sheet is too large to be held in pixels, in words.
pub fn to_png(sheet: &PlateSheet) -> Result<Vec<u8>, String> {
    let mut fonts = fontdb::Database::new();
    fonts.load_font_data(fonts::REGULAR.to_vec());
    fonts.load_font_data(fonts::SEMIBOLD.to_vec());
    let svg = to_svg(sheet);
    if !words::are_bundled(&svg) {
        fonts.load_system_fonts();
    }
    let options = usvg::Options {
        fontdb: Arc::new(fonts),
        font_resolver: usvg::FontResolver {
            select_font: usvg::FontResolver::default_font_selector(),
            select_fallback: Box::new(|letter, used, fonts| stand_in(letter, used, fonts)),
        },
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_str(&svg, &options).map_err(|error| error.to_string())?;
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

/// The font that stands in where those used so far lack a letter: one as heavy and as upright as the
/// first, if there is any.
fn stand_in(letter: char, used: &[fontdb::ID], fonts: &fontdb::Database) -> Option<fontdb::ID> {
    let like = fonts.face(*used.first()?)?;
    let has_it = |face: &&fontdb::FaceInfo| !used.contains(&face.id) && has(fonts, face.id, letter);
    let differs = |face: &&fontdb::FaceInfo| {
        let weight = face.weight.0.abs_diff(like.weight.0);
        (
            face.style != like.style,
            face.stretch != like.stretch,
            weight,
        )
    };
    fonts
        .faces()
        .filter(has_it)
        .min_by_key(differs)
        .map(|face| face.id)
}

fn has(fonts: &fontdb::Database, font: fontdb::ID, letter: char) -> bool {
    let has_it = |data: &[u8], index| {
        let font = FontRef::from_index(data, index);
        font.is_ok_and(|font| font.charmap().map(letter).is_some())
    };
    fonts.with_face_data(font, has_it).unwrap_or(false)
}
