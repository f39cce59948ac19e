//! What the speeds make of a unit: clips, the tip's path over the ground, and the speeds that give
//! a clip length as long as the height of cut.

mod path_numbers;

pub use path_numbers::PathNumber;

use super::Solution;
use crate::geometry::{BelowCut, BladePath, ground_speed_for_clip, reel_speed_for_clip};
use crate::unit::{Mowing, Unit};
use crate::units::{Length, Ratio, Speed, Turning};

/// The reel in motion on a unit driven over level ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kinematics {
    /// The speeds it follows from.
    pub speeds: Mowing,
    /// The path of the tip that clips at time 0; each neighbour's is this one moved by a clip length.
    pub path: BladePath,
    /// Forward travel between two clips.
    pub clip_length: Length,
    /// Clip length over height of cut; none when the edge is not above the plate.
    pub clip_to_cut: Option<Ratio>,
    /// The tips' speed against the frame.
    pub tip_speed: Speed,
    /// The tips' speed over the ground at the clip.
    pub tip_at_clip: Speed,
    /// A tip's way from entering the cut line to the clip; none when it has no such way.
    pub below_cut: Option<BelowCut>,
    /// What would make the clip length the height of cut; none without a height of cut.
    pub for_cut: Option<SpeedsForCut>,
    /// How uneven the cut is left, estimated; none without a height of cut. What the estimate rests
    /// on stands at the function that makes it.
    pub ripple_estimate: Option<Length>,
}

/// The speeds that give a clip length as long as the height of cut (common practice, no source):
/// either one changed, the other left as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedsForCut {
    /// Ground speed, the reel's left as it is.
    pub ground_speed: Speed,
    /// Reel speed, the ground's left as it is.
    pub reel_speed: Turning,
}

impl Kinematics {
    /// What the speeds of a unit make of one of its solutions; none when they are not known.
    #[must_use]
    pub fn of(unit: &Unit, solution: &Solution) -> Option<Self> {
        let speeds = unit.mowing?;
        let clips = solution.mowing?;
        let Mowing {
            ground_speed,
            reel_speed,
        } = speeds;
        let height = solution.pose.height_of_cut;
        let cut = (height.mm() > 0.0).then_some(height);
        let path = BladePath::of(&solution.pose, ground_speed, reel_speed);
        Some(Self {
            speeds,
            path,
            clip_length: clips.clip_length,
            clip_to_cut: clips.clip_to_cut,
            tip_speed: path.tip_speed(),
            tip_at_clip: path.speed_at_clip(),
            below_cut: path.below_cut(),
            for_cut: cut.map(|cut| SpeedsForCut {
                ground_speed: ground_speed_for_clip(cut, reel_speed, unit.blades),
                reel_speed: reel_speed_for_clip(cut, ground_speed, unit.blades),
            }),
            ripple_estimate: cut.map(|cut| ripple_estimate(cut, clips.clip_length)),
        })
    }

    /// The path of a neighbouring blade's tip, so many clips after this one; before it when negative.
    #[must_use]
    pub fn clip_offset(&self, clips: i32) -> Length {
        self.clip_length * f64::from(clips)
    }
}

/// How much longer the longest stem is left than the shortest, **an estimate**.
///
/// Assumed: a stem stands straight from its root to the edge while it is cut, it is cut at the clip
/// nearest its root, and it stands upright afterwards. A stem rooted at a clip is left at the height
/// of cut H; one rooted halfway between two clips, half a clip length p away, at the slant
/// `sqrt(H² + (p/2)²)`; so the ripple is `sqrt(H² + (p/2)²) − H`. Bending, what the blades sweep
/// along and grass that does not rise again are left out.
fn ripple_estimate(height_of_cut: Length, clip_length: Length) -> Length {
    let (height_mm, half_mm) = (height_of_cut.mm(), clip_length.mm() / 2.0);
    // The difference of two nearly equal lengths, written so that no digits are lost.
    Length::from_mm(half_mm * half_mm / (height_mm.hypot(half_mm) + height_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ripple_is_that_of_a_right_triangle() {
        // 3, 4, 5: half a clip of 3 at a cut of 4 leaves the longest stem at 5.
        let ripple = ripple_estimate(Length::from_mm(4.0), Length::from_mm(6.0));
        assert!((ripple.mm() - 1.0).abs() < 1e-12);
        let short = ripple_estimate(Length::from_mm(10.0), Length::from_mm(2e-6));
        assert!((short.mm() / 5e-14 - 1.0).abs() < 1e-9, "{short:?}");
    }
}
