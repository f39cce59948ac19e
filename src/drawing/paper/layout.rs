//! Laying a scene out on paper: world shapes become marks in paper units.

use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};

use super::dimension::arrowhead;
use super::pencil::{Anchor, FLATNESS, Panel, Paper, TEXT_SIZE, flattened};
use super::theme::Theme;
use super::view::View;
use crate::drawing::scene::{Item, Label, Role, Scene, Shape, ShownIn};

/// Lays the shapes that a view shows out on paper.
#[must_use]
pub fn lay_out(scene: &Scene, view: &View, shown_in: ShownIn, theme: Theme) -> Panel {
    lay_out_around(scene, view, shown_in, theme, None)
}

/// Lays the shapes out with words kept clear of a place that something else will cover.
pub(in crate::drawing) fn lay_out_around(
    scene: &Scene,
    view: &View,
    shown_in: ShownIn,
    theme: Theme,
    reserved: Option<Rect>,
) -> Panel {
    let mut paper = Paper::new(theme, view.window);
    if let Some(place) = reserved {
        paper.reserve(place);
    }
    let paper_from_world = view.paper_from_world();
    let near = view.world().inflate(20.0 / view.scale, 20.0 / view.scale);
    let is_shown = |item: &&Item| item.shown_in == ShownIn::Both || item.shown_in == shown_in;
    for item in scene.items.iter().filter(is_shown) {
        lay_out_item(&mut paper, item, paper_from_world, near);
    }
    paper.declutter();
    paper.done()
}

fn lay_out_item(paper: &mut Paper, item: &Item, paper_from_world: Affine, near: Rect) {
    let role = item.role;
    let placed = |path: &BezPath| {
        let is_near = path.bounding_box().inflate(1e-9, 1e-9).overlaps(near);
        is_near.then(|| paper_from_world * path)
    };
    match &item.shape {
        Shape::Line(path) => {
            if let Some(path) = placed(path) {
                paper.stroke(role, &path);
            }
        }
        Shape::Fill(path) => {
            if let Some(path) = placed(path) {
                paper.body(role, &path);
            }
        }
        Shape::Hatch(path) => {
            if let Some(path) = placed(path) {
                paper.body(role, &path);
                paper.hatching(role, &path);
            }
        }
        Shape::Arrow(path) => {
            if let Some(path) = placed(path) {
                paper.stroke(role, &path);
                let flat = flattened(&path);
                let ends: Vec<Point> = flat
                    .elements()
                    .iter()
                    .filter_map(kurbo::PathEl::end_point)
                    .collect();
                // Flattening can leave a last piece of no length, which points nowhere.
                if let Some(&tip) = ends.last()
                    && let Some(&before) = ends.iter().rfind(|end| end.distance(tip) > 1e-6)
                {
                    paper.fill(role, &arrowhead(tip, tip - before));
                }
            }
        }
        Shape::Dimension(dimension) => dimension.lay_out(paper, paper_from_world),
        Shape::Angle {
            apex,
            from,
            to,
            radius_mm,
            text,
        } => {
            let on_paper = |way: Vec2| paper_from_world * (*apex + way) - paper_from_world * *apex;
            let radius = on_paper(Vec2::new(*radius_mm, 0.0)).hypot();
            paper.angle(
                paper_from_world * *apex,
                on_paper(*from),
                on_paper(*to),
                radius,
                text,
            );
        }
        Shape::Label(label) => paper.label(role, label, paper_from_world),
        Shape::Key { row, text } => paper.key(role, *row, text),
        Shape::Ring(at) => {
            let at = paper_from_world * *at;
            paper.stroke(role, &kurbo::Circle::new(at, 11.0).to_path(FLATNESS));
            paper.fill(role, &kurbo::Circle::new(at, 3.4).to_path(FLATNESS));
        }
    }
}

