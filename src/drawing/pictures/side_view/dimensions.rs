//! Dimensions and words of the side view, for the whole unit and for the lens.

use kurbo::{Point, Vec2};

use super::{GROUND_DEPTH_MM, SideView, Standing, Subject, datum_back, label, line};
use crate::analysis::NumberId;
use crate::drawing::scene::{Dimension, Direction, Role, Scene, Shape, ShownIn};
use crate::units::Length;

/// How many times as large as others a number is that the drawing is about, in the lens and in the whole.
const LARGE: f64 = 1.8;
const LARGER: f64 = 1.5;

/// The edge over the ground, square to it.
pub(super) struct Cut {
    pub(super) edge: Point,
    /// The place of the ground that is nearest the edge.
    pub(super) ground: Point,
    /// From there to the edge; negative inside the ground.
    pub(super) height: Length,
    /// What that height is called there, and in fewer words.
    pub(super) name: &'static str,
    pub(super) short: &'static str,
}

impl SideView<'_> {
    pub(super) fn dimensions_and_words(&self, scene: &mut Scene) {
        self.behind_centre(scene);
        self.height_of_cut(scene);
        self.sweep(scene);
        self.reel_to_soil(scene);
        self.clip_point(scene);
        self.angles(scene);
        self.travel(scene);
    }

    fn behind_centre(&self, scene: &mut Scene) {
        let solution = self.case.solution;
        let edge = solution.pose.edge_on_plate;
        let lowest = solution.pose.lowest_of_reel_on_plate();
        let behind = solution.sweep.behind_centre;
        let side = if behind.mm() < 0.0 {
            "ahead of"
        } else {
            "behind"
        };
        let number = self.length(Length::from_mm(behind.mm().abs()));
        let text = format!("{side} centre {number}");
        // Never a bare number: it would not say what it measures.
        let short = format!("{} {number}", side.split(' ').next().unwrap_or(side));
        let precise = match self.off(NumberId::BehindCentre) {
            Some(off) => format!("{text} ± {}", self.length(off)),
            None => text.clone(),
        };
        for (shown_in, y_mm, offset, larger) in [
            (ShownIn::Whole, -GROUND_DEPTH_MM, 34.0, LARGER),
            (ShownIn::Lens, lowest.y.min(edge.y), 88.0, LARGE),
        ] {
            let mut forms = vec![text.clone(), short.clone()];
            if shown_in == ShownIn::Lens && precise != text {
                forms.insert(0, precise.clone());
            }
            // On the whole from the foot of the vertical's own line.
            let on_vertical = match shown_in {
                ShownIn::Whole => Point::new(lowest.x, y_mm),
                ShownIn::Both | ShownIn::Lens => lowest,
            };
            let dimension = Dimension {
                from: edge,
                to: on_vertical,
                direction: Direction::Across,
                through: Point::new(edge.x, y_mm),
                offset,
                larger: self.larger(Subject::BehindCentre, larger),
                text: forms.remove(0),
                shorter: forms,
            };
            scene.add_in(shown_in, Role::Dimension, Shape::Dimension(dimension));
        }
    }

    fn height_of_cut(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let front = &pose.front_roller;
        let height = pose.edge_on_plate.y;
        let cut = self.cut();
        let text = format!("{} {}", cut.name, self.length(cut.height));
        let shorter = vec![format!("{} {}", cut.short, self.length(cut.height))];
        let aside = front.centre.x + front.radius_mm;
        let larger = self.larger(Subject::HeightOfCut, LARGER);
        // On the plate ahead of all, where there is room; on ground that rises and falls from the
        // ground straight under the edge.
        let dimension = if self.standing == Standing::Plate {
            Dimension {
                from: Point::new(aside, 0.0),
                to: Point::new(aside, height),
                direction: Direction::Up,
                through: Point::new(aside, 0.0),
                // The number stands between the roller and the line.
                offset: 22.0,
                larger,
                text,
                shorter,
            }
        } else {
            Dimension {
                from: cut.ground,
                to: cut.edge,
                direction: Direction::Along,
                through: cut.ground,
                offset: 34.0,
                larger,
                text,
                shorter,
            }
        };
        scene.add_in(ShownIn::Whole, Role::Dimension, Shape::Dimension(dimension));
        let left = self.reel_below_cut().cut;
        let on_cut_line = |x: f64| Point::new(x, left.surface_mm(x).unwrap_or(height));
        let before_roller = on_cut_line(front.centre.x - 1.02 * front.radius_mm);
        let word = label(before_roller, (-1.0, -11.0), false, "cut line".to_owned());
        scene.add_in(ShownIn::Whole, Role::CutLine, word);
        // Just ahead of the vertical, where the lens looks.
        let reel = pose.lowest_of_reel_on_plate();
        let ahead = on_cut_line(reel.x + 0.02 * pose.reel_radius_mm);
        let word = label(ahead, (1.0, -11.0), false, "cut line".to_owned());
        scene.add_in(ShownIn::Lens, Role::CutLine, word);
    }

    /// The edge over what the unit is drawn standing on.
    pub(super) fn cut(&self) -> Cut {
        let edge = self.case.solution.pose.edge_on_plate;
        let terrain = self.stand().terrain;
        let height = terrain.clearance(edge);
        let (name, short) = match self.standing {
            Standing::Plate => ("height of cut", "cut"),
            Standing::Turf | Standing::Crest => ("effective height of cut", "effective cut"),
        };
        Cut {
            edge,
            ground: edge + terrain.down_at(edge) * height.mm(),
            height,
            name,
            short,
        }
    }

    fn clip_point(&self, scene: &mut Scene) {
        let clip = self.case.solution.pose.clip_point_on_plate();
        for (shown_in, offset) in [
            (ShownIn::Whole, (-44.0, -52.0)),
            (ShownIn::Lens, (-40.0, -72.0)),
        ] {
            let word = label(clip, offset, true, "clip point".to_owned());
            scene.add_in(shown_in, Role::Clip, word);
        }
    }

    fn angles(&self, scene: &mut Scene) {
        let solution = self.case.solution;
        let pose = &solution.pose;
        let (centre, edge) = (pose.centre_on_plate, pose.edge_on_plate);
        // Against the ground under the edge, which a crest or sinks apart tilt.
        let slope = self.stand().terrain.slope_under(edge);
        let on_ground = self.system.angle(pose.attitude + slope);
        let attitude = Shape::Angle {
            apex: edge,
            from: -Vec2::from_angle(slope.rad()),
            to: datum_back(solution),
            radius_mm: 1.2 * self.case.setting.knife.width.mm(),
            text: format!("attitude {on_ground}"),
            shorter: Vec::new(),
        };
        scene.add_in(ShownIn::Whole, Role::Dimension, attitude);
        let clip_angle = Shape::Angle {
            apex: centre,
            from: Vec2::new(0.0, -1.0),
            to: edge - centre,
            radius_mm: 0.45 * pose.reel_radius_mm,
            text: format!(
                "clip angle {}",
                self.system.angle(solution.sweep.clip_angle)
            ),
            shorter: Vec::new(),
        };
        scene.add_in(ShownIn::Whole, Role::Dimension, clip_angle);
    }

    fn travel(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let front = &pose.front_roller;
        // Over the front roller, ahead of the reel, the corner above it left to the key.
        let top = front.centre.y + front.radius_mm;
        let above = (pose.centre_on_plate.y + 0.3 * pose.reel_radius_mm).max(1.1 * top);
        let start = Point::new(front.centre.x - 0.3 * front.radius_mm, above);
        let arrow = line(start, start + Vec2::new(1.3 * front.radius_mm, 0.0));
        scene.add_in(ShownIn::Whole, Role::Note, Shape::Arrow(arrow));
        let middle = start + Vec2::new(0.6 * front.radius_mm, 0.0);
        let word = label(middle, (0.0, 14.0), false, "travel".to_owned());
        scene.add_in(ShownIn::Whole, Role::Note, word);
    }
}
