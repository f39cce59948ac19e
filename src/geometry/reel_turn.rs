//! A turn of the reel: where every blade's tip stands over the ground while the unit drives on.
//!
//! Each tip runs on the trochoid of [`BladePath`]; the next one runs on the same path, moved ahead by
//! a clip length and as much later as the reel takes from blade to blade.

use kurbo::{Point, Vec2};

use super::BladePath;
use crate::units::Length;

/// The reel with all its blades in motion, on the ground's axes: those of the plate at phase 0.
///
/// A phase is a part of a turn: 0 when the first blade clips, 1 when it clips again. Other phases
/// belong to turns before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReelTurn {
    /// The path of the first blade's tip.
    pub path: BladePath,
    /// How many blades there are, one at the least.
    pub blades: u32,
}

impl ReelTurn {
    /// Seconds from the first clip to a phase.
    #[must_use]
    pub fn time_s(&self, phase: f64) -> f64 {
        phase * self.path.turn_s()
    }

    /// How far the unit has driven at a phase; negative before the first clip.
    #[must_use]
    pub fn travelled(&self, phase: f64) -> Length {
        self.path.travel_in_turn() * phase
    }

    /// The part of a turn from one blade to the next.
    #[must_use]
    pub fn phase_of_clip(&self) -> f64 {
        1.0 / f64::from(self.blades.max(1))
    }

    /// How far the unit drives from one clip to the next.
    #[must_use]
    pub fn clip_length(&self) -> Length {
        self.travelled(self.phase_of_clip())
    }

    /// The reel's centre over the ground.
    #[must_use]
    pub fn centre(&self, phase: f64) -> Point {
        self.path.centre_at(self.time_s(phase))
    }

    /// Over the ground, the tip that makes a clip: 0 the first one, 1 the one after, and so on. After
    /// as many as there are blades the first one's turn comes again.
    #[must_use]
    pub fn tip_of_clip(&self, clip: f64, phase: f64) -> Point {
        let later = clip * self.phase_of_clip();
        let on_path = self.path.tip_at(self.time_s(phase - later));
        on_path + Vec2::new(self.travelled(later).mm(), 0.0)
    }

    /// The tips of all blades over the ground, in the order in which they clip after phase 0.
    pub fn tips(&self, phase: f64) -> impl Iterator<Item = Point> {
        (0..self.blades).map(move |blade| self.tip_of_clip(f64::from(blade), phase))
    }
}
