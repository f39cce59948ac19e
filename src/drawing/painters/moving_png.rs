//! The moving PNG painter: pictures one after the other in one file, an animated PNG (PNG
//! Specification, third edition, W3C).

use super::png::{Pixels, to_pixels};
use crate::drawing::sheets::Sheet;

/// Pixels of all the pictures of one file at the most.
const MOST_PIXELS: f64 = 2e8;

/// How long each picture stays, as a fraction of a second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delay {
    /// Parts.
    pub parts: u16,
    /// Of how many in a second.
    pub in_a_second: u16,
}

/// Paints sheets as the pictures of one moving PNG, which begins anew for ever, with so many pixels for
/// each paper unit.
///
/// # Errors
/// When there is no sheet, they are not of one size, or they have more pixels than can be held, in words.
pub fn to_moving_png(
    count: u32,
    per_unit: f64,
    delay: Delay,
    mut sheet: impl FnMut(u32) -> Result<Sheet, String>,
) -> Result<Vec<u8>, String> {
    if count == 0 {
        return Err("a moving picture needs at least one picture".to_owned());
    }
    let first = sheet(0)?;
    let paper = first.window.size();
    let pixels = paper.width * per_unit * paper.height * per_unit * f64::from(count);
    if pixels > MOST_PIXELS {
        return Err(format!(
            "the moving picture would have {:.0} million pixels in all: take at most {:.0}, with fewer pictures or a smaller width",
            pixels / 1e6,
            MOST_PIXELS / 1e6
        ));
    }
    let painted = to_pixels(&first, per_unit)?;
    let is_opaque = painted.rgba.chunks_exact(4).all(|pixel| pixel[3] == 255);
    let mut bytes = Vec::new();
    let wrong = |error: ::png::EncodingError| error.to_string();
    let mut encoder = ::png::Encoder::new(&mut bytes, painted.width, painted.height);
    encoder.set_color(if is_opaque {
        ::png::ColorType::Rgb
    } else {
        ::png::ColorType::Rgba
    });
    encoder.set_depth(::png::BitDepth::Eight);
    // 0 plays: for ever.
    encoder.set_animated(count, 0).map_err(wrong)?;
    let set = encoder.set_frame_delay(delay.parts, delay.in_a_second);
    set.map_err(wrong)?;
    let set = encoder.set_blend_op(::png::BlendOp::Source);
    set.map_err(wrong)?;
    let mut writer = encoder.write_header().map_err(wrong)?;
    let mut painted = painted;
    for number in 0..count {
        if number > 0 {
            let next = to_pixels(&sheet(number)?, per_unit)?;
            if (next.width, next.height) != (painted.width, painted.height) {
                return Err("the pictures of a moving one are of one size".to_owned());
            }
            painted = next;
        }
        let written = writer.write_image_data(&samples(&painted, is_opaque));
        written.map_err(wrong)?;
    }
    writer.finish().map_err(wrong)?;
    Ok(bytes)
}

/// The pixels as they are written; without opacity where every one is opaque.
fn samples(pixels: &Pixels, is_opaque: bool) -> Vec<u8> {
    if !is_opaque {
        return pixels.rgba.clone();
    }
    let each = pixels.rgba.chunks_exact(4);
    each.flat_map(|pixel| [pixel[0], pixel[1], pixel[2]])
        .collect()
}
