//! How reel and knife are brought together, drawn where the file puts it: the slide, or the pivot with
//! the way that the reel's centre or the edge takes about it.

use kurbo::{Arc, Circle, Point, Shape as _, Vec2};

use super::side_plate::outline_about;
use super::{SideView, label_or, line};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape, ShownIn};
use crate::geometry::Closing;
use crate::units::Angle;

/// How far the way about a pivot is shown to either side.
const HALF_WAY_RAD: f64 = 0.22;

impl SideView<'_> {
    /// The pivot that reel or bar swings about, on the plate.
    pub(super) fn pivot(&self) -> Option<Point> {
        let plate_from_frame = self.case.solution.pose.plate_from_frame;
        match self.case.unit.profile.closing {
            Closing::ReelSlides { .. } | Closing::KnifeSlides { .. } => None,
            Closing::ReelPivots { pivot_in_frame } | Closing::KnifePivots { pivot_in_frame } => {
                Some(plate_from_frame * Point::from(pivot_in_frame))
            }
        }
    }

    pub(super) fn closing(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let radius = pose.reel_radius_mm;
        match self.case.unit.profile.closing {
            Closing::ReelSlides { lean } => {
                let word = slide_words("reel slides");
                let size = (0.3 * radius, 0.17 * radius);
                self.slide(scene, lean, (pose.centre_on_plate, size), word);
            }
            Closing::KnifeSlides { lean } => {
                let word = slide_words("bed bar slides");
                // From the bar upwards: below it the plate is near.
                let size = (0.12 * radius, 0.08 * radius);
                let up = self.slide_on_plate(lean) * size.0;
                self.slide(scene, lean, (self.screw_on_plate() + up, size), word);
            }
            Closing::ReelPivots { .. } => {
                if let Some(pivot) = self.pivot() {
                    let arm = [
                        Circle::new(pivot, 0.09 * radius),
                        Circle::new(pose.centre_on_plate, 0.17 * radius),
                    ];
                    self.swinging(scene, pivot, &arm, pose.centre_on_plate, "reel's pivot");
                }
            }
            Closing::KnifePivots { .. } => {
                if let Some(pivot) = self.pivot() {
                    let arm = [
                        Circle::new(pivot, 0.09 * radius),
                        Circle::new(self.screw_on_plate(), 0.07 * radius),
                    ];
                    self.swinging(scene, pivot, &arm, pose.edge_on_plate, "bed bar's pivot");
                }
            }
        }
    }

    fn swinging(
        &self,
        scene: &mut Scene,
        pivot: Point,
        arm: &[Circle],
        carried: Point,
        name: &str,
    ) {
        let radius = self.case.solution.pose.reel_radius_mm;
        let arm = outline_about(arm);
        scene.add_in(ShownIn::Whole, Role::Hint, Shape::Line(arm));
        let size = 0.045 * radius;
        let pin = Circle::new(pivot, size).to_path(EXACT_MM);
        scene.add(Role::Hardware, Shape::Fill(pin.clone()));
        scene.add(Role::Hardware, Shape::Line(pin));
        for way in [Vec2::new(2.2 * size, 0.0), Vec2::new(0.0, 2.2 * size)] {
            let axis = line(pivot - way, pivot + way);
            scene.add(Role::CentreLine, Shape::Line(axis));
        }
        // The way that what it carries takes.
        let arm = carried - pivot;
        let reach = arm.hypot();
        let way = Arc::new(
            pivot,
            (reach, reach),
            arm.atan2() - HALF_WAY_RAD,
            2.0 * HALF_WAY_RAD,
            0.0,
        );
        scene.add_in(
            ShownIn::Whole,
            Role::CentreLine,
            Shape::Line(way.to_path(EXACT_MM)),
        );
        let word = label_or(
            pivot,
            (-30.0, -34.0),
            true,
            [name.to_owned(), "pivot".to_owned()],
        );
        scene.add_in(ShownIn::Whole, Role::Note, word);
    }

    /// The way of the slide on the plate.
    fn slide_on_plate(&self, lean: Option<Angle>) -> Vec2 {
        let pose = &self.case.solution.pose;
        let bench = &self.case.unit.profile.bench;
        let in_frame = if let Some(lean) = lean {
            Vec2::new(lean.rad().sin(), lean.rad().cos())
        } else {
            // The bench line from edge to centre.
            let apart = bench.reel_diameter.mm() / 2.0 + bench.gap.mm();
            let behind = bench.behind_centre.mm();
            Vec2::new(behind, (apart * apart - behind * behind).max(0.0).sqrt())
        };
        let on_plate = |way: Vec2| {
            pose.plate_from_frame * way.to_point() - pose.plate_from_frame * Point::ORIGIN
        };
        on_plate(in_frame.normalize())
    }

    /// The line that the reel's centre or the bar slides on, in a slot about a place of it, half so
    /// long and wide.
    fn slide(
        &self,
        scene: &mut Scene,
        lean: Option<Angle>,
        (centre, (half_length, half_width)): (Point, (f64, f64)),
        words: [String; 2],
    ) {
        let along = self.slide_on_plate(lean);
        let ends =
            [-half_length, half_length].map(|off| Circle::new(centre + along * off, half_width));
        let slot = outline_about(&ends);
        scene.add_in(ShownIn::Whole, Role::Hint, Shape::Line(slot));
        let axis = along * (half_length + 1.6 * half_width);
        let axis = line(centre - axis, centre + axis);
        scene.add_in(ShownIn::Whole, Role::CentreLine, Shape::Line(axis));
        let aside = Vec2::new(along.y, -along.x) * half_width;
        let at = centre + along * half_length + aside;
        let word = label_or(at, (30.0, -14.0), true, words);
        scene.add_in(ShownIn::Whole, Role::Note, word);
    }
}

fn slide_words(words: &str) -> [String; 2] {
    [words.to_owned(), "slide".to_owned()]
}
