//! Laying a scene out on paper: world shapes become marks in paper units.

use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape as _, Vec2};

use super::mark::{Anchor, Panel};
use super::pencil::{Pencil, TEXT_SIZE};
use super::style::Style;
use super::view::View;
use crate::drawing::scene::{Item, Label, Role, Scene, Shape, ShownIn};

/// Lays the shapes that a view shows out on paper; a theme alone lays them out as for the window.
#[must_use]
pub fn lay_out(scene: &Scene, view: &View, shown_in: ShownIn, style: impl Into<Style>) -> Panel {
    lay_out_around(scene, view, shown_in, style.into(), &[])
}

/// Lays the shapes out with words kept clear of what something else will cover.
pub(in crate::drawing) fn lay_out_around(
    scene: &Scene,
    view: &View,
    shown_in: ShownIn,
    style: Style,
    reserved: &[Rect],
) -> Panel {
    let mut pencil = Pencil::new(style, view.window);
    for place in reserved {
        pencil.reserve(*place);
    }
    let paper_from_world = view.paper_from_world();
    let margin = 20.0 * pencil.style.pen / view.scale;
    let near = view.world().inflate(margin, margin);
    let is_shown = |item: &&Item| item.shown_in == ShownIn::Both || item.shown_in == shown_in;
    for item in scene.items.iter().filter(is_shown) {
        lay_out_item(&mut pencil, item, paper_from_world, near);
    }
    pencil.declutter();
    pencil.done()
}

fn lay_out_item(pencil: &mut Pencil, item: &Item, paper_from_world: Affine, near: Rect) {
    let role = item.role;
    let placed = |path: &BezPath| {
        let is_near = path.bounding_box().inflate(1e-9, 1e-9).overlaps(near);
        is_near.then(|| paper_from_world * path)
    };
    match &item.shape {
        Shape::Line(path) => {
            if let Some(path) = placed(path) {
                pencil.stroke(role, &path);
            }
        }
        Shape::Fill(path) => {
            if let Some(path) = placed(path) {
                pencil.body(role, &path);
            }
        }
        Shape::Hatch(path) => {
            if let Some(path) = placed(path) {
                pencil.body(role, &path);
                pencil.hatching(role, &path);
            }
        }
        Shape::Arrow(path) => {
            if let Some(path) = placed(path) {
                pencil.stroke(role, &path);
                let flat = pencil.flattened(&path);
                let ends: Vec<Point> = flat
                    .elements()
                    .iter()
                    .filter_map(kurbo::PathEl::end_point)
                    .collect();
                // Flattening can leave a last piece of no length, which points nowhere.
                if let Some(&tip) = ends.last()
                    && let Some(&before) = ends.iter().rfind(|end| end.distance(tip) > 1e-6)
                {
                    pencil.arrowhead(role, tip, tip - before);
                }
            }
        }
        Shape::Dimension(dimension) => dimension.lay_out(pencil, paper_from_world),
        Shape::Angle {
            apex,
            from,
            to,
            radius_mm,
            text,
        } => {
            let on_paper = |way: Vec2| paper_from_world * (*apex + way) - paper_from_world * *apex;
            let radius = on_paper(Vec2::new(*radius_mm, 0.0)).hypot();
            pencil.angle(
                paper_from_world * *apex,
                on_paper(*from),
                on_paper(*to),
                radius,
                text,
            );
        }
        Shape::Label(label) => pencil.label(role, label, paper_from_world),
        Shape::Key { row, text } => pencil.key(role, *row, text),
        Shape::Ring(at) => {
            let at = paper_from_world * *at;
            let curved = pencil.curved();
            let (ring, dot) = (pencil.by_text(11.0), pencil.by_text(3.4));
            pencil.stroke(role, &Circle::new(at, ring).to_path(curved));
            pencil.fill(role, &Circle::new(at, dot).to_path(curved));
        }
    }
}

