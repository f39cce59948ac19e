//! The solved pose: where everything stands on the plate once gap, attitude and height are set.

use kurbo::{Affine, Point, Vec2};

use super::plane::Way;
use super::stood::Stood;
use super::{Impossible, Profile, RollerOnPlate, Setting, Stance, Sweep};
use crate::units::{Angle, Length};

/// A unit standing on the plate, set as wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// Takes a point of the frame to the plate, where the edge stands at x = 0.
    pub plate_from_frame: Affine,
    /// Takes a point of the bar to the frame, the bar turned as closing the gap left it.
    pub frame_from_bar: Affine,
    /// The edge.
    pub edge_on_plate: Point,
    /// The reel's centre.
    pub centre_on_plate: Point,
    /// The reel's radius in millimetres.
    pub reel_radius_mm: f64,
    /// The front roller.
    pub front_roller: RollerOnPlate,
    /// The rear roller.
    pub rear_roller: RollerOnPlate,
    /// Knife datum against the plate, positive with the knife's back higher than its edge.
    pub attitude: Angle,
    /// Plate to edge. Negative when the given rollers leave the edge below the ground.
    pub height_of_cut: Length,
    /// The total extension *e*.
    pub extension: Length,
    /// Reel surface to edge.
    pub gap: Length,
    /// How far closing the gap lifted the edge, on the frame's own axes: it raises the height of cut
    /// by as much where the rollers are left alone. Zero where the reel moves.
    pub edge_lifted_by_closing: Length,
    /// How much attitude closing the gap gave the knife; zero where it does not turn.
    pub attitude_by_closing: Angle,
}

impl Pose {
    /// Solves a setting of a unit.
    ///
    /// # Errors
    /// When the geometry cannot exist; the variant says what cannot reach what, with the lengths.
    pub fn solve(profile: &Profile, setting: &Setting) -> Result<Self, Impossible> {
        Stood::of(profile, setting).map(Self::from)
    }

    /// The setting by attitude and height that gives this pose.
    #[must_use]
    pub fn as_wanted(&self) -> Stance {
        Stance::Wanted {
            attitude: self.attitude,
            height_of_cut: self.height_of_cut,
        }
    }

    /// The setting by the rollers that gives this pose.
    #[must_use]
    pub fn as_rollers(&self) -> Stance {
        Stance::Rollers {
            front_move: self.front_roller.moved,
            rear_move: self.rear_roller.moved,
        }
    }

    /// The setting by the front roller and the height that gives this pose.
    #[must_use]
    pub fn as_front_roller(&self) -> Stance {
        Stance::FrontRoller {
            front_move: self.front_roller.moved,
            height_of_cut: self.height_of_cut,
        }
    }

    /// The setting by the rear roller and the height that gives this pose.
    #[must_use]
    pub fn as_rear_roller(&self) -> Stance {
        Stance::RearRoller {
            rear_move: self.rear_roller.moved,
            height_of_cut: self.height_of_cut,
        }
    }

    /// Takes a point of the bar to the plate.
    #[must_use]
    pub fn plate_from_bar(&self) -> Affine {
        self.plate_from_frame * self.frame_from_bar
    }

    /// How far both rollers go down in their brackets to raise the edge by so much, attitude kept:
    /// they move along the frame's vertical, which leans.
    #[must_use]
    pub fn roller_move_to_raise(&self, by: Length) -> Length {
        let [cos, ..] = self.plate_from_frame.as_coeffs();
        by * (1.0 / cos)
    }

    /// From the edge to the reel's centre: behind centre across, the centre's height above it up.
    #[must_use]
    pub fn edge_to_centre_mm(&self) -> Vec2 {
        self.centre_on_plate - self.edge_on_plate
    }

    /// What the reel does below the cut line.
    #[must_use]
    pub fn sweep(&self) -> Sweep {
        let Vec2 { x, y } = self.edge_to_centre_mm();
        Sweep::of(self.reel_radius_mm, Way::new(x, y))
    }

    /// The point of the reel's circle nearest the edge.
    #[must_use]
    pub fn clip_point_on_plate(&self) -> Point {
        let to_edge = -self.edge_to_centre_mm();
        let distance = to_edge.hypot();
        if distance == 0.0 {
            return self.centre_on_plate - Vec2::new(0.0, self.reel_radius_mm);
        }
        self.centre_on_plate + to_edge * (self.reel_radius_mm / distance)
    }

    /// The lowest point of the reel's circle.
    #[must_use]
    pub fn lowest_of_reel_on_plate(&self) -> Point {
        self.centre_on_plate - Vec2::new(0.0, self.reel_radius_mm)
    }

    /// The attitude at which the sweep below the cut would be `sweep`, height of cut kept.
    ///
    /// The frame turns about the edge, so the clip angle changes by as much as the attitude:
    /// `cos β = (R − S)/(R + g)`. None when no attitude gives it.
    #[must_use]
    pub fn attitude_for_sweep(&self, sweep: Length) -> Option<Angle> {
        let edge_to_centre = self.edge_to_centre_mm();
        let cosine = (self.reel_radius_mm - sweep.mm()) / edge_to_centre.hypot();
        if !(-1.0..=1.0).contains(&cosine) {
            return None;
        }
        let clip_angle_rad = edge_to_centre.x.atan2(edge_to_centre.y);
        let wanted_rad = cosine.acos().copysign(clip_angle_rad);
        Some(Angle::from_rad(
            self.attitude.rad() + wanted_rad - clip_angle_rad,
        ))
    }

    /// The attitude at which the edge would stand straight below the reel's centre.
    #[must_use]
    pub fn attitude_on_centre(&self) -> Angle {
        let edge_to_centre = self.edge_to_centre_mm();
        Angle::from_rad(self.attitude.rad() - edge_to_centre.x.atan2(edge_to_centre.y))
    }
}

impl From<Stood<f64>> for Pose {
    #[inline]
    fn from(stood: Stood<f64>) -> Self {
        Self {
            plate_from_frame: stood.plate_from_frame.into(),
            frame_from_bar: stood.frame_from_bar.into(),
            edge_on_plate: stood.edge_on_plate.into(),
            centre_on_plate: stood.reel.centre.into(),
            reel_radius_mm: stood.reel.radius_mm,
            front_roller: stood.front_roller.into(),
            rear_roller: stood.rear_roller.into(),
            attitude: stood.attitude,
            height_of_cut: stood.height_of_cut(),
            extension: stood.extension,
            gap: stood.gap,
            edge_lifted_by_closing: Length::from_mm(stood.edge_moved_in_frame.y),
            attitude_by_closing: stood.attitude_gained,
        }
    }
}
