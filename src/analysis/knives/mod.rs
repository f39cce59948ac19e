//! Choosing a knife: what each leaves in attitude, through the reel's life, and which fits best.
//!
//! What belongs here: the usable windows, their crossings solved to the last digit, the table of
//! knives and its ranking, curves over the reel's life, the map of attitude and diameter, and the
//! lowest height of cut.

mod curve;
mod curve_band;
mod height;
mod life;
mod limit;
mod lip;
mod map;
mod price;
mod ranking;
mod room;
mod same_line;
mod set_once;
mod table;
mod table_text;
mod verdict;
mod window;

pub use curve::{Curve, CurveCrossing, Measured, MeasuredLimit, Over, curves, measured_at};
pub use curve_band::{OffAt, bands};
pub use height::{LowestHeight, lowest_height};
pub use life::{Life, ReelWindows, Trial};
pub use limit::Limit;
pub use lip::LipLeft;
pub use map::{Band, Map, MapRow, Region, map, map_of_all, passed_at};
pub use price::{Order, price_in, sum_text, total_of};
pub use ranking::{Counts, Ranking, Ranks, Tie, rank, rank_sentence, rests_on};
pub use room::RoomOff;
pub use same_line::SameLine;
pub use set_once::{Apart, End, SetOnce, set_once};
pub use table::{KnifeAim, KnifeRow, NoAim, RowLevels, table};
pub use table_text::{FOUND, csv, found, number_heads, window_text};
pub use verdict::{Against, Judgement, MeasureOut, Verdict};
pub use window::{Span, Window, attitude_spans, windows};
