//! The reel: blades with their tips, the spider that carries them, the shaft, and the circle of the tips.

use std::f64::consts::TAU;

use kurbo::{Arc, BezPath, Circle, Point, Shape as _, Vec2};

use super::{SideView, label, label_or, line};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape, ShownIn};
use crate::units::Angle;

/// Parts of the reel's radius: where a blade's foot stands, and the spider's arms, its hollows and the
/// shaft.
const FOOT: f64 = 0.70;
const ARM: f64 = 0.76;
const HOLLOW: f64 = 0.36;
const SHAFT: f64 = 0.12;
/// The part of a blade's thickness that is land, and how far the relief behind it falls: no file says
/// either (common practice, no source).
const LAND: f64 = 0.3;
const RELIEF_DEG: f64 = 25.0;

impl SideView<'_> {
    pub(super) fn reel(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let (centre, radius) = (pose.centre_on_plate, pose.reel_radius_mm);
        let circle = |part: f64| Circle::new(centre, radius * part).to_path(EXACT_MM);
        scene.add(Role::ReelBody, Shape::Fill(circle(1.0)));
        // One blade's tip stands at the clip point; the reel turns its lower side towards the knife.
        let tip = (pose.clip_point_on_plate() - centre).atan2();
        let blades = self.case.unit.blades;
        let angles = (0..blades).map(|blade| tip + TAU * f64::from(blade) / f64::from(blades));
        let angles: Vec<f64> = angles.collect();
        // No file says what carries the blades.
        let spider = spider(centre, radius, &angles);
        scene.add_in(ShownIn::Whole, Role::Hint, Shape::Fill(spider.clone()));
        scene.add_in(ShownIn::Whole, Role::Hint, Shape::Line(spider));
        for &angle in &angles {
            let section = blade_section(centre, radius, angle);
            scene.add(Role::Blade, Shape::Fill(section.clone()));
            scene.add(Role::Blade, Shape::Line(section));
            let relief = relief(centre, radius, angle);
            scene.add(Role::Hint, Shape::Line(relief));
        }
        self.name_relief(scene, tip);
        scene.add(Role::Hint, Shape::Fill(circle(SHAFT)));
        scene.add(Role::Hint, Shape::Line(circle(SHAFT)));
        scene.add(Role::TipCircle, Shape::Line(circle(1.0)));
        self.name_spider_and_shaft(scene, &angles);
        let turning = 0.56 * radius;
        let turning = Arc::new(centre, (turning, turning), 2.6, -1.1, 0.0).to_path(EXACT_MM);
        scene.add_in(ShownIn::Whole, Role::Note, Shape::Arrow(turning));
        // Clear of the vertical's centre line.
        let at = centre + Vec2::new(0.45 * radius, 0.5 * radius);
        let word = label(at, (0.0, 0.0), false, "reel".to_owned());
        scene.add_in(ShownIn::Whole, Role::ReelBody, word);
        self.diameter(scene, centre, self.case.setting.reel_diameter);
    }

    /// What carries the blades, named where there is room.
    fn name_spider_and_shaft(&self, scene: &mut Scene, blades: &[f64]) {
        let pose = &self.case.solution.pose;
        let (centre, radius) = (pose.centre_on_plate, pose.reel_radius_mm);
        let on = |part: f64, angle: f64| centre + Vec2::from_angle(angle) * (part * radius);
        // On the arm that stands nearest to straight back.
        let off = |angle: &f64| (angle.cos() + 1.0).abs();
        let arm = blades
            .iter()
            .copied()
            .min_by(|a, b| off(a).total_cmp(&off(b)));
        let arm = arm.unwrap_or(std::f64::consts::PI);
        for (at, offset, name) in [
            (on(0.8 * ARM, arm), (-20.0, -30.0), "spider"),
            (on(SHAFT, 2.4), (-34.0, -24.0), "shaft"),
        ] {
            let word = label(at, offset, true, name.to_owned());
            scene.add_in(ShownIn::Whole, Role::Hint, word);
        }
    }

    /// Land and relief of the blade at the clip point, named in the lens as what no file gives.
    fn name_relief(&self, scene: &mut Scene, angle: f64) {
        let pose = &self.case.solution.pose;
        let (centre, radius) = (pose.centre_on_plate, pose.reel_radius_mm);
        let [_, land, back] = tip(centre, radius, angle);
        let words = ["land and relief, not measured", "relief, not measured"];
        let word = label_or(
            land.midpoint(back),
            (40.0, -44.0),
            true,
            words.map(str::to_owned),
        );
        scene.add_in(ShownIn::Lens, Role::Hint, word);
    }

    /// The vertical through the reel's centre, down to the plate: behind centre is measured from it.
    pub(super) fn vertical(&self, scene: &mut Scene, lowest_mm: f64) {
        let pose = &self.case.solution.pose;
        let (centre, radius) = (pose.centre_on_plate, pose.reel_radius_mm);
        let above = line((centre.x, centre.y + 1.04 * radius), centre);
        scene.add(Role::CentreLine, Shape::Line(above));
        let across = Vec2::new(1.5 * SHAFT * radius, 0.0);
        let across = line(centre - across, centre + across);
        scene.add(Role::CentreLine, Shape::Line(across));
        let down = line(centre, (centre.x, lowest_mm));
        scene.add(Role::Vertical, Shape::Line(down));
        // Where the ground is tilted under the reel, its vertical is not square to it.
        let slope = self.stand().terrain.slope_under(centre);
        let is_as_on_plate = self.system.angle(slope) == self.system.angle(Angle::ZERO);
        let words = || {
            let words = if is_as_on_plate {
                ["vertical through the reel's centre", "vertical"]
            } else {
                ["the plate's vertical", "vertical"]
            };
            words.map(str::to_owned)
        };
        // At its upper end, where the drawing is empty.
        let at = Point::new(centre.x, centre.y + 0.75 * radius);
        let word = label_or(at, (60.0, 12.0), true, words());
        scene.add_in(ShownIn::Whole, Role::Vertical, word);
        let at = pose.lowest_of_reel_on_plate() + Vec2::new(0.0, 0.03 * radius);
        let word = label_or(at, (30.0, -60.0), true, words());
        scene.add_in(ShownIn::Lens, Role::Vertical, word);
    }
}

