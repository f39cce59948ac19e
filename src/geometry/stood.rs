//! Where everything stands once gap, attitude and height are set: the sums behind a [`Pose`].
//!
//! [`Pose`]: super::Pose

use std::f64::consts::FRAC_PI_2;

use super::circles::Circle;
use super::closing::Apart;
use super::number::Number;
use super::plane::{Motion, Place};
use super::rollers::{GroundInFrame, RollerStood};
use super::{Impossible, Profile, Setting, Stance, Sweep};
use crate::units::{Angle, Length};

/// A unit standing on the plate, in bare numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stood<N> {
    /// Takes a place of the frame to the plate, where the edge stands at x = 0.
    pub(crate) plate_from_frame: Motion<N>,
    /// Takes a place of the bar to the frame, the bar turned as closing the gap left it.
    pub(crate) frame_from_bar: Motion<N>,
    pub(crate) edge_on_plate: Place<N>,
    /// The reel's circle, on the plate.
    pub(crate) reel: Circle<N>,
    pub(crate) front_roller: RollerStood<N>,
    pub(crate) rear_roller: RollerStood<N>,
    pub(crate) attitude: Angle<N>,
    /// The total extension *e*.
    pub(crate) extension: Length<N>,
    pub(crate) gap: Length<N>,
}

impl<N: Number> Stood<N> {
    /// Closes the gap, then sets attitude and height, or stands the unit on its rollers.
    #[inline]
    pub(crate) fn of(profile: &Profile<N>, setting: &Setting<N>) -> Result<Self, Impossible> {
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
                (None, None),
            ),
            Stance::Rollers {
                front_move,
                rear_move,
            } => {
                let ground = GroundInFrame::under_rollers(bench, front_move, rear_move)?;
                (
                    ground.slope_rad,
                    Length::from_mm(ground.height_mm(edge_in_frame)),
                    Angle::from_rad(attitude_in_frame_rad + ground.slope_rad),
                    (Some(front_move), Some(rear_move)),
                )
            }
        };
        if turn_rad.re().abs() >= FRAC_PI_2 {
            return Err(turned_over(turn_rad.re(), &setting.stance));
        }

        let edge_on_plate = Place::new(N::exact(0.0), height_of_cut.mm());
        // Nosing down is clockwise with x to the right: a negative turn of the plane.
        let plate_from_frame = Motion::turning(-turn_rad, edge_in_frame, edge_on_plate);
        let front_in_frame = Circle {
            centre: bench.front_roller_in_frame(),
            radius_mm: bench.front_roller.radius_mm(),
        };
        let rear_in_frame = Circle {
            centre: bench.rear_roller_in_frame(),
            radius_mm: bench.rear_roller.radius_mm(),
        };
        let (front_move, rear_move) = given_moves;
        Ok(Self {
            plate_from_frame,
            frame_from_bar,
            edge_on_plate,
            reel: Circle {
                centre: plate_from_frame * closed.centre_in_frame,
                radius_mm: reel_radius_mm,
            },
            front_roller: RollerStood::carried(front_in_frame, front_move, plate_from_frame),
            rear_roller: RollerStood::carried(rear_in_frame, rear_move, plate_from_frame),
            attitude,
            extension: setting.total_extension(profile),
            gap: setting.gap,
        })
    }

    /// Takes a place of the bar to the plate.
    pub(crate) fn plate_from_bar(&self) -> Motion<N> {
        self.plate_from_frame * self.frame_from_bar
    }

    /// Plate to edge.
    pub(crate) fn height_of_cut(&self) -> Length<N> {
        Length::from_mm(self.edge_on_plate.y)
    }

    /// What the reel does below the cut line.
    pub(crate) fn sweep(&self) -> Sweep<N> {
        Sweep::of(self.reel.radius_mm, self.reel.centre - self.edge_on_plate)
    }
}

fn turned_over<N: Number>(turn_rad: f64, stance: &Stance<N>) -> Impossible {
    let turn = Angle::from_rad(turn_rad);
    match *stance {
        Stance::Wanted { .. } => Impossible::TurnedOver { turn },
        Stance::Rollers {
            front_move,
            rear_move,
        } => Impossible::RollersTurnOver {
            turn,
            front_move: Length::from_mm(front_move.mm().re()),
            rear_move: Length::from_mm(rear_move.mm().re()),
        },
    }
}
