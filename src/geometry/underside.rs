//! The underside: the points of the knife and its hardware that can drag.

use kurbo::Point;

use super::{Pose, Profile, Setting};
use crate::units::{Angle, Length};

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
    pose.plate_from_bar() * underside_on_bar(profile, setting)[0]
}

/// The least attitude at which the knife's underside and `hardware_on_bar` clear the plate by
/// `clearance`, height of cut kept.
///
/// The bar turns about the edge: a point at distance r from it, seen δ below the datum, stands at
/// `H + r·sin(α − δ)`. Nothing when a point cannot be brought that high.
#[must_use]
pub fn attitude_for_underside(
    pose: &Pose,
    profile: &Profile,
    setting: &Setting,
    hardware_on_bar: impl IntoIterator<Item = Point>,
    clearance: Length,
) -> Option<Angle> {
    let edge = setting.edge_on_bar(profile);
    let wanted_mm = (clearance - pose.height_of_cut).mm();
    let needed_rad = |on_bar: Point| {
        let from_edge = on_bar - edge;
        let sine = wanted_mm / from_edge.hypot();
        match sine {
            // So near the edge that it clears at any attitude.
            sine if sine < -1.0 => Some(f64::NEG_INFINITY),
            sine => (sine <= 1.0).then(|| from_edge.atan2() + sine.asin()),
        }
    };
    underside_on_bar(profile, setting)
        .into_iter()
        .chain(hardware_on_bar)
        .filter(|on_bar| *on_bar != edge)
        .try_fold(f64::NEG_INFINITY, |most, on_bar| {
            needed_rad(on_bar).map(|rad| most.max(rad))
        })
        .map(Angle::from_rad)
}
