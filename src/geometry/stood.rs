//! Where everything stands once gap, attitude and height are set: the sums behind a [`Pose`].
//!
//! [`Pose`]: super::Pose

use std::f64::consts::FRAC_PI_2;

use super::Impossible;
use super::circles::Circle;
use super::closing::Apart;
use super::figures::{Figures, StanceFigures};
use super::number::Number;
use super::plane::{Motion, Place};
use super::rollers::{GroundInFrame, RollerStood};
use super::sweep::SweepFigures;
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
    pub(crate) attitude_deg: N,
    /// The total extension *e*.
    pub(crate) extension_mm: N,
    pub(crate) gap_mm: N,
}

impl<N: Number> Stood<N> {
    /// Closes the gap, then sets attitude and height, or stands the unit on its rollers.
    #[inline]
    pub(crate) fn of(figures: &Figures<N>) -> Result<Self, Impossible> {
        let (bench, setting) = (&figures.bench, &figures.setting);
        let reel_radius_mm = setting.reel_diameter_mm / 2.0;
        let edge_on_bar = setting.edge_on_bar(figures.bench_reach_mm);
        let bench_frame_from_bar = bench.frame_from_bar();
        let closed = figures.closing.close(&Apart {
            bench_edge: bench.edge_in_frame(),
            bench_centre: bench.centre_in_frame()?,
            edge: bench_frame_from_bar * edge_on_bar,
            reel_radius_mm,
            gap_mm: setting.gap_mm,
        })?;
        let frame_from_bar = closed.bar_turn * bench_frame_from_bar;
        let edge_in_frame = frame_from_bar * edge_on_bar;
        let attitude_in_frame_rad = bench.attitude_deg.to_rad() - closed.bar_turn_rad;

        let (turn_rad, height_of_cut_mm, attitude_deg, given_moves) = match setting.stance {
            StanceFigures::Wanted {
                attitude_deg,
                height_of_cut_mm,
            } => (
                attitude_deg.to_rad() - attitude_in_frame_rad,
                height_of_cut_mm,
                attitude_deg,
                (None, None),
            ),
            StanceFigures::Rollers {
                front_move_mm,
                rear_move_mm,
            } => {
                let ground = GroundInFrame::under_rollers(bench, front_move_mm, rear_move_mm)?;
                (
                    ground.slope_rad,
                    ground.height_mm(edge_in_frame),
                    (attitude_in_frame_rad + ground.slope_rad).to_deg(),
                    (Some(front_move_mm), Some(rear_move_mm)),
                )
            }
        };
        if turn_rad.re().abs() >= FRAC_PI_2 {
            return Err(turned_over(turn_rad.re(), &setting.stance));
        }

        let edge_on_plate = Place::new(N::exact(0.0), height_of_cut_mm);
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
        let (front_move_mm, rear_move_mm) = given_moves;
        Ok(Self {
            plate_from_frame,
            frame_from_bar,
            edge_on_plate,
            reel: Circle {
                centre: plate_from_frame * closed.centre_in_frame,
                radius_mm: reel_radius_mm,
            },
            front_roller: RollerStood::carried(front_in_frame, front_move_mm, plate_from_frame),
            rear_roller: RollerStood::carried(rear_in_frame, rear_move_mm, plate_from_frame),
            attitude_deg,
            extension_mm: figures.total_extension_mm(),
            gap_mm: setting.gap_mm,
        })
    }

    /// Takes a place of the bar to the plate.
    pub(crate) fn plate_from_bar(&self) -> Motion<N> {
        self.plate_from_frame * self.frame_from_bar
    }

    /// Plate to edge.
    pub(crate) fn height_of_cut_mm(&self) -> N {
        self.edge_on_plate.y
    }

    /// What the reel does below the cut line.
    pub(crate) fn sweep(&self) -> SweepFigures<N> {
        SweepFigures::of(self.reel.radius_mm, self.reel.centre - self.edge_on_plate)
    }
}

fn turned_over<N: Number>(turn_rad: f64, stance: &StanceFigures<N>) -> Impossible {
    let turn = Angle::from_rad(turn_rad);
    match *stance {
        StanceFigures::Wanted { .. } => Impossible::TurnedOver { turn },
        StanceFigures::Rollers {
            front_move_mm,
            rear_move_mm,
        } => Impossible::RollersTurnOver {
            turn,
            front_move: Length::from_mm(front_move_mm.re()),
            rear_move: Length::from_mm(rear_move_mm.re()),
        },
    }
}
