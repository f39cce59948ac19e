//! Where everything stands once gap, attitude and height are set: the sums behind a [`Pose`].
//!
//! [`Pose`]: super::Pose

use std::f64::consts::FRAC_PI_2;

use super::circles::Circle;
use super::closing::Apart;
use super::ground_line::GroundLine;
use super::number::Number;
use super::plane::{Motion, Place, Way};
use super::rollers::RollerStood;
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
    /// How far closing the gap moved the edge, on the frame's own axes: none where the reel moves.
    pub(crate) edge_moved_in_frame: Way<N>,
    /// How much attitude closing the gap gave the bar.
    pub(crate) attitude_gained: Angle<N>,
}

impl<N: Number> Stood<N> {
    /// Closes the gap, then sets attitude and height, stands the unit on its rollers, or does half of
    /// each.
    #[inline]
    pub(crate) fn of(profile: &Profile<N>, setting: &Setting<N>) -> Result<Self, Impossible> {
        let bench = &profile.bench;
        let reel_radius_mm = setting.reel_diameter.mm() / 2.0;
        let edge_on_bar = setting.edge_on_bar(profile);
        let bench_frame_from_bar = bench.frame_from_bar();
        let edge_apart = bench_frame_from_bar * edge_on_bar;
        let closed = profile.closing.close(&Apart {
            bench_edge: bench.edge_in_frame(),
            bench_centre: bench.centre_in_frame()?,
            edge: edge_apart,
            reel_radius_mm,
            gap_mm: setting.gap.mm(),
        })?;
        let frame_from_bar = closed.bar_moved * bench_frame_from_bar;
        let edge_in_frame = frame_from_bar * edge_on_bar;
        let attitude_in_frame_rad = bench.attitude.rad() - closed.bar_turn_rad;

        let front_in_frame = Circle {
            centre: bench.front_roller_in_frame(),
            radius_mm: bench.front_roller.radius_mm(),
        };
        let rear_in_frame = Circle {
            centre: bench.rear_roller_in_frame(),
            radius_mm: bench.rear_roller.radius_mm(),
        };
        let moved = |roller: Circle<N>, by: Length<N>| Circle {
            centre: roller.centre + Way::up(by.mm()),
            ..roller
        };
        let standing_on = |ground: GroundLine<N>, height_of_cut: Length<N>| {
            let attitude_rad = attitude_in_frame_rad + ground.slope_rad;
            (
                ground.slope_rad,
                height_of_cut,
                Angle::from_rad(attitude_rad),
            )
        };
        let (turn_rad, height_of_cut, attitude) = match setting.stance {
            Stance::Wanted {
                attitude,
                height_of_cut,
            } => (
                attitude.rad() - attitude_in_frame_rad,
                height_of_cut,
                attitude,
            ),
            Stance::Rollers {
                front_move,
                rear_move,
            } => {
                let front = moved(front_in_frame, front_move);
                let rear = moved(rear_in_frame, rear_move);
                let ground = GroundLine::under_rollers(front, rear)?;
                let height_mm = ground.height_mm(edge_in_frame);
                standing_on(ground, Length::from_mm(height_mm))
            }
            Stance::FrontRoller {
                front_move,
                height_of_cut,
            } => {
                let front = moved(front_in_frame, front_move);
                let ground = GroundLine::under_front(front, edge_in_frame, height_of_cut)?;
                standing_on(ground, height_of_cut)
            }
            Stance::RearRoller {
                rear_move,
                height_of_cut,
            } => {
                let rear = moved(rear_in_frame, rear_move);
                let ground = GroundLine::under_rear(rear, edge_in_frame, height_of_cut)?;
                standing_on(ground, height_of_cut)
            }
        };
        if turn_rad.re().abs() >= FRAC_PI_2 {
            return Err(turned_over(turn_rad.re(), &setting.stance));
        }

        let edge_on_plate = Place::new(N::exact(0.0), height_of_cut.mm());
        // Nosing down is clockwise with x to the right: a negative turn of the plane.
        let plate_from_frame = Motion::turning(-turn_rad, edge_in_frame, edge_on_plate);
        let (front_move, rear_move) = setting.stance.moves_given();
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
            edge_moved_in_frame: edge_in_frame - edge_apart,
            attitude_gained: Angle::from_rad(-closed.bar_turn_rad),
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
        Stance::FrontRoller {
            front_move: moved,
            height_of_cut,
        }
        | Stance::RearRoller {
            rear_move: moved,
            height_of_cut,
        } => Impossible::RollerTurnsOver {
            turn,
            moved: Length::from_mm(moved.mm().re()),
            height_of_cut: Length::from_mm(height_of_cut.mm().re()),
        },
    }
}
