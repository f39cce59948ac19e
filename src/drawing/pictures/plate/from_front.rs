//! The unit from its front, right end to the right: what is read along bar, reel, knife and rollers.

use kurbo::{Rect, Vec2};

use crate::analysis::plate::ExpectedCut;
use crate::drawing::scene::{Role, Scene, Shape, Sketch};
use crate::plate::{AlongRead, GapOfKnife, Measured, RollerReadings, Side};
use crate::units::{Angle, Length, Quantity, System};

/// Where left, middle and right are read.
const PLACES: [f64; 3] = [-70.0, 0.0, 70.0];
const ENDS: [f64; 2] = [-70.0, 70.0];
/// The most that a difference is drawn as, in units of the picture.
const MOST: f64 = 9.0;
/// A difference drawn as half of that, in millimetres: 0.002 in.
const HALF_MM: f64 = 0.05;

/// A difference as it is drawn: its sign is seen however small it is, and it never leaves the picture.
fn drawn(difference_mm: f64) -> f64 {
    MOST * difference_mm / (difference_mm.abs() + HALF_MM)
}

/// Values with their differences from the middle of them all as they are drawn.
fn spread<const N: usize>(values: [Option<f64>; N]) -> [f64; N] {
    let known: Vec<f64> = values.iter().flatten().copied().collect();
    let count = u8::try_from(known.len()).unwrap_or(u8::MAX).max(1);
    let mean = known.iter().sum::<f64>() / f64::from(count);
    values.map(|value| value.map_or(0.0, |value| drawn(value - mean)))
}

/// A reading with one digit more than a length is shown with, where it was read so finely.
fn as_read(system: System, length: Length) -> String {
    let shown = system.length(length);
    let exact = Quantity::exactly(length, system);
    let is_finer = exact.text().chars().count() == shown.chars().count() + 1;
    if is_finer && system != System::InchFraction {
        exact.text().to_owned()
    } else {
        shown
    }
}

impl Sketch {
    /// A height with its number, if there is one to write.
    fn height(&mut self, x: f64, (from, to): (f64, f64), number: Option<String>) {
        if let Some(number) = number {
            self.number = number;
            self.upwards(x, from, to);
        }
    }

    /// The knife from its front: its edge below, from left to right through three heights.
    fn knife_from_front(&mut self, edge: [f64; 3]) {
        let [left, middle, right] = edge;
        self.hatched(
            Role::Knife,
            &[
                (-88.0, left + 12.0),
                (88.0, right + 12.0),
                (88.0, right),
                (0.0, middle),
                (-88.0, left),
            ],
        );
    }
}

/// The bar on the plate, measured under both ends of the knife.
#[must_use]
pub fn bar_picture(bar: Option<[Measured; 2]>, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.ground(Role::Plate);
    let tops = spread(values(bar.map(|ends| ends.map(|end| end.value)))).map(|at| 24.0 + at);
    let [left, right] = tops;
    sketch.hatched(
        Role::Bar,
        &[(-92.0, 0.0), (92.0, 0.0), (92.0, right), (-92.0, left)],
    );
    let middle = 0.5 * (left + right);
    sketch.knife_from_front([left, middle, right]);
    for (place, x) in ENDS.into_iter().enumerate() {
        let number = bar.map(|bar| as_read(system, bar[place].value));
        sketch.height(x, (0.0, tops[place]), number);
    }
    sketch.word((0.0, middle + 26.0), "knife");
    sketch.word((0.0, 0.45 * middle), "gauge bar");
    sketch.word((0.0, -14.0), "plate; not to scale");
    sketch.scene
}

fn values<const N: usize>(lengths: Option<[Length; N]>) -> [Option<f64>; N] {
    lengths.map_or([None; N], |lengths| lengths.map(|length| Some(length.mm())))
}

/// The reel from its front, its diameter at the three places.
#[must_use]
pub fn reel_at_places(reel: &AlongRead, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    let read = [reel.left, reel.middle, reel.right];
    let half = spread(read.map(|read| read.map(|read| read.value.mm()))).map(|at| 26.0 + at);
    let middle = 24.0;
    let [left, centre, right] = half;
    sketch.outline(
        Role::ReelRim,
        &[
            (-88.0, middle + left),
            (0.0, middle + centre),
            (88.0, middle + right),
            (88.0, middle - right),
            (0.0, middle - centre),
            (-88.0, middle - left),
        ],
    );
    sketch.line(Role::CentreLine, (-98.0, middle), (98.0, middle));
    for ((x, half), read) in PLACES.into_iter().zip(half).zip(read) {
        let number = read.map(|read| as_read(system, read.value));
        sketch.height(x, (middle - half, middle + half), number);
    }
    sketch.word((0.0, 69.0), "reel; not to scale");
    sketch.scene
}

