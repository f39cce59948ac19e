//! Clip length: forward travel between two blades passing the knife, and the speeds that give one.

use crate::units::{Length, Speed, Turning};

/// Forward travel between two blades passing the knife: `v / (blades · reel turns a second)`.
///
/// `blades` and the reel's speed are above nothing.
#[must_use]
pub fn clip_length(ground_speed: Speed, reel_speed: Turning, blades: u32) -> Length {
    Length::from_mm(ground_speed.mm_per_s() / (f64::from(blades) * reel_speed.rev_per_s()))
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
