//! Pictures of steps in which nothing is read.

use crate::drawing::scene::{Role, Scene, Shape, Sketch, closed, polyline};

impl Sketch {
    /// An arrow from one place to another.
    pub(super) fn arrow(&mut self, role: Role, from: (f64, f64), to: (f64, f64)) {
        self.scene.add(role, Shape::Arrow(polyline([from, to])));
    }

    /// A closed outline.
    pub(super) fn outline(&mut self, role: Role, corners: &[(f64, f64)]) {
        let path = closed(corners.iter().copied());
        self.scene.add(role, Shape::Fill(path.clone()));
        self.scene.add(role, Shape::Line(path));
    }
}

/// A roller pushed and pulled across at both ends, and along.
#[must_use]
pub fn bearings_picture() -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.outline(
        Role::Roller,
        &[(-66.0, 8.0), (66.0, 8.0), (66.0, 38.0), (-66.0, 38.0)],
    );
    sketch.line(Role::CentreLine, (-92.0, 23.0), (92.0, 23.0));
    for x in [-54.0, 54.0] {
        sketch.arrow(Role::Dimension, (x, 40.0), (x, 62.0));
        sketch.arrow(Role::Dimension, (x, 6.0), (x, -16.0));
    }
    sketch.arrow(Role::Dimension, (70.0, 23.0), (96.0, 23.0));
    sketch.arrow(Role::Dimension, (-70.0, 23.0), (-96.0, 23.0));
    sketch.word((0.0, 56.0), "across");
    sketch.word((0.0, 23.0), "roller");
    sketch.word((84.0, 38.0), "along");
    sketch.scene
}

/// The unit from above on its rollers, pressed corner by corner.
#[must_use]
pub fn rock_picture() -> Scene {
    let mut sketch = Sketch::new(String::new());
    for y in [-16.0, 50.0] {
        sketch.outline(
            Role::Roller,
            &[(-60.0, y), (60.0, y), (60.0, y + 12.0), (-60.0, y + 12.0)],
        );
    }
    sketch.line(Role::Frame, (-54.0, -10.0), (54.0, 56.0));
    sketch.line(Role::Frame, (54.0, -10.0), (-54.0, 56.0));
    for (x, y) in [(-76.0, -10.0), (76.0, -10.0), (-76.0, 56.0), (76.0, 56.0)] {
        sketch.scene.add(Role::Clip, Shape::Ring((x, y).into()));
    }
    sketch.word((0.0, 40.0), "front roller");
    sketch.word((0.0, 8.0), "rear roller");
    sketch.word((0.0, 24.0), "press each corner");
    sketch.scene
}