impl Pencil {
    fn label(&mut self, role: Role, label: &Label, paper_from_world: Affine) {
        let at = paper_from_world * label.at;
        let width = self.width_of(role, &label.text, TEXT_SIZE);
        let offset = label.offset * self.style.text;
        let mirrored = Vec2::new(-offset.x, offset.y);
        let offset = if !self.holds(at + offset, offset.x, width)
            && self.holds(at + mirrored, mirrored.x, width)
        {
            mirrored
        } else {
            offset
        };
        let mut to = at + offset;
        if !self.holds(to, offset.x, width) {
            // No side has room for all of it: begin as far in as it takes.
            to.x = self.room_for(to.x + (width / 2.0).copysign(offset.x), width)
                - (width / 2.0).copysign(offset.x);
        }
        // What is labelled is on the paper, so its words are.
        let half = self.by_text(0.7 * TEXT_SIZE);
        if self.window.contains(at) && self.window.height() > 2.0 * half {
            to.y = to.y.clamp(self.window.y0 + half, self.window.y1 - half);
        }
        let sideways = offset.x / self.style.text;
        let anchor = match sideways {
            x if x > 0.5 => Anchor::Left,
            x if x < -0.5 => Anchor::Right,
            _ => Anchor::Middle,
        };
        if label.has_leader {
            self.line(Role::Dimension, at, to);
            let dot = Circle::new(at, self.by_text(2.2)).to_path(self.curved());
            self.fill(Role::Dimension, &dot);
        }
        let aside = Vec2::new(self.by_text(5.0 * sideways.clamp(-1.0, 1.0)), 0.0);
        self.text(role, to + aside, anchor, label.text.clone());
    }

    /// A line of the key: below the strip in which a lens has its title.
    fn key(&mut self, role: Role, row: u8, text: &str) {
        const SAMPLE: f64 = 46.0;
        let start = Point::new(
            self.window.x0 + self.by_text(12.0),
            self.window.y0 + self.by_text(46.0 + 19.0 * f64::from(row)),
        );
        let end = start + Vec2::new(self.by_text(SAMPLE), 0.0);
        self.line(role, start, end);
        let at = end + Vec2::new(self.by_text(8.0), 0.0);
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
        self.stroke(Role::Dimension, &arc.to_path(self.curved()));
        let at = |angle: f64| apex + Vec2::from_angle(angle) * radius;
        let turning =
            Vec2::from_angle(start + sweep + std::f64::consts::FRAC_PI_2) * sweep.signum();
        if sweep.abs() * radius > self.by_text(14.0) {
            self.arrowhead(Role::Dimension, at(start + sweep), turning);
        } else {
            // Too narrow for an arrowhead inside: one from outside.
            let beyond = 0.25 * sweep.signum();
            let tail = kurbo::Arc::new(apex, (radius, radius), start + sweep, beyond, 0.0);
            self.stroke(Role::Dimension, &tail.to_path(self.curved()));
            self.arrowhead(Role::Dimension, at(start + sweep), -turning);
        }
        // Beside the leg it starts from, away from the other leg, if that leg stands upright.
        let aside = self.by_text(8.0);
        let is_upright = from.y.abs() > from.x.abs();
        let (place, is_left) = if is_upright {
            (
                at(start) - Vec2::new(aside.copysign(to.x), aside),
                to.x > 0.0,
            )
        } else {
            let middle = apex + Vec2::from_angle(start + sweep / 2.0) * (radius + aside);
            (middle, middle.x < apex.x)
        };
        // Words that would run off the paper begin where they end on it.
        let width = self.width_of(Role::Dimension, text, TEXT_SIZE);
        let half = (width / 2.0).copysign(if is_left { -1.0 } else { 1.0 });
        let place = Point::new(self.room_for(place.x + half, width) - half, place.y);
        let anchor = if is_left { Anchor::Right } else { Anchor::Left };
        self.text(Role::Dimension, place, anchor, text.to_owned());
    }
}
