//! The usable window of attitudes: where every limit holds, and which limit ends it.

use super::limit::{Limit, Margins};
use crate::analysis::ranges::attitude_range;
use crate::analysis::search::{Crossing, Stretch, Values, runs, stretches};
use crate::analysis::{Case, Solution};
use crate::geometry::{Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

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
    /// Which limit is reached at its beginning; none at the beginning of the range.
    pub(super) begin: Option<Limit>,
    /// Which limit is reached at its end; none at the end of the range.
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

/// Cuts the range of attitudes at every crossing of a limit, at a height of cut.
#[must_use]
pub fn attitude_spans(unit: &Unit, setting: &Setting, height_of_cut: Length) -> Vec<Span> {
    spans(unit, setting, height_of_cut, None)
}

/// The same with one limit left out, where there is one to leave out.
fn spans(
    unit: &Unit,
    setting: &Setting,
    height_of_cut: Length,
    left_out: Option<Limit>,
) -> Vec<Span> {
    let (low, high) = attitude_range(&unit.limits);
    let mut margins = |deg: f64| -> Values {
        let stance = Stance::Wanted {
            attitude: Angle::from_deg(deg),
            height_of_cut,
        };
        let tried = Setting { stance, ..*setting };
        let solution = Solution::of(unit, &tried).ok()?;
        let case = Case {
            unit,
            setting: &tried,
            solution: &solution,
        };
        let margins = Margins::of(&case);
        let margins = match left_out {
            Some(limit) => margins.without(limit),
            None => margins,
        };
        Some(margins.0)
    };
    let found = stretches(
        &mut margins,
        (low.deg(), high.deg()),
        CELLS,
        Margins::OF_UNDERSIDE,
    );
    found.into_iter().map(Span::from).collect()
}

impl From<Stretch> for Span {
    fn from(stretch: Stretch) -> Self {
        let limit = |crossing: Crossing| crossing.which.map_or(Limit::Reach, Margins::limit);
        let passed = stretch.values.map_or_else(
            || vec![Limit::Reach],
            |values| Margins(values).passed().collect(),
        );
        Self {
            low: Angle::from_deg(stretch.low),
            high: Angle::from_deg(stretch.high),
            begin: stretch.begin.map(limit),
            end: stretch.end.map(limit),
            passed,
        }
    }
}

/// Every usable window at a height of cut, from the least attitude up. Disjoint ones are reported
/// one by one; there is none where no attitude holds all limits.
#[must_use]
pub fn windows(unit: &Unit, setting: &Setting, height_of_cut: Length) -> Vec<Window> {
    windows_without(unit, setting, height_of_cut, None)
}

/// The same with one limit left out, where there is one to leave out.
pub(super) fn windows_without(
    unit: &Unit,
    setting: &Setting,
    height_of_cut: Length,
    left_out: Option<Limit>,
) -> Vec<Window> {
    let spans = spans(unit, setting, height_of_cut, left_out);
    runs(&spans, Span::is_within)
        .map(|(first, last)| Window {
            low: first.low,
            high: last.high,
            low_limit: first.begin.unwrap_or(Limit::Range),
            high_limit: last.end.unwrap_or(Limit::Range),
        })
        // A window of no width is a limit that is only touched.
        .filter(|window| window.width().deg() > 0.0)
        .collect()
}
