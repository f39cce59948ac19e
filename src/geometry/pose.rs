//! The solved pose: where everything stands on the plate once gap, attitude and height are set.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Affine, Point, Vec2};

use super::closing::Apart;
use super::rollers::{GroundInFrame, move_to_plate_mm};
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
}

impl Pose {
    /// Solves a setting of a unit.
    ///
    /// # Errors
    /// When the geometry cannot exist; the variant says what cannot reach what, with the lengths.
    pub fn solve(profile: &Profile, setting: &Setting) -> Result<Self, Impossible> {
        let bench = &profile.bench;
        let reel_radius_mm = setting.reel_diameter.mm() / 2.0;
        let edge_on_bar = setting.edge_on_bar(profile);
        let bench_frame_from_bar = bench.frame_from_bar();
        let closed = profile.closing.close(&Apart {
            bench_edge: bench.edge_in_frame(),
            bench_centre: bench.centre_in_frame()?,
            edge: bench_frame_from_bar * edge_on_bar,
            reel_radius_mm,
            gap_mm: setting.gap.mm(),
        })?;
        let frame_from_bar = closed.bar_turn * bench_frame_from_bar;
        let edge_in_frame = frame_from_bar * edge_on_bar;
        let attitude_in_frame_rad = bench.attitude.rad() - closed.bar_turn_rad;

        let (turn_rad, height_of_cut, attitude, given_moves) = match setting.stance {
            Stance::Wanted {
                attitude,
                height_of_cut,
            } => (
                attitude.rad() - attitude_in_frame_rad,
                height_of_cut,
                attitude,
                None,
            ),
            Stance::Rollers {
                front_move,
                rear_move,
            } => {
                let ground = GroundInFrame::under_rollers(bench, front_move, rear_move)?;
                let height = Length::from_mm(ground.height_mm(edge_in_frame));
                let attitude = Angle::from_rad(attitude_in_frame_rad + ground.slope_rad);
                (
                    ground.slope_rad,
                    height,
                    attitude,
                    Some((front_move.mm(), rear_move.mm())),
                )
            }
        };
        if turn_rad.abs() >= FRAC_PI_2 {
            let turn = Angle::from_rad(turn_rad);
            return Err(match setting.stance {
                Stance::Wanted { .. } => Impossible::TurnedOver { turn },
                Stance::Rollers {
                    front_move,
                    rear_move,
                } => Impossible::RollersTurnOver {
                    turn,
                    front_move,
                    rear_move,
                },
            });
        }

        let edge_on_plate = Point::new(0.0, height_of_cut.mm());
        // Nosing down is clockwise with x to the right: a negative turn of the plane.
        let plate_from_frame = Affine::translate(edge_on_plate.to_vec2())
            * Affine::rotate(-turn_rad)
            * Affine::translate(-edge_in_frame.to_vec2());
        let (front, rear) = (bench.front_roller_in_frame(), bench.rear_roller_in_frame());
        let (front_radius, rear_radius) = (
            bench.front_roller.radius_mm(),
            bench.rear_roller.radius_mm(),
        );
        let (front_move, rear_move) = given_moves.unwrap_or_else(|| {
            (
                move_to_plate_mm(front, front_radius, plate_from_frame, turn_rad),
                move_to_plate_mm(rear, rear_radius, plate_from_frame, turn_rad),
            )
        });
        Ok(Self {
            plate_from_frame,
            frame_from_bar,
            edge_on_plate,
            centre_on_plate: plate_from_frame * closed.centre_in_frame,
            reel_radius_mm,
            front_roller: RollerOnPlate::carried(front, front_radius, front_move, plate_from_frame),
            rear_roller: RollerOnPlate::carried(rear, rear_radius, rear_move, plate_from_frame),
            attitude,
            height_of_cut,
            extension: setting.total_extension(profile),
            gap: setting.gap,
        })
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
        Sweep::of(self.reel_radius_mm, self.edge_to_centre_mm())
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
    /// `cos β = (R − S)/(R + g)`. Nothing when no attitude gives it.
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
