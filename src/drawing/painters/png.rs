//! The PNG painter: the sheet's SVG as pixels, with the bundled fonts, and with the system's for letters
//! that those lack.

use std::sync::Arc;

use resvg::usvg::{self, fontdb};
use resvg::{tiny_skia, usvg::Tree};

use super::svg::to_svg;
use crate::drawing::paper::{PAPER_PER_MM, letters};
use crate::drawing::sheets::Sheet;

/// Pixels that a picture has at the most along a side, and in all.
const LONGEST_SIDE: f64 = 30_000.0;
const MOST_PIXELS: f64 = 2e8;

/// A sheet as pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// How many across.
    pub width: u32,
    /// How many down.
    pub height: u32,
    /// Red, green, blue and opacity of each, row by row; colours as if opaque.
    pub rgba: Vec<u8>,
}

/// Paints a sheet as a PNG file's bytes, with so many pixels for each paper unit.
///
/// # Errors
/// When the sheet is too large to be held in pixels, in words.
pub fn to_png(sheet: &Sheet, per_unit: f64) -> Result<Vec<u8>, String> {
    let pixels = to_pixels(sheet, per_unit)?;
    encoded(&pixels, per_unit).map_err(|error| error.to_string())
}

/// The pixels as a file that tells how many there are to the metre (PNG, third edition, 11.3.4.3 pHYs), so
/// that what is written on it of its scale holds on paper too.
fn encoded(pixels: &Pixels, per_unit: f64) -> Result<Vec<u8>, ::png::EncodingError> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "no more than the longest side has pixels, to a paper unit"
    )]
    let per_metre = (per_unit * PAPER_PER_MM * 1000.0).round() as u32;
    let mut bytes = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut bytes, pixels.width, pixels.height);
    encoder.set_color(::png::ColorType::Rgba);
    encoder.set_depth(::png::BitDepth::Eight);
    encoder.set_pixel_dims(Some(::png::PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: ::png::Unit::Meter,
    }));
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&pixels.rgba)?;
    writer.finish()?;
    Ok(bytes)
}

/// Paints a sheet as pixels for a screen or the clipboard.
///
/// # Errors
/// When the sheet is too large to be held in pixels, in words.
pub fn to_pixels(sheet: &Sheet, per_unit: f64) -> Result<Pixels, String> {
    let pixels = painted(sheet, per_unit)?;
    let rgba = pixels.pixels().iter().flat_map(|pixel| {
        let plain = pixel.demultiply();
        [plain.red(), plain.green(), plain.blue(), plain.alpha()]
    });
    Ok(Pixels {
        width: pixels.width(),
        height: pixels.height(),
        rgba: rgba.collect(),
    })
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a scale has fewer digits than f32 holds, and too large sides were refused"
)]
#[expect(clippy::cast_sign_loss, reason = "sizes of paper are positive")]
fn painted(sheet: &Sheet, per_unit: f64) -> Result<tiny_skia::Pixmap, String> {
    let (width, height) = (
        (sheet.window.width() * per_unit).round(),
        (sheet.window.height() * per_unit).round(),
    );
    if width < 1.0 || height < 1.0 {
        return Err("the picture has no size".to_owned());
    }
    if width.max(height) > LONGEST_SIDE || width * height > MOST_PIXELS {
        return Err(format!(
            "the picture would be {width} by {height} pixels: take at most {LONGEST_SIDE} along a side and {} million in all",
            MOST_PIXELS / 1e6
        ));
    }
    let svg = to_svg(sheet);
    let tree = Tree::from_str(&svg, &options(letters::needed_for(&svg)))
        .map_err(|error| error.to_string())?;
    let mut pixels =
        tiny_skia::Pixmap::new(width as u32, height as u32).ok_or("the picture is too large")?;
    let scale = tiny_skia::Transform::from_scale(per_unit as f32, per_unit as f32);
    resvg::render(&tree, scale, &mut pixels.as_mut());
    Ok(pixels)
}

/// How an SVG's words are set with some fonts.
pub(super) fn options(fonts: Arc<fontdb::Database>) -> usvg::Options<'static> {
    usvg::Options {
        fontdb: fonts,
        font_resolver: usvg::FontResolver {
            select_font: usvg::FontResolver::default_font_selector(),
            select_fallback: Box::new(|letter, used, all| letters::stand_in(letter, used, all)),
        },
        ..usvg::Options::default()
    }
}
