//! Choosing a knife: what each leaves in attitude, through the reel's life, and which fits best.
//!
//! What belongs here: the usable windows, their crossings solved to the last digit, the table of
//! knives and its ranking, curves over the reel's life, the map of attitude and diameter, and the
//! lowest height of cut.

mod curve;
mod height;
mod limit;
mod map;
mod off;
mod ranking;
mod table;
mod told;
mod window;

pub use curve::{Curve, CurveCrossing, Measured, MeasuredLimit, Over, curves, measured_at};
pub use height::lowest_height;
pub use limit::Limit;
pub(super) use limit::Margins;
pub use map::{Band, Map, MapRow, Region, map, map_of_all, passed_at};
pub use off::{OffAt, bands};
pub use ranking::{Ranking, rank, rests_on};
pub use table::{KnifeRow, Life, ReelWindows, Trial, table};
pub use told::{FOUND, csv, found, window_text};
pub use window::{Span, Window, attitude_spans, windows};
