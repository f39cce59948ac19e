//! Choosing a knife: what each leaves in attitude, through the reel's life, and which fits best.
//!
//! What belongs here: the usable windows, their crossings solved to the last digit, the table of
//! knives and its ranking, curves over the reel's life, the map of attitude and diameter, and the
//! lowest height of cut.

mod curve;
mod curve_band;
mod height;
mod limit;
mod map;
mod ranking;
mod table;
mod table_text;
mod window;

pub use curve::{Curve, CurveCrossing, Measured, MeasuredLimit, Over, curves, measured_at};
pub use curve_band::{OffAt, bands};
pub use height::lowest_height;
pub use limit::Limit;
pub use map::{Band, Map, MapRow, Region, map, map_of_all, passed_at};
pub use ranking::{Ranking, Ranks, rank, rank_sentence, rests_on};
pub use table::{KnifeRow, Life, ReelWindows, Trial, table};
pub use table_text::{FOUND, csv, found, window_text};
pub use window::{Span, Window, attitude_spans, windows};
