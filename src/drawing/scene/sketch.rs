//! Sketches, the small pictures beside a number: drawn large, not to scale.

use kurbo::{Circle, Line, Point, Rect, Shape as _, Vec2};

use super::polygon::closed;
use super::{Dimension, Direction, Label, Role, Scene, Shape};

/// How far a curve may stray.
pub(in crate::drawing) const EXACT: f64 = 0.01;
/// Ground runs this far to either side, past any picture's own.
pub(in crate::drawing) const WIDE: f64 = 260.0;
/// The picture.
const FRAME: Rect = Rect::new(-100.0, -34.0, 100.0, 78.0);

/// A small picture being drawn, in units of its own, the ground at 0.
pub(in crate::drawing) struct Sketch {
    pub(in crate::drawing) scene: Scene,
    pub(in crate::drawing) number: String,
}

impl Sketch {
    /// An empty picture whose dimension will say `number`.
    pub(in crate::drawing) fn new(number: String) -> Self {
        Self {
            scene: Scene {
                items: Vec::new(),
                bounds: FRAME,
            },
            number,
        }
    }

    pub(in crate::drawing) fn ground(&mut self, role: Role) {
        let ground = Rect::new(-WIDE, -34.0, WIDE, 0.0).to_path(EXACT);
        self.scene.add(role, Shape::Hatch(ground));
        self.line(role, (-WIDE, 0.0), (WIDE, 0.0));
    }

    pub(in crate::drawing) fn line(&mut self, role: Role, from: (f64, f64), to: (f64, f64)) {
        let path = Line::new(from, to).to_path(EXACT);
        self.scene.add(role, Shape::Line(path));
    }

    pub(in crate::drawing) fn circle(&mut self, role: Role, centre: (f64, f64), radius: f64) {
        let path = Circle::new(centre, radius).to_path(EXACT);
        self.scene.add(role, Shape::Line(path));
    }

    pub(in crate::drawing) fn roller(&mut self, centre: (f64, f64), radius: f64) {
        let path = Circle::new(centre, radius).to_path(EXACT);
        self.scene.add(Role::Roller, Shape::Fill(path));
        self.circle(Role::Roller, centre, radius);
        self.circle(Role::Roller, centre, 0.12 * radius);
    }

    pub(in crate::drawing) fn hatched(&mut self, role: Role, corners: &[(f64, f64)]) {
        let path = closed(corners.iter().copied());
        self.scene.add(role, Shape::Hatch(path.clone()));
        self.scene.add(role, Shape::Line(path));
    }

    /// A knife with its edge at a height, its back to the left and higher.
    pub(in crate::drawing) fn knife(&mut self, edge: (f64, f64)) {
        let (x, y) = edge;
        self.hatched(
            Role::Knife,
            &[
                (x, y),
                (x - 62.0, y + 10.0),
                (x - 63.0, y - 6.0),
                (x - 16.0, y - 9.0),
                (x - 16.0, y - 5.0),
                (x - 1.0, y - 6.0),
            ],
        );
    }

    pub(in crate::drawing) fn upwards(&mut self, x: f64, from: f64, to: f64) {
        let dimension = Dimension {
            from: Point::new(x, from),
            to: Point::new(x, to),
            direction: Direction::Up,
            through: Point::new(x, from),
            offset: 0.0,
            larger: 1.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, Shape::Dimension(dimension));
    }

    pub(in crate::drawing) fn word(&mut self, at: (f64, f64), text: &str) {
        let label = Label {
            at: at.into(),
            offset: Vec2::ZERO,
            has_leader: false,
            larger: 1.0,
            text: text.to_owned(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Note, Shape::Label(label));
    }
}
