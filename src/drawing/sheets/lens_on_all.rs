//! Where the lens looks that shows several units to be compared: all of them hold in it what they are about.

use kurbo::{Point, Rect, Vec2};

use super::seen::Seen;
use crate::analysis::Solved;
use crate::drawing::paper::PAPER_PER_MM;
use crate::drawing::pictures::{ENLARGEMENTS, Lens, LensAim, LensChoice};

/// The height that the lens of one unit is fitted in at the most, in parts of its width: every picture that
/// shows the same has so much, whatever its words leave it. One of two is half as wide.
const FITTED_PART: f64 = 0.3;
const FITTED_PART_OF_PAIR: f64 = 0.85;
/// How much of a lens's width and height a knife's lip takes.
const LIP_PART: f64 = 0.74;
/// How much of its width lies between edge and vertical at most, with so many millimetres beside them: as it is
/// liked, and where a sweep would not be seen otherwise.
const LIKED: (f64, f64) = (0.75, 3.0);
const FURTHEST: (f64, f64) = (0.86, 1.5);
/// How much of its height lies between the highest edge and the deepest sweep at most, or the ground.
const HIGH: f64 = 0.69;
const GROUND_HIGH: f64 = 0.7;
/// How deep a sweep is on the paper at least, where it can be: 1.5 mm on a sheet, and such a part of the lens's
/// width.
const LEAST_SWEEP: f64 = 1.5 * PAPER_PER_MM;
const LEAST_PART: f64 = 0.009;
/// Where the cut line stands over the lens's middle, and the ground and the cut line under it at most, where
/// both are seen; in parts of its height.
const CUT_OVER: f64 = 0.04;
const GROUND_UNDER: f64 = 0.42;
const CUT_UNDER: f64 = 0.12;
/// How much of its width is the knife's at least, and how far its middle stands ahead where there is room.
const LEAST_KNIFE: f64 = 0.14;
const MOST_AHEAD: f64 = 0.1;

/// What a lens is to show, told from what is held still.
#[derive(Clone, Copy)]
struct Shown {
    /// Edges and the reels' lowest points.
    points: Rect,
    /// The same down to the ground.
    over_ground: Rect,
}

impl Shown {
    fn of(seen: &Seen, solved: &Solved) -> Self {
        let view = seen.side_view(solved);
        let held = seen.held(&view.case).to_vec2();
        let edge = solved.solution.pose.edge_on_plate;
        let sweep = &solved.solution.sweep;
        let below = sweep.below_cut.mm().max(0.0);
        let lowest = edge + Vec2::new(sweep.behind_centre.mm(), -below);
        let points = Rect::from_points(edge, lowest);
        Self {
            points: points - held,
            over_ground: points.union_pt((edge.x, 0.0)) - held,
        }
    }

    fn and(self, other: Self) -> Self {
        Self {
            points: self.points.union(other.points),
            over_ground: self.over_ground.union(other.over_ground),
        }
    }
}

impl Seen<'_> {
    /// The lens on the edges and the reels' lowest points of all, as large as it goes; over the ground where
    /// every sweep is seen beside it.
    pub(super) fn aim_at_sweep(&self, solved: &Solved, place: Rect) -> LensAim {
        let all = self.alike.iter().map(|solved| Shown::of(self, solved));
        let Shown {
            points,
            over_ground,
        } = all.fold(Shown::of(self, solved), Shown::and);
        let part = if self.is_pair {
            FITTED_PART_OF_PAIR
        } else {
            FITTED_PART
        };
        let high = place.height().min(part * place.width());
        let fits = |(apart, beside_mm): (f64, f64), enlargement: f64| {
            let scale = enlargement * PAPER_PER_MM;
            scale * (points.width() + beside_mm) <= apart * place.width()
                && scale * points.height() <= HIGH * high
        };
        let has_ground = |enlargement: f64| {
            enlargement * PAPER_PER_MM * over_ground.height() <= GROUND_HIGH * high
        };
        let least = LEAST_SWEEP.max(LEAST_PART * place.width());
        let is_seen = |enlargement: f64| {
            self.alike.iter().all(|unit| {
                let below = unit.solution.sweep.below_cut.mm();
                below <= 0.0 || enlargement * PAPER_PER_MM * below >= least
            })
        };
        let from_largest = || ENLARGEMENTS.into_iter().rev();
        let enlargement = from_largest()
            .find(|&e| fits(LIKED, e) && has_ground(e) && is_seen(e))
            .or_else(|| from_largest().find(|&e| fits(LIKED, e) && is_seen(e)))
            .or_else(|| from_largest().find(|&e| fits(FURTHEST, e)))
            .unwrap_or(ENLARGEMENTS[0]);
        let scale = enlargement * PAPER_PER_MM;
        let (wide, high) = (place.width() / scale, place.height() / scale);
        // What is told of the sweep stands ahead of the vertical.
        let spare = 0.5 * (wide - points.width()) - LEAST_KNIFE * wide;
        let ahead = spare.max(0.0).min(MOST_AHEAD * wide);
        let y = if has_ground(enlargement) {
            let (ground, tall) = (over_ground.y0, over_ground.height());
            ground + (GROUND_UNDER * high).min(tall + CUT_UNDER * high)
        } else {
            points.center().y - CUT_OVER * high
        };
        let middle = Point::new(points.center().x + ahead, y);
        self.aim(solved, (enlargement, middle), place)
    }

    /// The lens on the lips of all of them from edge to body, as large as it goes; over the plate where there
    /// is room for both.
    pub(super) fn aim_at_lip(&self, solved: &Solved, place: Rect) -> LensAim {
        let from_held = |solved: &Solved| {
            let view = self.side_view(solved);
            let held = self.held(&view.case).to_vec2();
            let lip = view.lip_bounds();
            Shown {
                points: lip - held,
                over_ground: lip.union_pt((lip.x0, 0.0)) - held,
            }
        };
        let all = self.alike.iter().map(|solved| from_held(solved));
        let lips = all.fold(from_held(solved), Shown::and);
        let fits = |shown: Rect, enlargement: f64| {
            let (scale, room) = (enlargement * PAPER_PER_MM, LIP_PART * place.size());
            scale * shown.width() <= room.width && scale * shown.height() <= room.height
        };
        let mut from_largest = ENLARGEMENTS.into_iter().rev();
        let enlargement = from_largest.find(|enlargement| fits(lips.points, *enlargement));
        let enlargement = enlargement.unwrap_or(ENLARGEMENTS[0]);
        let shown = if fits(lips.over_ground, enlargement) {
            lips.over_ground
        } else {
            lips.points
        };
        self.aim(solved, (enlargement, shown.center()), place)
    }

    /// A lens on a unit with its middle at a place told from what is held still.
    fn aim(&self, solved: &Solved, (enlargement, middle): (f64, Point), place: Rect) -> LensAim {
        let case = solved.case();
        let choice = LensChoice {
            enlargement: Some(enlargement),
            ..LensChoice::default()
        };
        let lens = Lens::on(&solved.solution, choice, place, self.system_of(solved));
        let middle = middle + self.held(&case).to_vec2();
        lens.aim(self.hold, &case).at(middle, &case)
    }
}
