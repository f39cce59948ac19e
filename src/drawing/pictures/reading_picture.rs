//! A small picture of each other way to behind centre, drawn large, not to scale.

use std::f64::consts::{FRAC_PI_2, PI};

use kurbo::{Arc, Point, Shape as _};

use crate::analysis::other_readings::BehindFrom;
use crate::drawing::scene::{Dimension, Direction, EXACT, Role, Scene, Shape, Sketch};

/// The reel of the pictures.
const RADIUS: f64 = 86.0;
const EDGE_HEIGHT: f64 = 48.0;
const DEPTH: f64 = 16.0;
const CENTRE_X: f64 = 10.0;

/// The picture of a method, `number` written at its dimension.
#[must_use]
pub fn reading_picture(method: BehindFrom, number: String) -> Scene {
    let mut sketch = Sketch::new(number);
    sketch.ground(Role::Plate);
    match method {
        BehindFrom::Rise => sketch.rise(),
        BehindFrom::BlockUnderReel => sketch.block_under_reel(),
        BehindFrom::BlockToSquare => sketch.block_to_square(),
    }
    sketch.scene
}

impl Sketch {
    /// The lower part of the reel, and the knife at its clip point; where the edge stands.
    fn reel_and_knife(&mut self) -> f64 {
        let centre = Point::new(CENTRE_X, EDGE_HEIGHT - DEPTH + RADIUS);
        let arc = Arc::new(centre, (RADIUS, RADIUS), -FRAC_PI_2 - 1.0, 2.0, 0.0);
        self.scene
            .add(Role::ReelRim, Shape::Line(arc.to_path(EXACT)));
        let edge = CENTRE_X - RADIUS * ((RADIUS - DEPTH) / RADIUS).acos().sin();
        self.knife((edge, EDGE_HEIGHT));
        self.line(Role::CentreLine, (CENTRE_X, 76.0), (CENTRE_X, -8.0));
        edge
    }

    fn rise(&mut self) {
        let edge = self.reel_and_knife();
        let lowest = EDGE_HEIGHT - DEPTH;
        self.line(Role::CutLine, (edge, EDGE_HEIGHT), (92.0, EDGE_HEIGHT));
        self.line(Role::Datum, (CENTRE_X, lowest), (92.0, lowest));
        self.upwards(74.0, lowest, EDGE_HEIGHT);
        self.word((30.0, 60.0), "reel");
    }

    fn block_under_reel(&mut self) {
        let edge = self.reel_and_knife();
        let top = EDGE_HEIGHT - DEPTH;
        self.hatched(
            Role::Hardware,
            &[(edge, 0.0), (edge, top), (74.0, top), (74.0, 0.0)],
        );
        self.upwards(86.0, 0.0, top);
        self.word((-18.0, 64.0), "reel");
        self.word((44.0, 10.0), "block");
    }

    fn block_to_square(&mut self) {
        // A smaller reel, so that its foremost blade is in the picture.
        let (radius, depth, edge_height) = (42.0_f64, 5.0, 36.0);
        let centre = Point::new(-6.0, edge_height - depth + radius);
        let arc = Arc::new(centre, (radius, radius), -PI - 0.06, PI + 0.12, 0.0);
        self.scene
            .add(Role::ReelRim, Shape::Line(arc.to_path(EXACT)));
        let edge = centre.x - radius * ((radius - depth) / radius).acos().sin();
        self.knife((edge, edge_height));
        self.line(Role::CentreLine, (centre.x, 76.0), (centre.x, 22.0));
        let square = centre.x + radius;
        self.hatched(
            Role::Hardware,
            &[
                (square, 0.0),
                (square, 76.0),
                (square + 7.0, 76.0),
                (square + 7.0, 0.0),
            ],
        );
        // Its top touches the face, which leans back, a little behind the edge; it lies on a packing.
        let (touches, top, under) = (edge - 1.0, edge_height - 6.0, 14.0);
        self.hatched(
            Role::Hardware,
            &[
                (touches, under),
                (touches, top),
                (square, top),
                (square, under),
            ],
        );
        self.hatched(
            Role::Datum,
            &[(-16.0, 0.0), (-16.0, under), (26.0, under), (26.0, 0.0)],
        );
        self.word((4.0, 22.0), "block");
        let dimension = Dimension {
            from: Point::new(touches, under),
            to: Point::new(square, under),
            direction: Direction::Across,
            through: Point::new(touches, -12.0),
            offset: 0.0,
            larger: 1.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, Shape::Dimension(dimension));
        self.word((70.0, 62.0), "square");
        self.word((10.0, 62.0), "reel");
    }
}
