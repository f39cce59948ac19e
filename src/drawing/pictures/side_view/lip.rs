//! The knife's lip by itself: what is drawn where it is the matter and not the sweep.

use kurbo::{Point, Vec2};

use super::{SideView, datum_back, line};
use crate::drawing::scene::{Dimension, Direction, Item, Label, Role, Scene, Shape, ShownIn};
use crate::units::{Angle, Length};

/// How many times as large as others what is measured here is.
const LARGER: f64 = 1.3;

/// What is measured at a knife's lip.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::drawing) struct AtLip {
    /// How high the underside stands above the plate.
    pub(in crate::drawing) underside: bool,
    /// How far the top face must fall to stay clear of the reel.
    pub(in crate::drawing) relief: bool,
}

impl SideView<'_> {
    /// The scene with what is measured at the lip, and without what is told of the sweep.
    pub(in crate::drawing) fn scene_at_lip(&self, at: AtLip) -> Scene {
        let mut scene = self.scene();
        scene.items.retain(|item| !tells_sweep(item));
        if at.underside {
            self.underside_above_plate(&mut scene);
        }
        if at.relief {
            self.relief_needed(&mut scene);
        }
        scene
    }

    fn underside_above_plate(&self, scene: &mut Scene) {
        let lowest = self.case.solution.lowest_on_plate;
        let foot = Point::new(lowest.x, 0.0);
        let number = self.length(Length::from_mm(lowest.y));
        let dimension = Dimension {
            from: foot,
            to: lowest,
            direction: Direction::Up,
            through: foot,
            offset: -26.0,
            larger: LARGER,
            text: format!("underside {number}"),
            shorter: vec![number],
        };
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Dimension(dimension));
    }

    /// From the datum down to the tangent of the reel's circle at the edge.
    fn relief_needed(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let edge = pose.edge_on_plate;
        let long = 1.1 * self.case.setting.knife.lip_length.mm();
        let from_centre = edge - pose.centre_on_plate;
        let tangent = Vec2::new(from_centre.y, -from_centre.x).normalize();
        let datum = datum_back(self.case.solution).normalize();
        let needed = Angle::from_rad(datum.cross(tangent));
        let is_needed = needed.deg() > 0.0;
        let text = if is_needed {
            for way in [datum, tangent] {
                let leg = line(edge, edge + long * way);
                scene.add_in(ShownIn::Lens, Role::Datum, Shape::Line(leg));
            }
            format!("relief needed {}", self.system.angle(needed))
        } else {
            "no relief needed".to_owned()
        };
        // Between both legs, or on the top face.
        let part = if is_needed { 0.7 } else { 0.5 };
        let word = Shape::Label(Label {
            at: edge
                + part
                    * long
                    * (if is_needed {
                        0.5 * (datum + tangent)
                    } else {
                        datum
                    }),
            offset: Vec2::new(-30.0, -62.0),
            has_leader: true,
            larger: LARGER,
            text,
            shorter: Vec::new(),
        });
        scene.add_in(ShownIn::Lens, Role::Knife, word);
    }
}

/// Whether something is measured or said in the lens about how deep the reel sweeps.
fn tells_sweep(item: &Item) -> bool {
    match &item.shape {
        Shape::Dimension(_) | Shape::Ruler(_) => item.shown_in != ShownIn::Whole,
        Shape::Label(_) => match item.role {
            Role::BelowCut(_) | Role::Worst(_) => true,
            // Its share of the height of cut.
            Role::Note => item.shown_in == ShownIn::Lens,
            _ => false,
        },
        _ => false,
    }
}
