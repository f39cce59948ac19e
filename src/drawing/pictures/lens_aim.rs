//! Where a lens looks, kept while the unit changes.

use kurbo::{Point, Vec2};

use super::hold::Hold;
use super::side_view::SideView;
use crate::analysis::Case;
use crate::drawing::paper::{PAPER_PER_MM, View};

/// Where a lens looks and how far it enlarges, kept while the unit changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LensAim {
    /// Enlargement against true size.
    pub enlargement: f64,
    /// What stays where it is in the lens.
    pub hold: Hold,
    /// From there to the lens's middle, in the world.
    off: Vec2,
    /// Somebody chose the place.
    is_chosen: bool,
}

impl LensAim {
    /// Looks with its middle at a place of the world that nobody chose.
    pub(super) fn fitted(enlargement: f64, hold: Hold, middle: Point, case: &Case) -> Self {
        Self {
            enlargement,
            hold,
            off: middle - hold.place(case),
            is_chosen: false,
        }
    }

    /// What stands in the lens's middle, in the world.
    pub(super) fn middle(&self, case: &Case) -> Point {
        self.hold.place(case) + self.off
    }

    /// Looks at another place of the plate.
    #[must_use]
    pub fn at(self, place: Point, case: &Case) -> Self {
        Self {
            off: place - self.hold.place(case),
            is_chosen: true,
            ..self
        }
    }

    /// Looks so many millimetres higher.
    pub(in crate::drawing) fn raised(self, by_mm: f64) -> Self {
        let off = self.off + Vec2::new(0.0, by_mm);
        Self { off, ..self }
    }

    /// Holds something else still from here on, the lens looking where it looks.
    #[must_use]
    pub fn holding(self, hold: Hold, case: &Case) -> Self {
        let off = self.off + (self.hold.place(case) - hold.place(case));
        Self { hold, off, ..self }
    }

    /// Enlarges so far from here on, the lens looking where it looks.
    #[must_use]
    pub fn enlarged(self, enlargement: f64) -> Self {
        Self {
            enlargement,
            ..self
        }
    }

    /// The same on paper of another size or with something else asked of the lens: a place that somebody
    /// chose stays, with its scale; none where the lens is to be fitted anew.
    #[must_use]
    pub fn kept(self, is_as_before: bool) -> Option<Self> {
        (is_as_before || self.is_chosen).then_some(self)
    }

    /// Looks up or down as far as it takes to have ground and cut line both in view on a paper so high,
    /// where they fit and nobody chose the place.
    #[must_use]
    pub fn with_ground_and_cut(
        self,
        side_view: &SideView,
        stretch: f64,
        paper_height: f64,
    ) -> Self {
        let case = &side_view.case;
        let high = paper_height / (self.enlargement * PAPER_PER_MM) / stretch;
        let edge = case.solution.pose.edge_on_plate.y;
        let ground = side_view.ground_under_edge_mm();
        if self.is_chosen || edge <= ground || edge - ground > GROUND_PART * high {
            return self;
        }
        let (lowest, highest) = (edge - MOST_ABOVE * high, ground + MOST_BELOW * high);
        let middle = self.middle(case).y;
        let moved = middle.min(highest).max(lowest) - middle;
        let off = self.off + Vec2::new(0.0, moved);
        Self { off, ..self }
    }

    /// Shows what lies `by` to the left and above on the paper of a lens with such a view.
    #[must_use]
    pub fn dragged(self, by: Vec2, view: &View) -> Self {
        let off = self.off + (view.dragged(by).middle - view.middle);
        Self {
            off,
            is_chosen: true,
            ..self
        }
    }
}

/// How much of the lens's height lies between ground and cut line at most where it shows both.
pub(super) const GROUND_PART: f64 = 0.7;
/// How far the ground stands under the lens's middle at most where it shows both, and the cut line over
/// it, in parts of its height.
const MOST_BELOW: f64 = 0.44;
const MOST_ABOVE: f64 = 0.36;
