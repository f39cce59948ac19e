//! Clip length: forward travel between two blades passing the knife, and the speeds that give one.

use super::number::Number;
use crate::units::{Length, Speed, Turning};

/// Forward travel between two blades passing the knife: `v / (blades · reel turns a second)`.
///
/// `blades` and the reel's speed are above zero.
pub fn clip_length<N: Number>(
    ground_speed: Speed<N>,
    reel_speed: Turning<N>,
    blades: u32,
) -> Length<N> {
    Length::from_mm(ground_speed.mm_per_s() / (reel_speed.rev_per_s() * f64::from(blades)))
}

/// Clip length over height of cut; none when the edge is not above the plate.
pub(crate) fn clip_to_cut<N: Number>(
    clip_length: Length<N>,
    height_of_cut: Length<N>,
) -> Option<N> {
    (height_of_cut.mm().re() > 0.0).then(|| clip_length.mm() / height_of_cut.mm())
}

/// The ground speed at which a reel's speed gives a clip length: [`clip_length`] turned about.
#[must_use]
pub fn ground_speed_for_clip(clip_length: Length, reel_speed: Turning, blades: u32) -> Speed {
    Speed::from_mm_per_s(clip_length.mm() * f64::from(blades) * reel_speed.rev_per_s())
}

/// The reel's speed at which a ground speed gives a clip length: [`clip_length`] turned about.
///
/// `blades` and the clip length are above zero.
#[must_use]
pub fn reel_speed_for_clip(clip_length: Length, ground_speed: Speed, blades: u32) -> Turning {
    Turning::from_rev_per_s(ground_speed.mm_per_s() / (f64::from(blades) * clip_length.mm()))
}