impl Paper {
    fn label(&mut self, role: Role, label: &Label, paper_from_world: Affine) {
        let at = paper_from_world * label.at;
        let width = Self::width_of(&label.text, TEXT_SIZE);
        let mirrored = Vec2::new(-label.offset.x, label.offset.y);
        let offset = if !self.holds(at + label.offset, label.offset.x, width)
            && self.holds(at + mirrored, mirrored.x, width)
        {
            mirrored
        } else {
            label.offset
        };
        let mut to = at + offset;
        if !self.holds(to, offset.x, width) {
            // No side has room for all of it: begin as far in as it takes.
            to.x = self.room_for(to.x + (width / 2.0).copysign(offset.x), width)
                - (width / 2.0).copysign(offset.x);
        }
        // What is labelled is on the paper, so its words are.
        let half = 0.7 * TEXT_SIZE;
        if self.window.contains(at) && self.window.height() > 2.0 * half {
            to.y = to.y.clamp(self.window.y0 + half, self.window.y1 - half);
        }
        let anchor = match offset.x {
            x if x > 0.5 => Anchor::Left,
            x if x < -0.5 => Anchor::Right,
            _ => Anchor::Middle,
        };
        if label.has_leader {
            self.line(Role::Dimension, at, to);
            let dot = kurbo::Circle::new(at, 2.2).to_path(FLATNESS);
            self.fill(Role::Dimension, &dot);
        }
        let aside = Vec2::new(5.0 * offset.x.clamp(-1.0, 1.0), 0.0);
        self.text(role, to + aside, anchor, label.text.clone());
    }

    /// A line of the key: below the strip in which a lens has its title.
    fn key(&mut self, role: Role, row: u8, text: &str) {
        const SAMPLE: f64 = 46.0;
        let start = Point::new(
            self.window.x0 + 12.0,
            self.window.y0 + 46.0 + 19.0 * f64::from(row),
        );
        let end = start + Vec2::new(SAMPLE, 0.0);
        self.line(role, start, end);
        let at = end + Vec2::new(8.0, 0.0);
        self.text(role, at, Anchor::Left, text.to_owned());
    }

    fn angle(&mut self, apex: Point, from: Vec2, to: Vec2, radius: f64, text: &str) {
        let start = from.atan2();
        let mut sweep = to.atan2() - start;
        if sweep > std::f64::consts::PI {
            sweep -= std::f64::consts::TAU;
        } else if sweep < -std::f64::consts::PI {
            sweep += std::f64::consts::TAU;
        }
        let arc = kurbo::Arc::new(apex, (radius, radius), start, sweep, 0.0);
        self.stroke(Role::Dimension, &arc.to_path(FLATNESS));
        let at = |angle: f64| apex + Vec2::from_angle(angle) * radius;
        let turning =
            Vec2::from_angle(start + sweep + std::f64::consts::FRAC_PI_2) * sweep.signum();
        if sweep.abs() * radius > 14.0 {
            self.fill(Role::Dimension, &arrowhead(at(start + sweep), turning));
        } else {
            // Too narrow for an arrowhead inside: one from outside.
            let beyond = 0.25 * sweep.signum();
            let tail = kurbo::Arc::new(apex, (radius, radius), start + sweep, beyond, 0.0);
            self.stroke(Role::Dimension, &tail.to_path(FLATNESS));
            self.fill(Role::Dimension, &arrowhead(at(start + sweep), -turning));
        }
        // Beside the leg it starts from, away from the other leg, if that leg stands upright.
        let is_upright = from.y.abs() > from.x.abs();
        let (place, is_left) = if is_upright {
            (
                at(start) - Vec2::new(8.0_f64.copysign(to.x), 8.0),
                to.x > 0.0,
            )
        } else {
            let middle = apex + Vec2::from_angle(start + sweep / 2.0) * (radius + 8.0);
            (middle, middle.x < apex.x)
        };
        let anchor = if is_left { Anchor::Right } else { Anchor::Left };
        self.text(Role::Dimension, place, anchor, text.to_owned());
    }
}
