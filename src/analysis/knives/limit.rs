//! The limits that forbid an attitude, each with a margin: what is left before it is reached.

use kurbo::Point;

use crate::analysis::Solution;
use crate::geometry::{Setting, underside_on_bar};
use crate::unit::Unit;

/// What forbids an attitude.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// The sweep is more of the height of cut than its limit.
    Sweep,
    /// The reel is in the ground.
    Reel,
    /// The edge is in the ground.
    Cut,
    /// Knife or hardware is nearer the ground than its limit.
    Underside,
    /// The edge runs further ahead of centre than its limit.
    Ahead,
    /// The attitudes searched, or what the brackets allow, end here.
    Range,
    /// The geometry cannot exist beyond here.
    Reach,
}

impl Limit {
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Sweep => "sweep",
            Self::Reel => "reel",
            Self::Cut => "cut",
            Self::Underside => "underside",
            Self::Ahead => "ahead",
            Self::Range => "range",
            Self::Reach => "reach",
        }
    }

    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweep => "sweep too deep",
            Self::Reel => "reel in the ground",
            Self::Cut => "edge in the ground",
            Self::Underside => "underside too low",
            Self::Ahead => "edge ahead of centre",
            Self::Range => "end of the range",
            Self::Reach => "reel and knife do not meet",
        }
    }

    /// Those that have a margin, in the order they are told.
    pub const WITH_MARGIN: [Self; 5] = [
        Self::Sweep,
        Self::Reel,
        Self::Cut,
        Self::Underside,
        Self::Ahead,
    ];
}

/// The margins of one solution: above nothing within the limit, below it past the limit.
///
/// Each is smooth over attitude and diameter. The underside has one for every point, since the
/// lowest of several points is not smooth where another takes over.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::analysis) struct Margins(pub(in crate::analysis) Vec<f64>);

/// Margins before the points of the underside.
const BEFORE_UNDERSIDE: [Limit; 4] = [Limit::Sweep, Limit::Reel, Limit::Cut, Limit::Ahead];

impl Margins {
    /// Works out the margins of a solution, in millimetres.
    pub(in crate::analysis) fn of(unit: &Unit, setting: &Setting, solution: &Solution) -> Self {
        let limits = &unit.limits;
        let mut margins = Vec::with_capacity(BEFORE_UNDERSIDE.len() + 4 + unit.hardware.len());
        let height_mm = solution.pose.height_of_cut.mm();
        margins.extend([
            limits.sweep_over.of_one() * height_mm - solution.sweep.below_cut.mm(),
            solution.on_ground.reel_clearance.mm(),
            solution.on_ground.cut.mm(),
            solution.sweep.behind_centre.mm() + limits.ahead_of_centre.mm(),
        ]);
        let plate_from_bar = solution.pose.plate_from_bar();
        let clear_mm = |on_bar: Point| {
            (solution.terrain.clearance(plate_from_bar * on_bar) - limits.underside).mm()
        };
        margins.extend(
            underside_on_bar(&unit.profile, setting)
                .into_iter()
                .map(clear_mm),
        );
        margins.extend(unit.hardware.iter().copied().map(clear_mm));
        Self(margins)
    }

    /// The limit that a margin belongs to.
    pub(super) fn limit(index: usize) -> Limit {
        BEFORE_UNDERSIDE
            .get(index)
            .copied()
            .unwrap_or(Limit::Underside)
    }

    /// Whether every limit holds.
    pub(in crate::analysis) fn are_kept(&self) -> bool {
        self.0.iter().all(|margin| *margin >= 0.0)
    }

    /// Whether one limit holds.
    pub(super) fn holds(&self, limit: Limit) -> bool {
        let of_limit = self
            .0
            .iter()
            .enumerate()
            .filter(|(index, _)| Self::limit(*index) == limit);
        of_limit
            .map(|(_, margin)| *margin)
            .all(|margin| margin >= 0.0)
    }
}
