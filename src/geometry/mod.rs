//! The plane geometry of a cutting unit: pure sums, exact and in closed form.
//!
//! What belongs here: where the edge, the reel, the rollers and the ground stand, and what follows
//! from that. No files, no limits, no screen. This room imports `units` and kurbo's points and maps.
//!
//! Side view: **x** ahead, **y** of a kurbo point is up (the `z` of the written model). Bare
//! numbers are millimetres and radians. A point names its space: *on the bar* (behind the bench
//! edge along the datum, below the datum), *in the frame* (the plate's axes in the bench pose, the
//! bench edge's foot at the origin), *on the plate* (the edge at x = 0, the plate at 0).
//!
//! Each formula is written once, over any [`Number`]: with plain numbers it gives what the public
//! types hold, with dual numbers its derivatives too, from which the measurement uncertainty comes.
//! `Figures` is what goes in as bare numbers, `Stood` what comes out.

mod blade_path;
mod circles;
mod clip;
mod closing;
mod figures;
mod impossible;
mod number;
mod other_readings;
mod plane;
mod pose;
mod profile;
mod rollers;
mod setting;
mod stood;
mod sweep;
mod terrain;
mod touching_crest;
mod underside;

pub use blade_path::{BelowCut, BladePath};
pub use clip::{clip_length, ground_speed_for_clip, reel_speed_for_clip};
pub use closing::Closing;
pub use impossible::Impossible;
pub use number::Number;
pub use other_readings::{
    GapAt, Misread, behind_centre_from_rise, behind_centre_from_square, radius_under_straightedge,
    rise_from_block,
};
pub use pose::Pose;
pub use profile::{Bench, KnifeSection, Profile, Roller};
pub use rollers::{RollerOnPlate, Stance};
pub use setting::Setting;
pub use sweep::{Sweep, rise_of_segment};
pub use terrain::{Shape, Terrain, on_level};
pub use touching_crest::touching_crest;
pub use underside::{attitude_for_underside, lip_bottom_on_plate, underside_on_bar};

pub(crate) use clip::{clip_length_mm, clip_to_cut};
pub(crate) use figures::{ClosingFigures, Figures, ShapeFigures, StanceFigures};
pub(crate) use plane::Place;
pub(crate) use stood::Stood;
pub(crate) use terrain::Ground;
pub(crate) use underside::lowest_over;
