//! What holds the knife: the bed bar above it, the screws, and the hardware measured below.

use kurbo::{BezPath, Point, Rect, Shape as _};

use super::{SideView, label, label_or, line, plate_from_bar};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape, ShownIn, closed};
use crate::geometry::underside_on_bar;

/// Half the width of a head that nobody measured.
const HALF_HEAD_MM: f64 = 4.5;
/// The bar stays as far off the reel's circle.
const CLEAR_MM: f64 = 3.0;
/// How far up the bar the screws reach at most, in parts of its height.
const SHANK_PART: f64 = 0.75;

impl SideView<'_> {
    /// The line of the screws, on the bar: what is fitted is screwed to the same holes.
    pub(super) fn screw_on_bar(&self) -> f64 {
        self.case.unit.profile.knife.reach.mm()
    }

    /// Where the screws' line meets the seat of the knife, on the plate.
    pub(super) fn screw_on_plate(&self) -> Point {
        plate_from_bar(self.case.solution) * Point::new(self.screw_on_bar(), 0.0)
    }

    /// How thick the knife's body is, down from its seat.
    fn body_mm(&self) -> f64 {
        self.case.setting.knife.body_thickness.mm()
    }

    /// The bed bar's section over the knife: no file says what it looks like, but it seats the knife and
    /// clears the reel.
    fn bar_on_bar(&self) -> Option<BezPath> {
        let pose = &self.case.solution.pose;
        let profile = &self.case.unit.profile;
        let centre = plate_from_bar(self.case.solution).inverse() * pose.centre_on_plate;
        let clear = pose.reel_radius_mm + CLEAR_MM;
        // Behind the reel's circle at a height over the seat.
        let behind = |up_mm: f64| {
            let down = centre.y + up_mm;
            let across = (clear * clear - down * down).max(0.0).sqrt();
            centre.x + across
        };
        let [_, lip_back, _, body_back] = underside_on_bar(profile, self.case.setting);
        let screw = self.screw_on_bar();
        let back = body_back.x.max(screw + 2.0 * HALF_HEAD_MM);
        let front = behind(0.0).max(lip_back.x * 0.5).max(0.0);
        let heights = [2.8, 2.2, 1.7, 1.2].map(|part| part * self.body_mm());
        let high = heights
            .into_iter()
            .find(|high| behind(*high) < back - self.body_mm())?;
        let top_front = behind(high).max(front);
        (front < back - self.body_mm()).then(|| {
            closed([
                Point::new(front, 0.0),
                Point::new(top_front, -high),
                Point::new(back, -high),
                Point::new(back, 0.0),
            ])
        })
    }

    /// How far up from the seat the screws' shank is drawn, its front so far back: no file says how long
    /// it is, but it ends in the bed bar, clear of the reel's circle.
    fn shank_up(&self, front: f64) -> f64 {
        let bar = self.bar_on_bar();
        let in_bar = bar.map_or(0.0, |bar| -SHANK_PART * bar.bounding_box().y0);
        let pose = &self.case.solution.pose;
        let centre = plate_from_bar(self.case.solution).inverse() * pose.centre_on_plate;
        let clear = pose.reel_radius_mm + CLEAR_MM;
        let across = front - centre.x;
        if across >= clear {
            return in_bar;
        }
        let circle_foot = centre.y + (clear * clear - across * across).max(0.0).sqrt();
        in_bar.min(-circle_foot).max(0.0)
    }

    pub(super) fn bed_bar(&self, scene: &mut Scene) {
        let Some(bar) = self.bar_on_bar() else {
            return;
        };
        let high = -bar.bounding_box().y0;
        let plate_from_bar = plate_from_bar(self.case.solution);
        let bar = plate_from_bar * bar;
        scene.add(Role::Bar, Shape::Hatch(bar.clone()));
        scene.add(Role::Bar, Shape::Line(bar));
        let back = underside_on_bar(&self.case.unit.profile, self.case.setting)[3].x;
        let at = plate_from_bar * Point::new(back - 2.0, -0.7 * high);
        // One part, one word: it is left out where there is no room for it.
        let word = label(at, (-40.0, -26.0), true, "bed bar".to_owned());
        scene.add_in(ShownIn::Whole, Role::Bar, word);
    }

    /// The screw in its hole, its head let into the knife and as low as the hardware says, its shank only
    /// hinted at; other heads down to the points measured. How wide they are nobody measured.
    pub(super) fn hardware(&self, scene: &mut Scene) {
        let plate_from_bar = plate_from_bar(self.case.solution);
        let screw = self.screw_on_bar();
        let body = self.body_mm();
        let under_screw = |point: &&Point| (point.x - screw).abs() < 2.0 * HALF_HEAD_MM;
        let hardware: Vec<Point> = self.case.unit.hardware_on_bar(self.case.setting).collect();
        let lowest = hardware.iter().filter(under_screw).map(|point| point.y);
        let foot = lowest.reduce(f64::max);
        let [_, lip_back, _, body_back] =
            underside_on_bar(&self.case.unit.profile, self.case.setting);
        let is_in_knife = screw > lip_back.x && screw < body_back.x;
        if is_in_knife {
            let head = screw_head(screw, body, foot.unwrap_or(body));
            let [from, to] = head.neck;
            let shank = Rect::new(from.x, -self.shank_up(from.x), to.x, from.y);
            let shank = plate_from_bar * shank.to_path(EXACT_MM);
            scene.add(Role::Hint, Shape::Fill(shank.clone()));
            scene.add(Role::Hint, Shape::Line(shank));
            let outline = plate_from_bar * head.outline;
            scene.add(Role::Hardware, Shape::Fill(outline.clone()));
            scene.add(Role::Hardware, Shape::Line(outline));
        }
        let mut is_named = false;
        for point in &hardware {
            let is_the_screws =
                is_in_knife && (point.x - screw).abs() < 1e-9 && Some(point.y) == foot;
            if is_the_screws {
                continue;
            }
            let top = body.min(point.y - 0.5);
            let head = Rect::new(point.x - HALF_HEAD_MM, top, point.x + HALF_HEAD_MM, point.y);
            let head = plate_from_bar * head.to_path(EXACT_MM);
            scene.add(Role::Hardware, Shape::Fill(head.clone()));
            scene.add(Role::Hardware, Shape::Line(head));
            // One name tells them all.
            if !std::mem::replace(&mut is_named, true) {
                let at = plate_from_bar * Point::new(point.x, point.y);
                let word = label_or(at, (-40.0, 34.0), true, ["hardware".to_owned()]);
                scene.add_in(ShownIn::Whole, Role::Note, word);
            }
        }
        let reach = foot.unwrap_or(body).max(body);
        let top = -self.shank_up(screw - HALF_HEAD_MM) - 0.5 * CLEAR_MM;
        let axis = plate_from_bar * line((screw, top), (screw, reach + 0.9 * body));
        scene.add(Role::CentreLine, Shape::Line(axis));
        let at = plate_from_bar * Point::new(screw, reach);
        let word = label_or(at, (-34.0, 30.0), true, ["screw".to_owned()]);
        scene.add_in(ShownIn::Whole, Role::Note, word);
    }
}

/// The head of a countersunk screw.
struct ScrewHead {
    outline: BezPath,
    /// Where the shank begins, front and back.
    neck: [Point; 2],
}

/// A countersunk head from its foot up: as wide as its cone, the cone at 90°, down to the shank.
fn screw_head(at: f64, body: f64, foot: f64) -> ScrewHead {
    let shank = (0.5 * body).clamp(1.8, HALF_HEAD_MM);
    let head = 2.0 * shank;
    // Let in at the knife's underside, or deeper where its foot is.
    let face = foot.min(body);
    let cone = (head - shank).min(0.8 * face.max(0.1));
    let narrow = head - cone;
    let neck = [-narrow, narrow].map(|aside| Point::new(at + aside, face - cone));
    ScrewHead {
        outline: closed([
            Point::new(at - head, foot),
            Point::new(at - head, face),
            neck[0],
            neck[1],
            Point::new(at + head, face),
            Point::new(at + head, foot),
        ]),
        neck,
    }
}
