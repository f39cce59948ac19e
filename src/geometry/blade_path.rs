//! The path of a blade's tip over the ground: a trochoid, in closed form.
//!
//! The reel's centre runs ahead at the ground speed while the tip turns about it, its lower side
//! towards the knife. With the tip `θ` past straight down, positive to the back,
//! `x = x₀ + v·t − R·sin θ`, `y = h − R·cos θ`, `θ = β + ω·t`: the trochoid of any handbook of plane
//! curves, a common cycloid where the tip is as fast as the unit, prolate (looped) where it is
//! faster, curtate where it is slower.

use std::f64::consts::TAU;

use kurbo::{BezPath, Point, Vec2};

use super::Pose;
use crate::units::{Angle, Length, Speed, Turning};

/// The path of the tip that stands at the clip point at time 0, on the plate's axes of that moment:
/// the edge then at x = 0, the ground at y = 0. Times are seconds from that clip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BladePath {
    /// The reel's radius in millimetres.
    pub reel_radius_mm: f64,
    /// The reel's centre at the clip.
    pub centre_at_clip: Point,
    /// The cut line's height.
    pub cut_height_mm: f64,
    /// Where the tip stands at the clip: from straight down, positive to the back.
    pub clip_angle_rad: f64,
    /// Forward speed in millimetres a second, above zero.
    pub ground_speed_mm_per_s: f64,
    /// How fast the reel turns in radians a second, above zero: at its lowest a tip moves back.
    pub turning_rad_per_s: f64,
}

/// A tip's way below the cut line, from where it enters to the clip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BelowCut {
    /// Where on the reel's circle the tip enters the cut line: from straight down, positive ahead.
    pub ahead_of_centre: Angle,
    /// Seconds from there to the clip.
    pub time_s: f64,
    /// How far the unit drives in that time.
    pub ground_covered: Length,
    /// How far back over the ground the tip has come at the clip; negative when it went ahead.
    pub tip_back: Length,
}

impl BladePath {
    /// The path of a posed unit's tips on level ground.
    ///
    /// Both speeds are above zero.
    #[must_use]
    pub fn of(pose: &Pose, ground_speed: Speed, reel_speed: Turning) -> Self {
        Self {
            reel_radius_mm: pose.reel_radius_mm,
            centre_at_clip: pose.centre_on_plate,
            cut_height_mm: pose.edge_on_plate.y,
            clip_angle_rad: pose.sweep().clip_angle.rad(),
            ground_speed_mm_per_s: ground_speed.mm_per_s(),
            turning_rad_per_s: TAU * reel_speed.rev_per_s(),
        }
    }

    /// The angle of the tip from straight down at a time, positive to the back.
    fn angle_rad(&self, time_s: f64) -> f64 {
        self.clip_angle_rad + self.turning_rad_per_s * time_s
    }

    /// The reel's centre at a time.
    #[must_use]
    pub fn centre_at(&self, time_s: f64) -> Point {
        self.centre_at_clip + Vec2::new(self.ground_speed_mm_per_s * time_s, 0.0)
    }

    /// The tip at a time.
    #[must_use]
    pub fn tip_at(&self, time_s: f64) -> Point {
        let (sin, cos) = self.angle_rad(time_s).sin_cos();
        self.centre_at(time_s) - Vec2::new(sin, cos) * self.reel_radius_mm
    }

    /// The tip's velocity over the ground at a time, in millimetres a second.
    #[must_use]
    pub fn velocity_at(&self, time_s: f64) -> Vec2 {
        let (sin, cos) = self.angle_rad(time_s).sin_cos();
        let around = self.tip_speed().mm_per_s();
        Vec2::new(self.ground_speed_mm_per_s - around * cos, around * sin)
    }

    /// A piece of the path from one time to another, in so many cubics that have the true places and
    /// directions at their ends.
    #[must_use]
    pub fn piece(&self, from_s: f64, to_s: f64, pieces: i32) -> BezPath {
        let step = (to_s - from_s) / f64::from(pieces);
        let mut piece = BezPath::new();
        piece.move_to(self.tip_at(from_s));
        for number in 0..pieces {
            let start = from_s + step * f64::from(number);
            let end = start + step;
            let to = self.tip_at(end);
            piece.curve_to(
                self.tip_at(start) + self.velocity_at(start) * (step / 3.0),
                to - self.velocity_at(end) * (step / 3.0),
                to,
            );
        }
        piece
    }

