//! The usable window of attitudes: where every limit holds, and which limit ends it.

use super::crossings::{Crossing, Values, crossings};
use super::limit::{Limit, Margins};
use crate::analysis::Solution;
use crate::geometry::{Setting, Stance};
use crate::unit::{Limits, Unit};
use crate::units::{Angle, Length};

/// Attitudes are searched from here when the brackets' range is not known.
const LEAST_DEG: f64 = -5.0;
/// Attitudes are searched up to here when the brackets' range is not known.
const MOST_DEG: f64 = 20.0;
/// Cells that a range of attitudes is cut into.
const CELLS: u32 = 50;

/// A window of attitudes in which every limit holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Its least attitude.
    pub low: Angle,
    /// Its most.
    pub high: Angle,
    /// What ends it below.
    pub low_limit: Limit,
    /// What ends it above.
    pub high_limit: Limit,
}

impl Window {
    /// How much attitude it leaves.
    #[must_use]
    pub fn width(&self) -> Angle {
        self.high - self.low
    }

    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Angle {
        Angle::from_deg(f64::midpoint(self.low.deg(), self.high.deg()))
    }
}

/// A span of attitudes between two neighbouring crossings, and the limits passed in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// Where it begins.
    pub low: Angle,
    /// Where it ends.
    pub high: Angle,
    /// Which limit is reached at its end; nothing at the end of the range.
    pub(super) end: Option<Limit>,
    /// The limits that do not hold in it; empty where all hold.
    pub passed: Vec<Limit>,
}

impl Span {
    /// Whether every limit holds in it.
    #[must_use]
    pub fn is_within(&self) -> bool {
        self.passed.is_empty()
    }
}

/// The attitudes that are searched: what the brackets were said to allow, or −5° to 20°.
#[must_use]
pub fn attitude_range(unit: &Unit) -> (Angle, Angle) {
    range_in_force(&unit.limits)
}

pub(super) fn range_in_force(limits: &Limits) -> (Angle, Angle) {
    limits
        .attitude_range
        .unwrap_or((Angle::from_deg(LEAST_DEG), Angle::from_deg(MOST_DEG)))
}

/// Cuts the range of attitudes at every crossing of a limit, at a height of cut.
#[must_use]
pub fn attitude_spans(unit: &Unit, setting: &Setting, height_of_cut: Length) -> Vec<Span> {
    let (low, high) = attitude_range(unit);
    let mut margins = |deg: f64| -> Values {
        let stance = Stance::Wanted {
            attitude: Angle::from_deg(deg),
            height_of_cut,
        };
        let tried = Setting { stance, ..*setting };
        let solution = Solution::of(unit, &tried).ok()?;
        Some(Margins::of(unit, &tried, &solution).0)
    };
    let found = crossings(&mut margins, low.deg(), high.deg(), CELLS);
    spans(&mut margins, &found, low.deg(), high.deg())
}

fn spans(
    margins: &mut dyn FnMut(f64) -> Values,
    found: &[Crossing],
    low: f64,
    high: f64,
) -> Vec<Span> {
    let mut spans = Vec::with_capacity(found.len() + 1);
    let mut from = low;
    let ends = found
        .iter()
        .map(|crossing| {
            (
                crossing.at,
                Some(crossing.which.map_or(Limit::Reach, Margins::limit)),
            )
        })
        .chain([(high, None)]);
    for (to, end) in ends {
        let passed = match margins(f64::midpoint(from, to)) {
            None => vec![Limit::Reach],
            Some(values) => {
                let margins = Margins(values);
                Limit::WITH_MARGIN
                    .into_iter()
                    .filter(|limit| !margins.holds(*limit))
                    .collect()
            }
        };
        spans.push(Span {
            low: Angle::from_deg(from),
            high: Angle::from_deg(to),
            end,
            passed,
        });
        from = to;
    }
    spans
}

/// Every usable window at a height of cut, from the least attitude up. Disjoint ones are reported
/// one by one; there is none where no attitude holds all limits.
#[must_use]
pub fn windows(unit: &Unit, setting: &Setting, height_of_cut: Length) -> Vec<Window> {
    from_spans(&attitude_spans(unit, setting, height_of_cut))
}

pub(super) fn from_spans(spans: &[Span]) -> Vec<Window> {
    let mut windows: Vec<Window> = Vec::new();
    let mut is_open = false;
    let mut last_end = Limit::Range;
    for span in spans {
        let end = span.end.unwrap_or(Limit::Range);
        if span.is_within() {
            match windows.last_mut() {
                Some(window) if is_open => {
                    window.high = span.high;
                    window.high_limit = end;
                }
                _ => windows.push(Window {
                    low: span.low,
                    high: span.high,
                    low_limit: last_end,
                    high_limit: end,
                }),
            }
        }
        is_open = span.is_within();
        last_end = end;
    }
    // A window of no width is a limit that is only touched.
    windows.retain(|window| window.width().deg() > 0.0);
    windows
}
