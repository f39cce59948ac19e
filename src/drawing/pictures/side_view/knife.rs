//! The knife's section.

use kurbo::{BezPath, Point, Rect};

use super::{SideView, label, plate_from_bar};
use crate::analysis::Case;
use crate::drawing::scene::{Role, Scene, Shape, ShownIn, closed};
use crate::geometry::{Setting, underside_on_bar};
use crate::units::Angle;

impl SideView<'_> {
    pub(super) fn knife(&self, scene: &mut Scene) {
        let outline = knife_outline(&self.case);
        scene.add(Role::Knife, Shape::Hatch(outline.clone()));
        scene.add(Role::Knife, Shape::Line(outline));
        let plate_from_bar = plate_from_bar(self.case.solution);
        let setting = self.case.setting;
        let inside = plate_from_bar
            * Point::new(
                self.case.setting.edge_on_bar(&self.case.unit.profile).x + 2.5,
                0.6 * setting.knife.lip_thickness.mm(),
            );
        let text = "knife".to_owned();
        scene.add_in(
            ShownIn::Lens,
            Role::Knife,
            label(inside, (-20.0, 62.0), true, text),
        );
        let back = underside_on_bar(&self.case.unit.profile, setting)[3];
        let at = plate_from_bar * Point::new(back.x - 1.0, 0.5 * back.y);
        let word = label(at, (-30.0, 16.0), true, "knife".to_owned());
        scene.add_in(ShownIn::Whole, Role::Knife, word);
    }

    /// What its lip takes of the plate's plane: from the edge to where the body begins behind it.
    pub(in crate::drawing) fn lip_bounds(&self) -> Rect {
        let corners = underside_on_bar(&self.case.unit.profile, self.case.setting);
        let [front, _, body, _] = corners.map(|corner| plate_from_bar(self.case.solution) * corner);
        let edge = self.case.solution.pose.edge_on_plate;
        Rect::from_points(edge, front).union_pt(body)
    }

    /// The foremost point under the edge, on the plate.
    pub(super) fn lip_on_plate(&self) -> Point {
        let lip = underside_on_bar(&self.case.unit.profile, self.case.setting)[0];
        plate_from_bar(self.case.solution) * lip
    }
}

/// The knife's section on the plate: the ground top face as far as the lip, the ground front face.
///
/// A top face of known angle falls by it, into the reel's circle if need be. Where nobody gave one
/// and the datum would run into the reel behind the edge, it is drawn relieved, down to the tangent
/// at the edge: a real one is ground so, by how much nobody measured.
pub(in crate::drawing::pictures) fn knife_outline(case: &Case) -> BezPath {
    let setting: &Setting = case.setting;
    let profile = &case.unit.profile;
    let edge = Point::from(setting.edge_on_bar(profile));
    let [lip_front, lip_back, body_front, body_back] = underside_on_bar(profile, setting);
    let mut corners = vec![edge];
    let mut top_end = lip_back.x;
    let deepest = setting.knife.lip_thickness.mm().max(edge.y) * 0.8;
    let pose = &case.solution.pose;
    let into_reel_rad = pose.attitude.rad() - pose.sweep().clip_angle.rad();
    if into_reel_rad > 0.0 {
        // The datum leaves the reel's circle again at the far end of a chord.
        let chord = 2.0 * pose.edge_to_centre_mm().hypot() * into_reel_rad.sin();
        top_end = top_end.max(edge.x + chord).min(body_back.x);
    }
    let falls_rad = setting.knife.top_angle.map_or(into_reel_rad, Angle::rad);
    if falls_rad > 0.0 {
        let relief = (top_end - edge.x) * falls_rad.tan();
        corners.push(Point::new(top_end, (edge.y + relief).min(deepest)));
    }
    // Where the relief runs as far as the back, no step is left to climb.
    if top_end < body_back.x {
        corners.push(Point::new(top_end, edge.y));
        if edge.y > 0.0 {
            corners.push(Point::new(top_end, 0.0));
        }
        corners.push(Point::new(body_back.x, 0.0));
    }
    corners.extend([body_back, body_front, lip_back, lip_front]);
    plate_from_bar(case.solution) * closed(corners)
}
