//! The window map: attitude across, reel diameter up, and what forbids each place.

use super::limit::Limit;
use super::table::Trial;
use super::window::{Span, attitude_spans};
use crate::geometry::KnifeSection;
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// Rows of a map, from scrap size to new.
const ROWS: u32 = 48;

/// A band of attitudes in one row that a limit forbids.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its least attitude.
    pub low: Angle,
    /// Its most.
    pub high: Angle,
}

/// One row: a diameter of the reel, cut at every crossing of a limit.
#[derive(Clone, Debug, PartialEq)]
pub struct MapRow {
    /// The reel's diameter.
    pub diameter: Length,
    /// The spans of attitude, from the least up.
    pub spans: Vec<Span>,
}

impl MapRow {
    /// The bands in which a limit is passed.
    #[must_use]
    pub fn bands(&self, limit: Limit) -> Vec<Band> {
        joined(
            self.spans
                .iter()
                .filter(|span| span.passed.contains(&limit)),
        )
    }

    /// The bands in which every limit holds.
    #[must_use]
    pub fn windows(&self) -> Vec<Band> {
        joined(self.spans.iter().filter(|span| span.is_within()))
    }
}

fn joined<'a>(spans: impl Iterator<Item = &'a Span>) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    for span in spans {
        match bands.last_mut() {
            Some(band) if band.high == span.low => band.high = span.high,
            _ => bands.push(Band {
                low: span.low,
                high: span.high,
            }),
        }
    }
    bands
}

/// A map of one knife at one height of cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// The rows, from scrap size to new. Borders between spans are solved, not sampled.
    pub rows: Vec<MapRow>,
}

/// Maps a knife from scrap size to a new reel at a height of cut.
#[must_use]
pub fn map(unit: &Unit, trial: &Trial, knife: KnifeSection) -> Map {
    let (smallest, new) = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
    let rows = (0..=ROWS)
        .map(|row| {
            let part = f64::from(row) / f64::from(ROWS);
            let diameter = Length::from_mm(smallest + (new - smallest) * part);
            let setting = trial.setting(unit, knife, diameter);
            MapRow {
                diameter,
                spans: attitude_spans(unit, &setting, trial.height_of_cut),
            }
        })
        .collect();
    Map { rows }
}
