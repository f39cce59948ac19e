//! The unit with its knife on the gauge bar, to scale: the pose its rollers are read in.

use kurbo::{Point, Rect, Shape as _};

use crate::analysis::Solved;
use crate::drawing::pictures::side_view::knife_outline;
use crate::drawing::scene::{EXACT, Role, Scene, Shape, Sketch};
use crate::geometry::{OnBar, RollerDown};
use crate::units::{Length, System};

/// The unit on a bar, its front roller down at the plate; none where that cannot come down.
#[must_use]
pub fn on_bar_picture(unit: &Solved, bar: Length, system: System) -> Option<Scene> {
    let pose = &unit.solution.pose;
    let resting = unit.solution.lip_bottom_on_plate;
    let on_bar = OnBar::of(pose, resting, bar, RollerDown::Front)?;
    let mut sketch = Sketch::new(system.length(bar));
    let moved = |point: Point| on_bar.moved * point;
    let xy = |point: Point| (point.x, point.y);
    sketch.ground(Role::Plate);
    let (radius, centre) = (pose.reel_radius_mm, moved(pose.centre_on_plate));
    sketch.circle(Role::ReelRim, xy(centre), radius);
    sketch.circle(Role::ReelRim, xy(centre), 0.06 * radius);
    let mut reach = Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius));
    for roller in [&pose.front_roller, &pose.rear_roller] {
        let centre = moved(roller.centre);
        sketch.roller(xy(centre), roller.radius_mm);
        let size = 2.0 * roller.radius_mm;
        reach = reach.union(Rect::from_center_size(centre, (size, size)));
    }
    let knife = on_bar.moved * knife_outline(&unit.case());
    sketch.scene.add(Role::Knife, Shape::Hatch(knife.clone()));
    sketch.scene.add(Role::Knife, Shape::Line(knife));
    let at = moved(resting);
    let half = (0.6 * bar.mm()).max(0.16 * radius);
    let block = Rect::new(at.x - 2.0 * half, 0.0, at.x + 0.4 * half, bar.mm());
    sketch
        .scene
        .add(Role::Bar, Shape::Hatch(block.to_path(EXACT)));
    sketch
        .scene
        .add(Role::Bar, Shape::Line(block.to_path(EXACT)));
    sketch.word(
        (at.x - half, -0.34 * radius),
        &format!("bar {}", system.length(bar)),
    );
    sketch.scene.bounds = Rect {
        y0: reach.y0.min(-0.5 * radius),
        ..reach.inflate(0.06 * reach.width(), 0.04 * reach.width())
    };
    Some(sketch.scene)
}