/// The gap between knife and reel at the three places.
#[must_use]
pub fn knife_picture(gaps: &AlongRead<GapOfKnife>, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    let read = [gaps.left, gaps.middle, gaps.right];
    let gap = spread(read.map(|read| read.map(|read| read.gap.mm()))).map(|at| 20.0 + at);
    let edge = gap.map(|gap| 42.0 - gap);
    sketch.line(Role::ReelRim, (-92.0, 42.0), (92.0, 42.0));
    sketch.word((0.0, 58.0), "reel");
    // The knife below the reel: its edge above.
    let [left, middle, right] = edge;
    sketch.hatched(
        Role::Knife,
        &[
            (-88.0, left),
            (0.0, middle),
            (88.0, right),
            (88.0, -12.0),
            (-88.0, -12.0),
        ],
    );
    for ((x, edge), read) in PLACES.into_iter().zip(edge).zip(read) {
        let number = read.map(|read| system.length(read.gap));
        sketch.height(x, (edge, 42.0), number);
    }
    sketch.word((0.0, -24.0), "knife; not to scale");
    sketch.scene
}

/// A roller over the plate, with the gaps under its ends. It is flat, so that its words keep their room on
/// a page.
#[must_use]
pub fn ends_picture(read: Option<&RollerReadings>, system: System) -> Scene {
    const THICK: f64 = 16.0;
    const WORDS: f64 = 45.0;
    let mut sketch = Sketch::new(String::new());
    sketch.ground(Role::Plate);
    let ends = read.map_or([None; 2], |read| [read.left, read.right]);
    let gaps = spread(ends.map(|end| end.map(|end| end.gap.mm()))).map(|at| 11.0 + 0.7 * at);
    let [left, right] = gaps;
    sketch.outline(
        Role::Roller,
        &[
            (-84.0, left),
            (84.0, right),
            (84.0, right + THICK),
            (-84.0, left + THICK),
        ],
    );
    let half = 0.5 * THICK;
    sketch.line(Role::CentreLine, (-98.0, left + half), (98.0, right + half));
    for (((x, gap), end), side) in ENDS.into_iter().zip(gaps).zip(ends).zip(Side::ALL) {
        // Over the roller, clear of its edge: the gap has no room for its number.
        let told = match end {
            Some(end) => {
                sketch.arrow(Role::Dimension, (x, 0.5 * gap), (x, gap));
                sketch.arrow(Role::Dimension, (x, 0.5 * gap), (x, 0.0));
                format!("{} {}", side.word(), system.length(end.gap))
            }
            None => side.word().to_owned(),
        };
        sketch.word((x, WORDS), &told);
    }
    if ends.iter().any(Option::is_some) {
        sketch.word((0.0, WORDS), "not to scale");
    }
    sketch.scene.bounds = Rect::new(-100.0, -14.0, 100.0, 56.0);
    sketch.scene
}

/// The knife over the plate with its height of cut at the three places, over the cut to expect.
#[must_use]
pub fn height_picture(height: &AlongRead, cut: Option<&ExpectedCut>, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.ground(Role::Plate);
    let read = [height.left, height.middle, height.right];
    let measured = read.map(|read| read.map(|read| read.value.mm()));
    let edge = spread(measured).map(|at| 30.0 + at);
    sketch.knife_from_front(edge);
    if let Some(cut) = cut {
        let [left, _, right] = spread(cut.heights.map(|height| Some(height.mm())));
        sketch.line(Role::CutLine, (-96.0, 30.0 + left), (96.0, 30.0 + right));
    }
    for ((x, edge), read) in PLACES.into_iter().zip(edge).zip(read) {
        let number = read.map(|read| as_read(system, read.value));
        sketch.height(x, (0.0, edge), number);
    }
    let told = if cut.is_some() {
        "knife; line: cut to expect; not to scale"
    } else {
        "knife; not to scale"
    };
    sketch.word((0.0, 62.0), told);
    sketch.scene
}

/// The attitude at the left end of the knife and at its right.
#[must_use]
pub fn attitude_picture(attitude: Option<[Measured<Angle>; 2]>, system: System) -> Scene {
    let attitude = attitude.map(|ends| ends.map(|end| end.value));
    let mut sketch = Sketch::new(String::new());
    for (place, (x, side)) in [(-8.0, "left"), (94.0, "right")].into_iter().enumerate() {
        let own = attitude.map(|ends| ends[place]);
        let other = attitude.map(|ends| ends[1 - place]);
        // Drawn steeper than it is, and a difference steeper still.
        let deg = own.map_or(9.0, |own| 2.2 * own.deg());
        let apart = own.zip(other).map_or(0.0, |(own, other)| {
            6.0 * (own - other).deg().clamp(-1.0, 1.0)
        });
        let back = (deg + apart).clamp(2.0, 40.0).to_radians();
        let (sine, cosine) = back.sin_cos();
        let edge = (x, 14.0);
        sketch.line(Role::Datum, edge, (x - 80.0, 14.0));
        sketch.line(Role::Knife, edge, (x - 78.0 * cosine, 14.0 + 78.0 * sine));
        sketch.word((x - 40.0, 66.0), side);
        if let Some(own) = own {
            let angle = Shape::Angle {
                apex: edge.into(),
                from: Vec2::new(-1.0, 0.0),
                to: Vec2::new(-cosine, sine),
                radius_mm: 66.0,
                text: system.angle(own),
                shorter: Vec::new(),
            };
            sketch.scene.add(Role::Dimension, angle);
        }
    }
    sketch.word((4.0, -6.0), "not to scale");
    sketch.scene
}
