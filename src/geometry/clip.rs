//! Clip length: forward travel between two blades passing the knife, and the speeds that give one.

use super::number::Number;
use crate::units::{Length, Measure as _, Speed, Turning};

/// Forward travel between two blades passing the knife: `v / (blades · reel turns a second)`.
///
/// `blades` and the reel's speed are above nothing.
#[must_use]
pub fn clip_length(ground_speed: Speed, reel_speed: Turning, blades: u32) -> Length {
    Length::from_mm(clip_length_mm(
        ground_speed.mm_per_s(),
        reel_speed.base(),
        blades,
    ))
}

/// The same over bare numbers.
pub(crate) fn clip_length_mm<N: Number>(
    ground_speed_mm_per_s: N,
    reel_speed_rpm: N,
    blades: u32,
) -> N {
    let reel_rev_per_s = reel_speed_rpm / 60.0;
    ground_speed_mm_per_s / (reel_rev_per_s * f64::from(blades))
}

/// Clip length over height of cut; nothing when the edge is not above the plate.
pub(crate) fn clip_to_cut<N: Number>(clip_length_mm: N, height_of_cut_mm: N) -> Option<N> {
    (height_of_cut_mm.re() > 0.0).then(|| clip_length_mm / height_of_cut_mm)
}

/// The ground speed at which a reel's speed gives a clip length: [`clip_length`] turned about.
#[must_use]
pub fn ground_speed_for_clip(clip_length: Length, reel_speed: Turning, blades: u32) -> Speed {
    Speed::from_mm_per_s(clip_length.mm() * f64::from(blades) * reel_speed.rev_per_s())
}

/// The reel's speed at which a ground speed gives a clip length: [`clip_length`] turned about.
///
/// `blades` and the clip length are above nothing.
#[must_use]
pub fn reel_speed_for_clip(clip_length: Length, ground_speed: Speed, blades: u32) -> Turning {
    Turning::from_rev_per_s(ground_speed.mm_per_s() / (f64::from(blades) * clip_length.mm()))
}
