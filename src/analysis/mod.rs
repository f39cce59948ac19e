//! What the geometry means for a person: the solution's numbers and the findings about them.
//!
//! What belongs here: every number that is shown, printed or reported, worked out once; and the
//! judging of those numbers by limits. This room imports `units`, `geometry`, `unit` and `plate`.

mod acceptance;
pub mod advice;
mod between;
mod caution;
mod dial;
mod differences;
mod due;
mod end_high;
mod event_doubts;
pub mod findings;
mod hours;
mod job_units;
mod jobs;
mod kinematics;
mod knife_moved;
pub mod knives;
mod lean;
pub mod lean_from;
mod left_alone;
mod limits_from;
mod numbers;
mod odd_ones;
pub mod other_readings;
pub mod plate;
pub mod ranges;
mod reel_from;
mod roller_steps;
mod search;
mod settings_across;
pub mod shop;
mod solution;
mod solved;
pub mod uncertainty;
mod wear_ahead;
mod wear_rate;
pub mod why;

pub use acceptance::{Acceptable, Acceptance, Accepted};
pub use between::Between;
pub use caution::{
    BEFORE_EVERY_STEP, CAUTION, CAUTION_IN_A_LINE, CAUTION_IN_SHORT, FEELER, GRINDING,
    MODEL_IN_SHORT, MOVING_ROLLERS, PAPER_TEST,
};
pub use differences::Difference;
pub use due::{DUE_RULE, Due, NoDue, When, due_told, when};
pub use end_high::{out_in_line, out_with_end};
pub use event_doubts::{EventDoubt, ReelSizes, event_doubts};
pub use findings::{
    Bound, Case, Doubt, Finding, FindingId, Findings, Judged, Level, Side, Standing, Standings,
    Urgency,
};
pub use job_units::job_units;
pub use jobs::{Fact, Job, jobs};
pub use kinematics::{Kinematics, PathNumber, SpeedsForCut};
pub use knife_moved::knife_moved;
pub use lean::lean_in_doubt;
pub use left_alone::{LeftAlone, Met, WearLimit, rollers_held};
pub use limits_from::limits_from;
pub use numbers::{Lowest, MowingNumbers, NumberId, Numbers, OnGround};
pub use odd_ones::OddOnes;
pub use reel_from::{ReelFrom, ReelWay};
pub use roller_steps::{RollerSteps, Spacers, moves_told};
pub use settings_across::SettingsAcross;
pub use solution::Solution;
pub use solved::{Solved, SolvedId, Unsolved};
pub use uncertainty::{LEAN_OFF, Uncertainty};
pub use wear_ahead::WearAhead;
pub use wear_rate::{NoRate, ReachedAt, WearAlong, WearRate};