/// How thick a blade is, in parts of the reel's radius: as thick as blades are, no file says it.
fn thickness(radius: f64) -> f64 {
    (0.05 * radius).clamp(2.5, 5.0) / radius
}

/// A blade's tip from its front, at `angle`: the land on the tips' circle, then the relief that falls
/// away from it to the blade's back.
fn tip(centre: Point, radius: f64, angle: f64) -> [Point; 3] {
    let thick = thickness(radius);
    let at = |part: f64, turn: f64| centre + Vec2::from_angle(angle + turn) * (radius * part);
    let fall = RELIEF_DEG.to_radians().tan() * (1.0 - LAND) * thick;
    [at(1.0, 0.0), at(1.0, LAND * thick), at(1.0 - fall, thick)]
}

/// A blade's section from its tip's front, at `angle`, to its foot: a bar that trails behind its foot a
/// little, with land and relief at its tip.
pub(in crate::drawing::pictures) fn blade_section(
    centre: Point,
    radius: f64,
    angle: f64,
) -> BezPath {
    let at = |part: f64, turn: f64| centre + Vec2::from_angle(angle + turn) * (radius * part);
    let thick = thickness(radius);
    let [front, land, back] = tip(centre, radius, angle);
    let mut path = BezPath::new();
    path.move_to(front);
    path.quad_to(at(0.86, 0.0), at(FOOT, -0.07));
    path.line_to(at(FOOT, -0.07 + thick / FOOT));
    path.quad_to(at(0.86, thick / 0.86), back);
    path.line_to(land);
    path.close_path();
    path
}

/// What the relief took off a blade's tip: from the land along the tips' circle, and down its back.
fn relief(centre: Point, radius: f64, angle: f64) -> BezPath {
    let [_, land, back] = tip(centre, radius, angle);
    let corner = centre + Vec2::from_angle(angle + thickness(radius)) * radius;
    let mut path = BezPath::new();
    path.move_to(land);
    path.line_to(corner);
    path.line_to(back);
    path
}

/// The disc with an arm to every blade.
fn spider(centre: Point, radius: f64, angles: &[f64]) -> BezPath {
    let at = |part: f64, angle: f64| centre + Vec2::from_angle(angle) * (radius * part);
    let Some(first) = angles.first() else {
        return BezPath::new();
    };
    let apart = TAU / f64::from(u32::try_from(angles.len()).unwrap_or(u32::MAX));
    let half = (0.28 * apart).min(0.1);
    let mut path = BezPath::new();
    path.move_to(at(ARM, first - half));
    for angle in angles {
        path.line_to(at(ARM, angle + half));
        path.quad_to(
            at(HOLLOW, angle + apart / 2.0),
            at(ARM, angle + apart - half),
        );
    }
    path.close_path();
    path
}
