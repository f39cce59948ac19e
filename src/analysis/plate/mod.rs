//! What a sheet of the surface plate says: how parallel each roller is to the cut line, what to do at
//! its adjuster, its runout, and what cut to expect.
//!
//! `result.rs` works a sheet out, `roller.rs` one of its rollers: `parallel.rs` judges the ends, `correction.rs` says what its adjuster does, `runout.rs`
//! judges how round it runs; `cut.rs` foretells the cut, `gauge_bar.rs` chooses the bar, `order.rs`
//! says how far the work is, `doubts.rs` which readings cannot be (`clashes.rs`: beside others of their kind; `knife_gap.rs`: between knife and reel; `doubt.rs`: what one is), `feed.rs` what a finished sheet gives its unit and its record, `measured_anew.rs` how
//! the unit stands as measured then; `notes.rs` has
//! what to know beside the numbers, `rows.rs` tells it all row by row, for text, paper and spreadsheet.

mod clashes;
mod correction;
mod cut;
mod doubt;
mod doubts;
mod feed;
mod gauge_bar;
mod knife_gap;
mod measured_anew;
mod notes;
mod order;
mod parallel;
mod result;
mod roller;
mod rows;
mod runout;

pub use correction::{Correction, Split};
pub use cut::{CutMeasured, ExpectedCut, PlaceMeasured, RollerShares};
pub use doubt::Doubt;
pub use feed::Filled;
pub use gauge_bar::{
    BARS, BarChoice, BarRefused, MOST_TURN, bar_choices, none_can_be_used, recommended,
    usable_thickness,
};
pub use measured_anew::{MeasuredAnew, NotAsMeasured};
pub use order::StepState;
pub use parallel::{HighEnd, Parallel, Part, Verdict, starting_parallel};
pub use result::PlateResult;
pub use roller::{Reread, RollerResult};
pub use rows::{Figure, PlateRow, shifted, shims_miss};
pub use runout::{OnceATurn, RunoutLimits, StationRunout, band_in_the_cut, bow_of, runout_level};
