//! Dimensions on paper: extension lines, dimension line, arrowheads and text, after ISO 129-1 habits.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::mark::Anchor;
use super::pencil::{Pencil, TEXT_SIZE};
use crate::drawing::scene::{Dimension, Direction, Role};

/// Length of an arrowhead; its width is a third of it.
const ARROW: f64 = 11.0;
/// From the place measured to where its extension line begins.
const GAP: f64 = 3.0;
/// How far an extension line runs past the dimension line.
const OVERSHOOT: f64 = 6.0;
/// From the dimension line to its text.
const TEXT_GAP: f64 = 4.0;

impl Pencil {
    /// Draws an arrowhead with its tip at a place, pointing along a direction.
    pub(super) fn arrowhead(&mut self, role: Role, tip: Point, direction: Vec2) {
        let along = direction.normalize() * self.by_text(ARROW);
        let aside = Vec2::new(-along.y, along.x) / 6.0;
        let mut head = BezPath::new();
        head.move_to(tip);
        head.line_to(tip - along + aside);
        head.line_to(tip - along - aside);
        head.close_path();
        self.fill(role, &head);
    }
}

impl Dimension {
    /// Draws the dimension on pencil.
    pub(super) fn lay_out(&self, pencil: &mut Pencil, paper_from_world: Affine) {
        let (from, to) = (paper_from_world * self.from, paper_from_world * self.to);
        let through = paper_from_world * self.through;
        match self.direction {
            Direction::Across => {
                let y = through.y + pencil.by_text(self.offset);
                self.between(pencil, from, to, Point::new(from.x, y), Point::new(to.x, y));
            }
            Direction::Up => {
                let x = through.x + pencil.by_text(self.offset);
                self.between(pencil, from, to, Point::new(x, from.y), Point::new(x, to.y));
            }
        }
    }

    /// `start` and `end` are the feet of both places on the dimension line.
    fn between(&self, pencil: &mut Pencil, from: Point, to: Point, start: Point, end: Point) {
        let (gap, overshoot) = (pencil.by_text(GAP), pencil.by_text(OVERSHOOT));
        for (place, foot) in [(from, start), (to, end)] {
            let way = foot - place;
            if way.hypot() > gap {
                let ahead = way.normalize();
                pencil.line(
                    Role::Dimension,
                    place + ahead * gap,
                    foot + ahead * overshoot,
                );
            }
        }
        let span = (end - start).hypot();
        let ahead = match self.direction {
            Direction::Across => Vec2::new(if end.x < start.x { -1.0 } else { 1.0 }, 0.0),
            Direction::Up => Vec2::new(0.0, if end.y < start.y { -1.0 } else { 1.0 }),
        };
        let arrow = pencil.by_text(ARROW);
        let is_wide = span >= 3.2 * arrow;
        let tail = 2.4 * arrow;
        if is_wide {
            pencil.line(Role::Dimension, start, end);
            pencil.arrowhead(Role::Dimension, start, -ahead);
            pencil.arrowhead(Role::Dimension, end, ahead);
        } else {
            // No room inside: arrowheads from outside, pointing at each other.
            pencil.line(Role::Dimension, start - ahead * tail, end + ahead * tail);
            pencil.arrowhead(Role::Dimension, start, ahead);
            pencil.arrowhead(Role::Dimension, end, -ahead);
        }
        self.text(pencil, start, end, is_wide, tail);
    }

    fn text(&self, pencil: &mut Pencil, start: Point, end: Point, is_wide: bool, tail: f64) {
        let width = pencil.width_of(Role::Dimension, &self.text, TEXT_SIZE);
        let (gap, size) = (pencil.by_text(TEXT_GAP), pencil.by_text(TEXT_SIZE));
        let middle = start.midpoint(end);
        let span = (end - start).hypot();
        let text = self.text.clone();
        match self.direction {
            Direction::Across if is_wide && width + 2.0 * gap < span => {
                let at = middle - Vec2::new(0.0, gap);
                pencil.text(Role::Dimension, at, Anchor::BottomMiddle, text);
            }
            Direction::Across => {
                let beyond = if is_wide { gap } else { tail + gap };
                let left = Point::new(start.x.min(end.x) - beyond, middle.y);
                let right = Point::new(start.x.max(end.x) + beyond, middle.y);
                if pencil.holds(left, -1.0, width) {
                    pencil.text(Role::Dimension, left, Anchor::Right, text);
                } else if pencil.holds(right, 1.0, width) {
                    pencil.text(Role::Dimension, right, Anchor::Left, text);
                } else {
                    let x = pencil.room_for(middle.x, width);
                    let below = Point::new(x, middle.y + size * 1.1);
                    pencil.text(Role::Dimension, below, Anchor::Middle, text);
                }
            }
            Direction::Up if is_wide && width + 2.0 * gap < span => {
                let at = middle - Vec2::new(gap, 0.0);
                pencil.turned_text(Role::Dimension, at, text);
            }
            Direction::Up => {
                let foot = start.y.max(end.y) + if is_wide { 0.0 } else { tail };
                let at = Point::new(pencil.room_for(middle.x, width), foot + size * 0.8);
                pencil.text(Role::Dimension, at, Anchor::Middle, text);
            }
        }
    }
}
