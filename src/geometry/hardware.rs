//! The hardware under the knife, and which of its points can ever hang lowest.

use kurbo::{Point, Rect, Vec2};

use super::number::Number;
use super::plane::Place;
use super::{GroundShape, KnifeSection};
use crate::units::Length;

/// What a point of the hardware sits on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mount {
    /// The bar: it stays where it is whatever knife is fitted.
    Bar,
    /// The knife, as a screw head under it: it hangs below the body of the knife that is fitted.
    Knife,
}

/// A point of screws, bar or guards under the knife that could drag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HardwarePoint<N = f64> {
    /// Behind the bench edge, along the datum.
    pub behind: Length<N>,
    /// Below the datum, or below the fitted knife's body for a point on the knife.
    pub below: Length<N>,
    /// What it sits on.
    pub on: Mount,
}

impl HardwarePoint {
    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(&self) -> HardwarePoint<N> {
        HardwarePoint {
            behind: self.behind.exact(),
            below: self.below.exact(),
            on: self.on,
        }
    }
}

impl<N: Number> HardwarePoint<N> {
    /// Its place on the bar with a knife fitted. It keeps its place along the datum whatever the
    /// knife's reach: the bar's screw holes do.
    #[must_use]
    pub fn on_bar(&self, fitted: &KnifeSection<N>) -> Place<N> {
        let below = match self.on {
            Mount::Bar => self.below,
            Mount::Knife => fitted.body_thickness + self.below,
        };
        Place::new(self.behind.mm(), below.mm())
    }
}

/// Points under the knife that could drag.
///
/// However the bar turns, and over whatever ground, only few of many can stand lowest; those are known
/// once, so that a long list costs no more in a search than what stands at its outside. Points on the
/// bar and on the knife are looked at apart: one lot moves against the other as knives are changed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hardware {
    points: Vec<HardwarePoint>,
    /// Across the boxes around points of one lot, from corner to corner: the larger.
    size_mm: f64,
    /// Places in the list of those that can be lowest over level ground and in a hollow.
    over_level: Vec<usize>,
    /// Places of those that can be lowest over a crest of at least [`Self::least_crest_mm`].
    over_crest: Vec<usize>,
    /// Places of all.
    all: Vec<usize>,
}

/// Lists up to this long are not thinned out.
const FEW: usize = 4;

impl Hardware {
    /// Hardware of these points.
    #[must_use]
    pub fn new(points: Vec<HardwarePoint>) -> Self {
        let all: Vec<_> = (0..points.len()).collect();
        let mut hardware = Self {
            points,
            size_mm: 0.0,
            over_level: all.clone(),
            over_crest: all.clone(),
            all,
        };
        if hardware.points.len() > FEW {
            hardware.over_level.clear();
            hardware.over_crest.clear();
            for on in [Mount::Bar, Mount::Knife] {
                hardware.thin_out(on);
            }
            hardware.over_level.sort_unstable();
            hardware.over_crest.sort_unstable();
            hardware.over_crest.dedup();
        }
        hardware
    }

    /// Adds those of the points on the bar, or on the knife, that can be lowest.
    fn thin_out(&mut self, on: Mount) {
        let listed = self.points.iter().enumerate();
        let (places, points): (Vec<_>, Vec<_>) = listed
            .filter(|(_, point)| point.on == on)
            .map(|(place, point)| (place, Point::new(point.behind.mm(), point.below.mm())))
            .unzip();
        let size_mm = size_mm(&points);
        self.size_mm = self.size_mm.max(size_mm);
        let over_level = outermost(&points, |seen| seen.y);
        // From the centre of a crest that lies beyond the box around the points, its side moved out by
        // their size, the nearest one is that of the lowest parabola y² + x² − 2·x·t, whatever the
        // place t of the centre along that side: a line over x, lifted by the squares.
        let over_crest = outermost(&points, |seen| {
            let down = size_mm - seen.y;
            -(down * down + seen.x * seen.x)
        });
        let listed = |found: &[usize]| found.iter().map(|index| places[*index]).collect::<Vec<_>>();
        let over_level = listed(&over_level);
        self.over_crest.extend(listed(&over_crest));
        self.over_crest.extend(&over_level);
        self.over_level.extend(over_level);
    }

    /// All the points.
    #[must_use]
    pub fn points(&self) -> &[HardwarePoint] {
        &self.points
    }

