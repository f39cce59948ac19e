//! The plane geometry of a cutting unit: pure sums, exact and in closed form.
//!
//! What belongs here: where the edge, the reel, the rollers and the ground stand, and what follows
//! from that. No files, no limits, no screen. This room imports `units` and kurbo's points and maps.
//!
//! Side view: **x** ahead, **y** of a kurbo point is up (the `z` of our model). Bare
//! numbers are millimetres and radians. A point names its space: *on the bar* (behind the bench
//! edge along the datum, below the datum), *in the frame* (the plate's axes in the bench pose, the
//! bench edge's foot at the origin), *on the plate* (the edge at x = 0, the plate at 0).
//!
//! Each formula is written once, over any [`Number`], as are the types that go into it: with plain
//! numbers ([`Bench`] alone means `Bench<f64>`) it gives the values, with dual numbers their derivatives
//! too, from which the measurement uncertainty comes. What comes out is `Stood` over any number, and as
//! kurbo's points and maps, which are of `f64` alone, a [`Pose`]; so are `Ground` and [`Terrain`].

mod adjuster;
mod blade_path;
mod circles;
mod clip_length;
mod closing;
mod fitted_circle;
mod ground_line;
mod hardware;
mod impossible;
mod low_side;
mod number;
mod on_bar;
mod other_readings;
mod plane;
mod pose;
mod profile;
mod reel_diameter;
mod reel_turn;
mod rollers;
mod setting;
mod shim_stack;
mod stance;
mod stems;
mod stood;
mod sweep;
mod terrain;
mod top_face;
mod touching_crest;
mod underside;

pub use adjuster::{Eccentric, EccentricTurn, Reach, turns_to_raise};
pub use blade_path::{BelowCut, BladePath};
pub use clip_length::{clip_length, ground_speed_for_clip, reel_speed_for_clip};
pub use closing::Closing;
pub use fitted_circle::{FittedCircle, OutOfCentre, TooFewAngles, bow, true_reading};
pub use hardware::{Hardware, HardwarePoint, Mount};
pub use impossible::Impossible;
pub use number::Number;
pub use on_bar::{OnBar, RollerDown};
pub use other_readings::{
    GapAt, Misread, behind_centre_from_rise, behind_centre_from_square, lean_from_travel,
    radius_under_straightedge, rise_from_block,
};
pub use plane::{Place, Way};
pub use pose::Pose;
pub use profile::{Bench, KnifeSection, Profile, Roller};
pub use reel_diameter::{
    reel_diameter_by_diameter_tape, reel_diameter_by_tape, reel_diameter_over_bars,
    reel_diameter_over_tips,
};
pub use reel_turn::ReelTurn;
pub use rollers::RollerOnPlate;
pub use setting::Setting;
pub use shim_stack::{MOST_PIECES, ShimStack};
pub use stance::Stance;
pub use stems::{Stem, StemState, Stems};
pub use sweep::{Sweep, rise_of_segment};
pub use terrain::{GroundShape, Sink, Terrain, on_level};
pub use top_face::heel_to_reel;
pub use touching_crest::touching_crest;
pub use underside::{attitude_for_underside, lip_bottom_on_plate, underside_on_bar};

pub(crate) use clip_length::clip_to_cut;
pub(crate) use low_side::LowSide;
pub(crate) use rollers::clear_of_outline_mm;
pub(crate) use stood::Stood;
pub(crate) use terrain::Ground;
pub(crate) use top_face::top_angle_needed;
pub(crate) use underside::lowest_by;
