//! Clip length: forward travel between two blades passing the knife.

use crate::units::{Length, Speed, Turning};

/// Forward travel between two blades passing the knife: `v / (blades · reel turns a second)`.
///
/// `blades` and the reel's speed are above nothing.
#[must_use]
pub fn clip_length(ground_speed: Speed, reel_speed: Turning, blades: u32) -> Length {
    Length::from_mm(ground_speed.mm_per_s() / (f64::from(blades) * reel_speed.rev_per_s()))
}