    /// The points that can stand lowest over ground of a shape, each with its place in the list: what
    /// is lowest is among them at every attitude, and of points that stand equally low at least one.
    ///
    /// On a crest that goes as long as none is buried by more than half the crest's radius, and as no
    /// roller that runs out of true tips the unit on it (`is_tipped`).
    pub fn that_can_be_lowest<N: Number>(
        &self,
        over: &GroundShape<N>,
        is_tipped: bool,
    ) -> impl Iterator<Item = (usize, HardwarePoint)> + Clone {
        let places = match over {
            GroundShape::Level | GroundShape::Hollow(_) => &self.over_level,
            GroundShape::Crest(radius)
                if radius.mm().re() >= self.least_crest_mm() && !is_tipped =>
            {
                &self.over_crest
            }
            GroundShape::Crest(_) => &self.all,
        };
        places.iter().map(|place| (*place, self.points[*place]))
    }

    /// A centre within the box moved out, which is no further than 2.5 sizes from every point, would
    /// bury the nearest by half of this at least.
    fn least_crest_mm(&self) -> f64 {
        5.0 * self.size_mm
    }
}

/// Across the box around points, from corner to corner.
fn size_mm(points: &[Point]) -> f64 {
    let mut points = points.iter();
    let Some(first) = points.next() else {
        return 0.0;
    };
    let first = Rect::from_points(*first, *first);
    let around = points.fold(first, |around, point| around.union_pt(*point));
    Vec2::new(around.width(), around.height()).hypot()
}

