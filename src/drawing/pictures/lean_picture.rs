//! A small picture of the lean of a slide: what slides at two places of its line, not to scale.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Arc, Point, Shape as _, Vec2};

use crate::analysis::lean_from::Slid;
use crate::drawing::scene::{EXACT, Role, Scene, Shape, Sketch};

/// The reel of the picture, and where it stands first.
const RADIUS: f64 = 52.0;
const CENTRE: Point = Point::new(-24.0, 72.0);
/// On its circle, a little behind the centre.
const EDGE: (f64, f64) = (-41.8, 23.1);
/// How far it is backed off, and which way the slide leans.
const TRAVEL: f64 = 22.0;
const LEAN_DEG: f64 = 22.0;

/// The picture of what slides, `number` written at its lean.
#[must_use]
pub fn lean_picture(slid: Slid, number: String) -> Scene {
    let mut sketch = Sketch::new(number);
    sketch.ground(Role::Plate);
    let up = Vec2::from_angle((90.0 - LEAN_DEG).to_radians());
    match slid {
        Slid::Reel => {
            // The edge stays where it is.
            sketch.knife(EDGE);
            sketch.lower_half(CENTRE, Role::ReelRim);
            sketch.lower_half(CENTRE + TRAVEL * up, Role::Ghost);
            sketch.lean(Point::new(58.0, 4.0), up);
            sketch.word((-30.0, 34.0), "reel");
            sketch.word((-14.0, 60.0), "backed off");
        }
        Slid::Knife => {
            // Higher, so that there is room below for the knife.
            let lift = Vec2::new(0.0, 8.0);
            sketch.lower_half(CENTRE + lift, Role::ReelRim);
            let edge = Point::from(EDGE) + lift;
            sketch.knife((edge.x, edge.y));
            let down = edge - TRAVEL * up;
            sketch.line(
                Role::Ghost,
                (down.x, down.y),
                (down.x - 62.0, down.y + 10.0),
            );
            sketch.lean(Point::new(58.0, 4.0), up);
            sketch.word((-26.0, 50.0), "reel");
            sketch.word((-14.0, 10.0), "backed off");
        }
    }
    sketch.scene
}

impl Sketch {
    fn lower_half(&mut self, centre: Point, role: Role) {
        let arc = Arc::new(centre, (RADIUS, RADIUS), -FRAC_PI_2 - 1.3, 2.6, 0.0);
        self.scene.add(role, Shape::Line(arc.to_path(EXACT)));
        let cross = 4.0;
        let (x, y) = (centre.x, centre.y);
        self.line(role, (x - cross, y), (x + cross, y));
        self.line(role, (x, y - cross), (x, y + cross));
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
