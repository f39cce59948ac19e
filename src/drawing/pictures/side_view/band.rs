//! The band in which the reel's circle lies, as far as the readings can be off.

use kurbo::{Affine, Arc, BezPath, Shape as _, Vec2};

use super::{SideView, label_or};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape, ShownIn};

/// How much of the circle is banded on either side of its lowest point.
const HALF_ARC_RAD: f64 = 0.5;

impl SideView<'_> {
    /// The circle's lowest part moved from and to the ground by the sweep's expanded uncertainty.
    pub(super) fn band(&self, scene: &mut Scene) {
        let below = self.reel_below_cut();
        let Some(off) = below.off else {
            return;
        };
        let pose = &self.case.solution.pose;
        let radius = pose.reel_radius_mm;
        let arc = |start: f64, turn: f64| {
            Arc::new(pose.centre_on_plate, (radius, radius), start, turn, 0.0).to_path(EXACT_MM)
        };
        let down = (below.lowest - pose.centre_on_plate).atan2();
        let up = -Vec2::from_angle(down);
        let moved = |up_mm: f64, path: BezPath| Affine::translate(up * up_mm) * path;
        let ahead = arc(down - HALF_ARC_RAD, 2.0 * HALF_ARC_RAD);
        let back = arc(down + HALF_ARC_RAD, -2.0 * HALF_ARC_RAD);
        let (lower, upper) = (moved(-off.mm(), ahead.clone()), moved(off.mm(), ahead));
        let mut band = lower.clone();
        for (index, element) in moved(off.mm(), back).into_iter().enumerate() {
            // The way back begins where the way out ends.
            match element {
                kurbo::PathEl::MoveTo(start) if index == 0 => band.line_to(start),
                other => band.push(other),
            }
        }
        band.close_path();
        scene.add_in(ShownIn::Lens, Role::Band, Shape::Fill(band));
        scene.add_in(ShownIn::Lens, Role::Band, Shape::Line(lower));
        scene.add_in(ShownIn::Lens, Role::Band, Shape::Line(upper));
        // Between the edge and the lowest point, where the lens always looks.
        let back = -0.6 * pose.sweep().clip_angle.rad();
        let between = pose.centre_on_plate + Vec2::from_angle(down + back) * radius - up * off.mm();
        let off = self.length(off);
        let forms = [format!("± {off} of the readings"), format!("± {off}")];
        let word = label_or(between, (14.0, 120.0), true, forms);
        scene.add_in(ShownIn::Lens, Role::Note, word);
    }
}