/// The places of the points that are outermost seen from one of four sides, a quarter turn apart.
/// `height` tells how far out a point is, seen from the box's own side: across from its first point
/// and out from its outermost, which is zero.
fn outermost(points: &[Point], height: impl Fn(Point) -> f64) -> Vec<usize> {
    let mut found = Vec::new();
    let mut turned: Vec<Vec2> = points.iter().map(|point| point.to_vec2()).collect();
    for _ in 0..4 {
        let (mut across, mut out) = (f64::INFINITY, f64::NEG_INFINITY);
        for way in &turned {
            (across, out) = (across.min(way.x), out.max(way.y));
        }
        let seen = turned.iter().map(|way| {
            let seen = Point::new(way.x - across, way.y - out);
            Point::new(seen.x, height(seen))
        });
        found.extend(upper_chain(&seen.collect::<Vec<_>>()));
        for way in &mut turned {
            *way = way.turn_90();
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// The places of the corners of the upper side of points' convex hull, by A. M. Andrew's monotone
/// chain (1979); of like points the first.
fn upper_chain(points: &[Point]) -> Vec<usize> {
    let mut sorted: Vec<usize> = (0..points.len()).collect();
    sorted.sort_by(|a, b| {
        let (at_a, at_b) = (points[*a], points[*b]);
        let along = at_a.x.total_cmp(&at_b.x);
        along.then(at_b.y.total_cmp(&at_a.y)).then(a.cmp(b))
    });
    let mut chain: Vec<usize> = Vec::new();
    for place in sorted {
        let next = points[place];
        if chain.last().is_some_and(|last| points[*last].x >= next.x) {
            // Straight under the one before.
            continue;
        }
        while let [.., before, last] = chain[..] {
            let (before, last) = (points[before], points[last]);
            if (last - before).cross(next - last) < 0.0 {
                break;
            }
            chain.pop();
        }
        chain.push(place);
    }
    chain
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn on_the_bar(point: Point) -> HardwarePoint {
        HardwarePoint {
            behind: Length::from_mm(point.x),
            below: Length::from_mm(point.y),
            on: Mount::Bar,
        }
    }

    fn hardware(points: impl IntoIterator<Item = Point>) -> Hardware {
        Hardware::new(points.into_iter().map(on_the_bar).collect())
    }

    fn place(point: HardwarePoint) -> Point {
        Point::new(point.behind.mm(), point.below.mm())
    }

    /// Points in a strip, in a row along the datum, and on a few round places of a grid.
    fn points() -> impl Strategy<Value = Vec<Point>> {
        let free = proptest::collection::vec((0.0..80.0, 2.0..14.0), 0..120);
        let row = (2.0..14.0, proptest::collection::vec(0.0..80.0, 0..120))
            .prop_map(|(y, row)| row.into_iter().map(|x| (x, y)).collect());
        let grid = proptest::collection::vec((0_u8..6, 0_u8..4), 0..120).prop_map(|grid| {
            let at = |(x, y): (u8, u8)| (f64::from(x) * 12.0, f64::from(y) * 3.0);
            grid.into_iter().map(at).collect()
        });
        prop_oneof![free, row, grid]
            .prop_map(|points: Vec<_>| points.into_iter().map(Point::from).collect())
    }

    fn lowest(points: impl Iterator<Item = Point>, height: impl Fn(Point) -> f64) -> f64 {
        points.map(height).fold(f64::INFINITY, f64::min)
    }

    proptest! {
        #[test]
        fn what_is_lowest_at_some_attitude_is_among_those_that_can_be(
            points in points(),
            down_deg in -180.0..180.0_f64,
            radius_mm in 20.0..4000.0_f64,
            clear_mm in -5.0..30.0_f64,
        ) {
            let hardware = hardware(points.clone());
            let down = Vec2::from_angle(down_deg.to_radians());
            let over_plate = |point: Point| -down.dot(point.to_vec2());
            let all = || points.iter().copied();
            let Some(foremost) = points.first() else { return Ok(()) };
            let few = |shape: &GroundShape| {
                let few: Vec<_> = hardware.that_can_be_lowest(shape, false).map(|(_, point)| place(point)).collect();
                few.into_iter()
            };
            let is_like = |a: f64, b: f64| (a - b).abs() < 1e-9;
            prop_assert!(is_like(
                lowest(all(), over_plate),
                lowest(few(&GroundShape::Level), over_plate)
            ));
            // Ground just under the first point, or a little over it.
            let crest = *foremost + down * (radius_mm + clear_mm);
            let over_crest = |point: Point| point.distance(crest) - radius_mm;
            let shape = GroundShape::Crest(Length::from_mm(radius_mm));
            prop_assert!(is_like(lowest(all(), over_crest), lowest(few(&shape), over_crest)));
            let hollow = *foremost - down * (radius_mm - clear_mm);
            let in_hollow = |point: Point| radius_mm - point.distance(hollow);
            let shape = GroundShape::Hollow(Length::from_mm(radius_mm));
            prop_assert!(is_like(lowest(all(), in_hollow), lowest(few(&shape), in_hollow)));
        }
    }

    #[test]
    fn few_of_many_can_be_lowest() {
        // A grid a hundred by a hundred, 0.4 mm apart, its rows bent up and down by turns.
        let grid = (0_u8..100).flat_map(|row| (0_u8..100).map(move |column| (row, column)));
        let points = grid.map(|(row, column)| {
            let (row, column) = (f64::from(row), f64::from(column));
            Point::new(
                0.4 * column,
                8.0 + 0.04 * row + 0.01 * (column * 1.7 + row).sin(),
            )
        });
        let hardware = hardware(points);
        assert_eq!(hardware.points().len(), 10_000);
        let level = hardware.that_can_be_lowest(&GroundShape::<f64>::Level, false);
        assert!(level.count() < 40);
        let crest = GroundShape::Crest(Length::from_mm(5000.0));
        assert!(hardware.that_can_be_lowest(&crest, false).count() < 300);
    }

    #[test]
    fn a_row_over_level_ground_is_its_two_ends_and_on_a_tight_crest_every_one() {
        let row = (0_u8..200).map(|index| Point::new(f64::from(index) * 0.25, 9.0));
        let hardware = hardware(row);
        let places = |shape: GroundShape| {
            let found = hardware.that_can_be_lowest(&shape, false);
            found.map(|(place, _)| place).collect::<Vec<_>>()
        };
        assert_eq!(places(GroundShape::Level), [0, 199]);
        let on_crest = places(GroundShape::Crest(Length::from_mm(3000.0)));
        assert_eq!(on_crest.len(), 200);
    }

    #[test]
    fn what_sits_on_the_knife_is_kept_beside_what_sits_on_the_bar() {
        let mut points: Vec<_> = (0_u8..20)
            .map(|index| on_the_bar(Point::new(f64::from(index), 9.0)))
            .collect();
        // A short row on the knife, which a thick one carries down past the bar's.
        points.extend((5_u8..15).map(|index| HardwarePoint {
            on: Mount::Knife,
            ..on_the_bar(Point::new(f64::from(index), 1.0))
        }));
        let found = Hardware::new(points);
        let level = found.that_can_be_lowest(&GroundShape::<f64>::Level, false);
        let places: Vec<_> = level.map(|(place, _)| place).collect();
        assert_eq!(places, [0, 19, 20, 29]);
    }
}
