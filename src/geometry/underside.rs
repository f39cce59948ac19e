//! The underside: the points of the knife and its hardware that can drag.

use kurbo::Point;

use super::{Pose, Profile, Setting};

/// The four underside corners of the fitted knife, on the bar: front and back of the lip, front
/// and back of the body.
#[must_use]
pub fn underside_on_bar(profile: &Profile, setting: &Setting) -> [Point; 4] {
    let knife = &setting.knife;
    let extension_mm = setting.total_extension(profile).mm();
    [
        (setting.face_ground, knife.lip_thickness),
        (knife.lip_length, knife.lip_thickness),
        (knife.lip_length, knife.body_thickness),
        (knife.width, knife.body_thickness),
    ]
    .map(|(behind, below)| Point::new(behind.mm() - extension_mm, below.mm()))
}

/// The front bottom of the lip, the first thing under the edge to touch the ground.
#[must_use]
pub fn lip_bottom_on_plate(pose: &Pose, profile: &Profile, setting: &Setting) -> Point {
    pose.plate_from_frame * (pose.frame_from_bar * underside_on_bar(profile, setting)[0])
}