    /// The tip's speed against the frame.
    #[must_use]
    pub fn tip_speed(&self) -> Speed {
        Speed::from_mm_per_s(self.reel_radius_mm * self.turning_rad_per_s)
    }

    /// The tip's speed over the ground at the clip.
    #[must_use]
    pub fn speed_at_clip(&self) -> Speed {
        Speed::from_mm_per_s(self.velocity_at(0.0).hypot())
    }

    /// Seconds in which the reel turns once.
    #[must_use]
    pub fn turn_s(&self) -> f64 {
        TAU / self.turning_rad_per_s
    }

    /// How far the unit drives while the reel turns once: the path repeats itself after that.
    #[must_use]
    pub fn travel_in_turn(&self) -> Length {
        Length::from_mm(self.ground_speed_mm_per_s * self.turn_s())
    }

    /// When the tip stands lowest, next to the clip.
    #[must_use]
    pub fn lowest_at_s(&self) -> f64 {
        -self.clip_angle_rad / self.turning_rad_per_s
    }

    /// The tip's way below the cut line before it clips.
    ///
    /// None when it has no such way: the reel's circle does not cross the cut line, or the edge stands
    /// straight below the centre or ahead of it, so that the tip clips before it is below the cut.
    #[must_use]
    pub fn below_cut(&self) -> Option<BelowCut> {
        let above_cut_mm = self.centre_at_clip.y - self.cut_height_mm;
        let is_crossing = above_cut_mm.abs() < self.reel_radius_mm;
        if !is_crossing || self.clip_angle_rad <= 0.0 {
            return None;
        }
        let ahead_rad = (above_cut_mm / self.reel_radius_mm).acos();
        let time_s = (ahead_rad + self.clip_angle_rad) / self.turning_rad_per_s;
        Some(BelowCut {
            ahead_of_centre: Angle::from_rad(ahead_rad),
            time_s,
            ground_covered: Length::from_mm(self.ground_speed_mm_per_s * time_s),
            tip_back: Length::from_mm(self.tip_at(-time_s).x - self.tip_at(0.0).x),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path(clip_angle_rad: f64, above_cut_mm: f64) -> BladePath {
        BladePath {
            reel_radius_mm: 80.0,
            centre_at_clip: Point::new(80.0 * clip_angle_rad.sin(), 12.0 + above_cut_mm),
            cut_height_mm: 12.0,
            clip_angle_rad,
            ground_speed_mm_per_s: 1500.0,
            turning_rad_per_s: 100.0,
        }
    }

    #[test]
    fn at_its_lowest_a_tip_moves_back_and_at_the_top_ahead() {
        let path = path(0.1, 80.0 * 0.1_f64.cos());
        let lowest = path.lowest_at_s();
        assert!((path.velocity_at(lowest) - Vec2::new(1500.0 - 8000.0, 0.0)).hypot() < 1e-9);
        let top = path.velocity_at(lowest + path.turn_s() / 2.0);
        assert!((top - Vec2::new(1500.0 + 8000.0, 0.0)).hypot() < 1e-9);
        assert!((path.tip_at(lowest).y - (path.centre_at_clip.y - 80.0)).abs() < 1e-12);
    }

    #[test]
    fn a_tip_that_never_is_below_the_cut_before_it_clips_has_no_way_there() {
        // The circle above the cut line, touching it, or all of it below.
        for above_cut_mm in [80.1, 80.0, -80.0, -90.0] {
            assert_eq!(path(0.1, above_cut_mm).below_cut(), None, "{above_cut_mm}");
        }
        // The edge below the centre, and ahead of it.
        for clip_angle_rad in [0.0, -0.1] {
            assert_eq!(path(clip_angle_rad, 79.6).below_cut(), None);
        }
        assert!(path(0.1, 79.6).below_cut().is_some());
    }
}
