//! A small picture of the lean of a slide: what slides at two places of its line, not to scale.

use kurbo::{Point, Rect, Vec2};

use crate::analysis::lean_from::Slid;
use crate::drawing::scene::{Dimension, Direction, Role, Scene, Shape, Sketch};

/// The reel of the picture, and where it stands first.
const RADIUS: f64 = 32.0;
const CENTRE: Point = Point::new(-60.0, 46.0);
/// On its circle, a little behind the centre.
const EDGE: Point = Point::new(-70.9, 15.9);
/// The knife that slides stands higher, so that there is room below for it.
const LIFT: Vec2 = Vec2::new(0.0, 16.0);
/// How far reel and knife are backed off, and which way the slide leans.
const TRAVEL: f64 = 26.0;
const KNIFE_TRAVEL: f64 = 18.0;
const LEAN_DEG: f64 = 22.0;
/// All of both circles.
const FRAME: Rect = Rect::new(-150.0, -34.0, 150.0, 108.0);
/// Where behind centre is dimensioned, below the plate's face.
const BELOW: f64 = -14.0;

/// The picture of what slides, `number` written at its lean; the two readings are dimensioned where it
/// stands first.
#[must_use]
pub fn lean_picture(slid: Slid, number: String) -> Scene {
    let mut sketch = Sketch::new(number);
    sketch.scene.bounds = FRAME;
    sketch.ground(Role::Plate);
    let up = Vec2::from_angle((90.0 - LEAN_DEG).to_radians());
    match slid {
        Slid::Reel => {
            // The edge stays where it is.
            sketch.knife(EDGE.into());
            sketch.reel(CENTRE + TRAVEL * up, Role::Ghost);
            sketch.reel(CENTRE, Role::ReelRim);
            sketch.behind_centre(EDGE, CENTRE);
            sketch.height_read(CENTRE, 2.0, "shaft height");
            sketch.word((-112.0, 62.0), "reel");
            sketch.word((16.0, 92.0), "backed off");
        }
        Slid::Knife => {
            let (centre, edge) = (CENTRE + LIFT, EDGE + LIFT);
            let down = edge - KNIFE_TRAVEL * up;
            let back = down + Vec2::new(-62.0, 10.0);
            sketch.line(Role::Ghost, down.into(), back.into());
            sketch.reel(centre, Role::ReelRim);
            sketch.knife(edge.into());
            sketch.behind_centre(edge, centre);
            sketch.height_read(edge, -10.0, "height of cut");
            sketch.word((-112.0, 84.0), "reel");
            sketch.word((-112.0, 8.0), "backed off");
        }
    }
    sketch.lean(Point::new(96.0, 4.0), up);
    sketch.scene
}

impl Sketch {
    /// A reel's circle with its centre.
    fn reel(&mut self, centre: Point, role: Role) {
        self.circle(role, centre.into(), RADIUS);
        let cross = 4.0;
        let (x, y) = (centre.x, centre.y);
        self.line(role, (x - cross, y), (x + cross, y));
        self.line(role, (x, y - cross), (x, y + cross));
    }

    fn behind_centre(&mut self, edge: Point, centre: Point) {
        let foot = BELOW - 4.0;
        self.line(Role::CentreLine, centre.into(), (centre.x, foot));
        self.line(Role::Dimension, edge.into(), (edge.x, foot));
        let through = Point::new(edge.x, BELOW);
        self.read((edge, centre), Direction::Across, through, "behind centre");
    }

    /// How high a place stands over the plate, dimensioned beside it.
    fn height_read(&mut self, of: Point, beside: f64, text: &str) {
        self.line(Role::Dimension, of.into(), (beside + 4.0, of.y));
        let foot = Point::new(beside, 0.0);
        self.read((foot, Point::new(beside, of.y)), Direction::Up, foot, text);
    }

    fn read(
        &mut self,
        (from, to): (Point, Point),
        direction: Direction,
        through: Point,
        text: &str,
    ) {
        let dimension = Dimension {
            from,
            to,
            direction,
            through,
            offset: 0.0,
            larger: 1.0,
            text: text.to_owned(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, Shape::Dimension(dimension));
    }

    /// The slide's line beside the vertical.
    fn lean(&mut self, foot: Point, up: Vec2) {
        let top = foot + 66.0 * up;
        self.line(Role::Datum, (foot.x, foot.y), (top.x, top.y));
        self.line(Role::CentreLine, (foot.x, foot.y), (foot.x, foot.y + 66.0));
        let angle = Shape::Angle {
            apex: foot,
            from: Vec2::new(0.0, 1.0),
            to: up,
            radius_mm: 44.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, angle);
        self.word((foot.x + 28.0, 22.0), "slide");
    }
}
