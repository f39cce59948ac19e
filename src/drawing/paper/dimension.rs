//! Dimensions on paper: extension lines, dimension line, arrowheads and text, after ISO 129-1 habits.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::pencil::{Anchor, Paper, TEXT_SIZE};
use crate::drawing::scene::{Dimension, Direction, Role};

/// Length of an arrowhead; its width is a third of it.
pub(super) const ARROW: f64 = 11.0;
/// From the place measured to where its extension line begins.
const GAP: f64 = 3.0;
/// How far an extension line runs past the dimension line.
const OVERSHOOT: f64 = 6.0;
/// From the dimension line to its text.
const TEXT_GAP: f64 = 4.0;

/// A filled arrowhead with its tip at a place, pointing along a direction.
pub(super) fn arrowhead(tip: Point, direction: Vec2) -> BezPath {
    let along = direction.normalize() * ARROW;
    let aside = Vec2::new(-along.y, along.x) / 6.0;
    let mut head = BezPath::new();
    head.move_to(tip);
    head.line_to(tip - along + aside);
    head.line_to(tip - along - aside);
    head.close_path();
    head
}

impl Dimension {
    /// Draws the dimension on paper.
    pub(super) fn lay_out(&self, paper: &mut Paper, paper_from_world: Affine) {
        let (from, to) = (paper_from_world * self.from, paper_from_world * self.to);
        let through = paper_from_world * self.through;
        match self.direction {
            Direction::Across => {
                let y = through.y + self.offset;
                self.between(paper, from, to, Point::new(from.x, y), Point::new(to.x, y));
            }
            Direction::Up => {
                let x = through.x + self.offset;
                self.between(paper, from, to, Point::new(x, from.y), Point::new(x, to.y));
            }
        }
    }

    /// `start` and `end` are the feet of both places on the dimension line.
    fn between(&self, paper: &mut Paper, from: Point, to: Point, start: Point, end: Point) {
        for (place, foot) in [(from, start), (to, end)] {
            let way = foot - place;
            if way.hypot() > GAP {
                let ahead = way.normalize();
                paper.line(
                    Role::Dimension,
                    place + ahead * GAP,
                    foot + ahead * OVERSHOOT,
                );
            }
        }
        let span = (end - start).hypot();
        let ahead = match self.direction {
            Direction::Across => Vec2::new(if end.x < start.x { -1.0 } else { 1.0 }, 0.0),
            Direction::Up => Vec2::new(0.0, if end.y < start.y { -1.0 } else { 1.0 }),
        };
        let is_wide = span >= 3.2 * ARROW;
        let tail = 2.4 * ARROW;
        if is_wide {
            paper.line(Role::Dimension, start, end);
            paper.fill(Role::Dimension, &arrowhead(start, -ahead));
            paper.fill(Role::Dimension, &arrowhead(end, ahead));
        } else {
            // No room inside: arrowheads from outside, pointing at each other.
            paper.line(Role::Dimension, start - ahead * tail, end + ahead * tail);
            paper.fill(Role::Dimension, &arrowhead(start, ahead));
            paper.fill(Role::Dimension, &arrowhead(end, -ahead));
        }
        self.text(paper, start, end, is_wide, tail);
    }

    fn text(&self, paper: &mut Paper, start: Point, end: Point, is_wide: bool, tail: f64) {
        let width = Paper::width_of(&self.text, TEXT_SIZE);
        let middle = start.midpoint(end);
        let span = (end - start).hypot();
        let text = self.text.clone();
        match self.direction {
            Direction::Across if is_wide && width + 2.0 * TEXT_GAP < span => {
                let at = middle - Vec2::new(0.0, TEXT_GAP);
                paper.text(Role::Dimension, at, Anchor::BottomMiddle, text);
            }
            Direction::Across => {
                let beyond = if is_wide { TEXT_GAP } else { tail + TEXT_GAP };
                let left = Point::new(start.x.min(end.x) - beyond, middle.y);
                let right = Point::new(start.x.max(end.x) + beyond, middle.y);
                if paper.holds(left, -1.0, width) {
                    paper.text(Role::Dimension, left, Anchor::Right, text);
                } else if paper.holds(right, 1.0, width) {
                    paper.text(Role::Dimension, right, Anchor::Left, text);
                } else {
                    let x = paper.room_for(middle.x, width);
                    let below = Point::new(x, middle.y + TEXT_SIZE * 1.1);
                    paper.text(Role::Dimension, below, Anchor::Middle, text);
                }
            }
            Direction::Up if is_wide && width + 2.0 * TEXT_GAP < span => {
                let at = middle - Vec2::new(TEXT_GAP, 0.0);
                paper.turned_text(Role::Dimension, at, text);
            }
            Direction::Up => {
                let foot = start.y.max(end.y) + if is_wide { 0.0 } else { tail };
                let at = Point::new(paper.room_for(middle.x, width), foot + TEXT_SIZE * 0.8);
                paper.text(Role::Dimension, at, Anchor::Middle, text);
            }
        }
    }
}
