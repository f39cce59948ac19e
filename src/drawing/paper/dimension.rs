//! Dimensions on paper: extension lines, dimension line, arrowheads and text, after ISO 129-1 habits.

use kurbo::{Affine, BezPath, Line, Point, Vec2};

use super::cut::cut_to;
use super::mark::Anchor;
use super::pencil::{Pencil, TEXT_SIZE};
use super::spot::Spot;
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
const OF_WIDTH: f64 = 0.58;
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
        pencil.larger_wording(
            Role::Dimension,
            forms.cloned().collect(),
            (self.larger_on(pencil) * TEXT_SIZE, self.larger),
            spots,
        );
    }

    /// How much larger than others its number is: no more than low or narrow paper has room for.
    pub(in crate::drawing) fn larger_on(&self, pencil: &Pencil) -> f64 {
        let most = pencil.window.height() / (OF_PAPER * pencil.by_text(TEXT_SIZE));
        let shown = pencil.shown_forms(vec![self.text.clone()], self.larger > 1.0);
        let wide = |form: &String| pencil.width_of(Role::Dimension, form, TEXT_SIZE);
        let wide = shown.iter().map(wide).fold(1e-9, f64::max);
        let most = most.min(OF_WIDTH * pencil.window.width() / wide);
        self.larger.min(most.max(1.0))
    }

    /// Leaves it no form that begins with a verdict.
    pub(in crate::drawing) fn drop_verdict(&mut self) {
        let has_verdict = |form: &String| form.contains(": ");
        if has_verdict(&self.text) && !self.shorter.is_empty() {
            self.text = self.shorter.remove(0);
        }
        self.shorter.retain(|form| !has_verdict(form));
    }

    /// Where the number would like to stand: over its line between the arrowheads, over the line drawn on
    /// past its ends, and last on a shelf that a line leads to; upright lines are read from the right, and
    /// no line runs through a number (ISO 129-1). One larger than others is read level.
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
        let over = 0.62 * size + gap;
        let mut spots = match self.direction {
            Direction::Across => {
                let inside = Spot::new(middle - Vec2::new(0.0, over), Anchor::Middle);
                let (left, right) = (start.x.min(end.x) - tail, start.x.max(end.x) + tail);
                let beyond = |x: f64, by: f64| {
                    let from = Point::new(x, middle.y);
                    Spot::on_shelf(from, from + Vec2::new(by, 0.0), size)
                };
                vec![
                    inside.at_most(most),
                    beyond(left, -gap),
                    beyond(right, gap),
                    beyond(left, -4.0 * gap),
                    beyond(right, 4.0 * gap),
                ]
            }
            Direction::Up | Direction::Along => {
                let (upper, lower) = if start.y <= end.y {
                    (start, end)
                } else {
                    (end, start)
                };
                let top = upper - Vec2::new(0.0, tail);
                let foot = lower + Vec2::new(0.0, tail);
                let inside = Spot::new(middle - Vec2::new(over, 0.0), Anchor::Middle).turned();
                let beyond = |from: Point, by: f64| {
                    Spot::on_upright_shelf(from, from + Vec2::new(0.0, by), size)
                };
                let level = |from: Point, across: f64, down: f64| {
                    Spot::on_shelf(from, from + Vec2::new(across, down), size)
                };
                let levels = [
                    level(top, 0.0, -gap),
                    level(top, -0.001 * gap, -gap),
                    level(foot, 0.0, size + gap),
                    level(foot, -0.001 * gap, size + gap),
                    level(middle, gap + size, 0.0),
                    level(middle, -gap - size, 0.0),
                ];
                // What finds no place to one side of its line stands over it as far across as there is
                // room.
                let moved = [top - Vec2::new(0.0, gap), foot + Vec2::new(0.0, size + gap)];
                let ends = [top, foot];
                let tees = ends
                    .into_iter()
                    .zip(moved)
                    .map(|(from, to)| Spot::on_shelf(from, to, size).sliding().on_tee());
                if self.larger > 1.0 {
                    levels.into_iter().chain(tees).collect()
                } else {
                    let inside = inside.at_most(most);
                    let upright = [beyond(top, -gap), beyond(foot, gap)];
                    // Along the ground's own slope long upright words would run up through the unit.
                    if self.direction == Direction::Along {
                        let first = std::iter::once(inside).chain(levels);
                        first.chain(upright).collect()
                    } else {
                        let first = std::iter::once(inside).chain(upright);
                        first.chain(levels).collect()
                    }
                }
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
