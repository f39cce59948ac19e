//! The underside: the points of the knife and its hardware that can drag.

use kurbo::Point;

use super::number::Number;
use super::plane::{Motion, Place};
use super::{Pose, Profile, Setting};
use crate::units::{Angle, Length};

/// The four underside corners of the fitted knife, on the bar: front and back of the lip, front
/// and back of the body.
#[must_use]
pub fn underside_on_bar(profile: &Profile, setting: &Setting) -> [Point; 4] {
    setting.underside_on_bar(profile).map(Point::from)
}

impl<N: Number> Setting<N> {
    /// The four underside corners of the fitted knife, on the bar.
    pub(crate) fn underside_on_bar(&self, profile: &Profile<N>) -> [Place<N>; 4] {
        let knife = &self.knife;
        let extension = self.total_extension(profile);
        [
            (knife.lip_bottom_behind(), knife.lip_thickness),
            (knife.lip_length, knife.lip_thickness),
            (knife.lip_length, knife.body_thickness),
            (knife.width, knife.body_thickness),
        ]
        .map(|(behind, below)| Place::new((behind - extension).mm(), below.mm()))
    }
}

/// The point that stands lowest by some measure: its place in the list of the hardware, or none if it
/// is the knife's, where it stands on the plate, and how clear; the first of several that stand equally
/// low.
pub(crate) fn lowest_by<N: Number>(
    clear_mm: impl Fn(Place<N>) -> N,
    plate_from_bar: Motion<N>,
    knife_on_bar: [Place<N>; 4],
    hardware_on_bar: impl Iterator<Item = (usize, Place<N>)>,
) -> (Option<usize>, Place<N>, N) {
    let stood = |on_bar| {
        let on_plate = plate_from_bar * on_bar;
        (on_plate, clear_mm(on_plate))
    };
    let [first, others @ ..] = knife_on_bar;
    let (on_plate, clear_mm) = stood(first);
    let mut lowest = (None, on_plate, clear_mm);
    let others = others.iter().map(|on_bar| (None, *on_bar));
    let hardware = hardware_on_bar.map(|(place, on_bar)| (Some(place), on_bar));
    for (place, on_bar) in others.chain(hardware) {
        let (on_plate, clear_mm) = stood(on_bar);
        if clear_mm.re() < lowest.2.re() {
            lowest = (place, on_plate, clear_mm);
        }
    }
    lowest
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
/// `H + r·sin(α − δ)`. None when a point cannot be brought that high.
#[must_use]
pub fn attitude_for_underside(
    pose: &Pose,
    profile: &Profile,
    setting: &Setting,
    hardware_on_bar: impl IntoIterator<Item = Point>,
    clearance: Length,
) -> Option<Angle> {
    let edge = Point::from(setting.edge_on_bar(profile));
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
