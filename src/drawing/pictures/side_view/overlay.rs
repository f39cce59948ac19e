//! Other knives drawn over the present one, all with what holds still in the same place.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Affine, Arc, Shape as _};

use super::{SideView, knife_outline};
use crate::analysis::Case;
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape};

/// Another knife on the same unit.
#[derive(Clone, Copy, Debug)]
pub struct Overlay<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its place in the list of knives, which picks its colour and line pattern.
    pub place: u8,
    /// The unit solved with it.
    pub case: Case<'a>,
}

/// How much of the reel's circle is drawn on either side of its lowest point.
const HALF_ARC_RAD: f64 = 1.0;
/// A name in the key is cut off after so many letters.
const LONGEST_NAME: usize = 26;

impl SideView<'_> {
    pub(super) fn overlays(&self, scene: &mut Scene) {
        let held = self.hold.place(&self.case);
        if !self.overlays.is_empty() {
            let text = "the knife fitted".to_owned();
            scene.add(Role::Knife, Shape::Key { row: 0, text });
        }
        for (row, overlay) in (1_u8..).zip(self.overlays) {
            let role = Role::Overlay(overlay.place);
            let pose = &overlay.case.solution.pose;
            // The rollers given, another knife may cut elsewhere: what is compared is the shape about
            // what holds still.
            let to_same = Affine::translate(held - self.hold.place(&overlay.case));
            let outline = to_same * knife_outline(&overlay.case);
            scene.add(role, Shape::Line(outline));
            let radius = pose.reel_radius_mm;
            let arc = Arc::new(
                to_same * pose.centre_on_plate,
                (radius, radius),
                -FRAC_PI_2 - HALF_ARC_RAD,
                2.0 * HALF_ARC_RAD,
                0.0,
            );
            scene.add(role, Shape::Line(arc.to_path(EXACT_MM)));
            let text = shortened(overlay.name);
            scene.add(role, Shape::Key { row, text });
        }
    }
}

fn shortened(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    let kept: String = name.chars().take(LONGEST_NAME - 1).collect();
    format!("{}…", kept.trim_end())
}
