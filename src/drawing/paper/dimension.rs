//! Dimensions on paper: extension lines, dimension line, arrowheads and text, after ISO 129-1 habits.

use kurbo::{Affine, BezPath, Line, Point, Vec2};

use super::cut::cut_to;
use super::mark::Anchor;
use super::pencil::{Pencil, TEXT_SIZE};
use super::placer::Spot;
use crate::drawing::scene::{Dimension, Direction, Role};

/// Length of an arrowhead; its width is a third of it.
pub(super) const ARROW: f64 = 11.0;
/// From the place measured to where its extension line begins.
const GAP: f64 = 3.0;
/// How far an extension line runs past the dimension line.
const OVERSHOOT: f64 = 6.0;
/// From the dimension line to the paper's border at least.
const BORDER: f64 = 14.0;
/// How many lines of a large number the paper has room for at least.
const OF_PAPER: f64 = 11.0;
/// How much of the paper's width a large number takes at most.
const OF_WIDTH: f64 = 0.45;
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
    /// Draws the dimension on pencil; its lines stand and fall with its number.
    pub(super) fn lay_out(&self, pencil: &mut Pencil, paper_from_world: Affine) {
        let (from, to) = (paper_from_world * self.from, paper_from_world * self.to);
        let mut through =
            paper_from_world * self.through + Vec2::splat(pencil.by_text(self.offset));
        // The line of what is shown stands on the paper too.
        let window = pencil.window;
        let border = pencil.by_text(BORDER);
        if [from, to].iter().any(|place| window.contains(*place)) {
            let inner = window.inset(-border.min(0.5 * window.width().min(window.height())));
            through.x = through.x.clamp(inner.x0, inner.x1.max(inner.x0));
            through.y = through.y.clamp(inner.y0, inner.y1.max(inner.y0));
        }
        let (start, end) = match self.direction {
            Direction::Across => (Point::new(from.x, through.y), Point::new(to.x, through.y)),
            Direction::Up => (Point::new(through.x, from.y), Point::new(through.x, to.y)),
            Direction::Along => {
                let aside = aside(from, to) * pencil.by_text(self.offset);
                (from + aside, to + aside)
            }
        };
        // What is not shown has no number here.
        let is_shown = [from, to].iter().any(|place| window.contains(*place))
            || cut_to(Line::new(start, end), window).is_some();
        if is_shown {
            pencil.together(|pencil| self.between(pencil, from, to, start, end));
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
            Direction::Along => along(start, end),
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
        let forms = std::iter::once(&self.text).chain(&self.shorter);
        let spots = self.spots(pencil, start, end, if is_wide { 0.0 } else { tail });
        pencil.wording(
            Role::Dimension,
            forms.cloned().collect(),
            self.larger_on(pencil) * TEXT_SIZE,
            spots,
        );
    }

    /// How much larger than others its number is: no more than low or narrow paper has room for.
    fn larger_on(&self, pencil: &Pencil) -> f64 {
        let most = pencil.window.height() / (OF_PAPER * pencil.by_text(TEXT_SIZE));
        let wide = pencil.width_of(Role::Dimension, &self.text, TEXT_SIZE);
        let most = most.min(OF_WIDTH * pencil.window.width() / wide.max(1e-9));
        self.larger.min(most.max(1.0))
    }

    /// Where the number would like to stand: on its line, beyond its ends, beside it, and last on a
    /// shelf that a line leads to.
    fn spots(&self, pencil: &Pencil, start: Point, end: Point, tail: f64) -> Vec<Spot> {
        let (gap, size) = (
            pencil.by_text(TEXT_GAP),
            self.larger_on(pencil) * pencil.by_text(TEXT_SIZE),
        );
        // Of the line, what the paper shows.
        let window = pencil.window;
        let shown = |place: Point| match self.direction {
            Direction::Across => Point::new(place.x.max(window.x0).min(window.x1), place.y),
            Direction::Up | Direction::Along => {
                Point::new(place.x, place.y.max(window.y0).min(window.y1))
            }
        };
        let (start, end) = (shown(start), shown(end));
        let middle = start.midpoint(end);
        let most = if tail > 0.0 {
            0.0
        } else {
            (end - start).hypot() - 2.0 * gap
        };
        let line = 0.62 * size + gap;
        let mut spots = match self.direction {
            Direction::Across => {
                let beyond = tail + gap;
                let left = Point::new(start.x.min(end.x) - beyond, middle.y);
                let right = Point::new(start.x.max(end.x) + beyond, middle.y);
                let over = |by: f64| Spot::new(middle + Vec2::new(0.0, by), Anchor::Middle);
                vec![
                    over(-line).at_most(most),
                    Spot::new(left, Anchor::Right),
                    Spot::new(right, Anchor::Left),
                    over(line).sliding(),
                    over(-line).sliding(),
                    over(2.0 * line).sliding(),
                    over(-2.0 * line).sliding(),
                ]
            }
            Direction::Up | Direction::Along => {
                let (top, foot) = (start.y.min(end.y) - tail, start.y.max(end.y) + tail);
                let at = |x: f64, y: f64, anchor| Spot::new(Point::new(x, y), anchor);
                let (left, right) = (middle.x - line, middle.x + line);
                // A number larger than others is read upright.
                let in_line = if self.larger > 1.0 {
                    0.0
                } else {
                    f64::INFINITY
                };
                vec![
                    at(left, middle.y, Anchor::Middle).turned().at_most(most),
                    at(middle.x + gap, middle.y, Anchor::Left).at_most(if tail > 0.0 {
                        0.0
                    } else {
                        f64::INFINITY
                    }),
                    at(middle.x, foot + line, Anchor::Middle).sliding(),
                    // In line with it, read from the right (ISO 129-1).
                    at(middle.x, top - gap, Anchor::Left)
                        .turned()
                        .at_most(in_line),
                    at(middle.x, top - line, Anchor::Middle).sliding(),
                    at(middle.x + gap, foot, Anchor::Left),
                    at(middle.x - gap, foot, Anchor::Right),
                    at(middle.x + gap, top, Anchor::Left),
                    at(middle.x - gap, top, Anchor::Right),
                    at(right, middle.y, Anchor::Middle).turned().at_most(most),
                ]
            }
        };
        spots.extend(pencil.shelves(middle, 34.0 * self.larger));
        spots
    }
}

/// The direction from one place to another, upwards where they are one.
fn along(from: Point, to: Point) -> Vec2 {
    let way = to - from;
    if way.hypot() > 1e-9 {
        way.normalize()
    } else {
        Vec2::new(0.0, -1.0)
    }
}

/// Square to the line between two places: to the right of it, or down from a level one.
fn aside(from: Point, to: Point) -> Vec2 {
    let along = along(from, to);
    let right = Vec2::new(-along.y, along.x);
    if right.x < -1e-9 || (right.x.abs() <= 1e-9 && right.y < 0.0) {
        -right
    } else {
        right
    }
}
