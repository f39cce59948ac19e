//! Laying a scene out on paper: world shapes become marks in paper units that any painter can draw.

use kurbo::{Affine, BezPath, Line, Point, Rect, Shape as _, Vec2};

use super::dimension::arrowhead;
use super::hatch::hatch;
use super::theme::Pen;
use super::{Item, Label, Role, Scene, Shape, ShownIn, Theme, View};

/// Size of ordinary words in paper units.
pub(super) const TEXT_SIZE: f64 = 13.5;
/// How far a flattened curve may stray, in paper units.
const FLATNESS: f64 = 0.15;

/// Where a text's place lies on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Middle of the left side.
    Left,
    /// Middle of the right side.
    Right,
    /// The middle.
    Middle,
    /// Middle of the bottom.
    BottomMiddle,
    /// Bottom left, on the baseline.
    BottomLeft,
}

impl Anchor {
    /// What part of the words, across and down, stands at their place.
    #[must_use]
    pub const fn part(self) -> (f64, f64) {
        match self {
            Self::Left => (0.0, 0.5),
            Self::Right => (1.0, 0.5),
            Self::Middle => (0.5, 0.5),
            Self::BottomMiddle => (0.5, 1.0),
            Self::BottomLeft => (0.0, 1.0),
        }
    }
}

/// One mark on paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Unbroken straight pieces by the role's pen; dashes are cut already.
    Stroke {
        /// What it means.
        role: Role,
        /// Lines only.
        path: BezPath,
        /// Which of the role's pens.
        pen: Pen,
    },
    /// A filled outline.
    Fill {
        /// What it means.
        role: Role,
        /// Lines only, closed.
        path: BezPath,
        /// Filled with the pen's colour rather than the fill's.
        is_ink: bool,
    },
    /// Words.
    Text {
        /// What they mean.
        role: Role,
        /// Where.
        at: Point,
        /// What of them stands there.
        anchor: Anchor,
        /// Size in paper units.
        size: f64,
        /// Read from the right, going up.
        is_turned: bool,
        /// Heavier.
        is_strong: bool,
        /// The words.
        text: String,
    },
}

impl Mark {
    /// Words that may be left out where there is no room.
    fn is_minor(&self) -> bool {
        matches!(
            self,
            Self::Text {
                role: Role::Note | Role::CutLine,
                ..
            }
        )
    }

    /// Roughly the place that words take; nothing for other marks.
    fn words_place(&self) -> Option<Rect> {
        let Self::Text {
            at,
            anchor,
            size,
            is_turned,
            text,
            ..
        } = self
        else {
            return None;
        };
        let (width, height) = (Paper::width_of(text, *size), 1.15 * size);
        let (across, down) = anchor.part();
        let size = if *is_turned {
            (height, width)
        } else {
            (width, height)
        };
        let (across, down) = if *is_turned {
            (down, 1.0 - across)
        } else {
            (across, down)
        };
        let corner = *at - Vec2::new(across * size.0, down * size.1);
        Some(Rect::from_origin_size(corner, size))
    }

    fn move_words(&mut self, by: f64) {
        if let Self::Text { at, .. } = self {
            at.y += by;
        }
    }
}

/// Marks in a rectangle of paper that nothing leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// The rectangle.
    pub window: Rect,
    /// The marks, from the back to the front.
    pub marks: Vec<Mark>,
}

/// Paper being drawn on.
#[derive(Debug)]
pub(super) struct Paper {
    theme: Theme,
    window: Rect,
    marks: Vec<Mark>,
}

impl Paper {
    pub(super) fn new(theme: Theme, window: Rect) -> Self {
        Self {
            theme,
            window,
            marks: Vec::new(),
        }
    }

    /// The marks, words in front of everything.
    pub(super) fn done(mut self) -> Panel {
        self.marks
            .sort_by_key(|mark| matches!(mark, Mark::Text { .. }));
        Panel {
            window: self.window,
            marks: self.marks,
        }
    }

    /// Moves words off words: the important ones stay, minor ones give way or are left out.
    pub(super) fn declutter(&mut self) {
        /// How far words may move to find room, down and up, in the order it is tried.
        const MOVES: [f64; 7] = [0.0, 17.0, -17.0, 34.0, -34.0, 51.0, -51.0];
        let mut taken: Vec<Rect> = Vec::new();
        let mut left_out = Vec::new();
        let mut order: Vec<usize> = (0..self.marks.len()).collect();
        order.sort_by_key(|&index| self.marks[index].is_minor());
        for index in order {
            let mark = &mut self.marks[index];
            let Some(place) = mark.words_place() else {
                continue;
            };
            let room = MOVES
                .into_iter()
                .map(|by| (by, place + Vec2::new(0.0, by)))
                .find(|(by, moved)| {
                    let is_free = taken.iter().all(|other| !other.overlaps(*moved));
                    is_free && (*by == 0.0 || self.window.contains_rect(*moved))
                });
            match room {
                Some((by, moved)) => {
                    mark.move_words(by);
                    taken.push(moved);
                }
                None if mark.is_minor() => left_out.push(index),
                None => taken.push(place),
            }
        }
        left_out.sort_unstable();
        for index in left_out.into_iter().rev() {
            self.marks.remove(index);
        }
    }

    /// The place nearest `x` at which the middle of a text so wide stands inside the paper.
    pub(super) fn room_for(&self, x: f64, width: f64) -> f64 {
        let half = width / 2.0 + 6.0;
        let (least, most) = (self.window.x0 + half, self.window.x1 - half);
        if least < most {
            x.clamp(least, most)
        } else {
            x
        }
    }

    /// Roughly how wide words are; painters know better, layout only needs to choose a side.
    pub(super) fn width_of(text: &str, size: f64) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let letters = text.chars().count() as f64;
        letters * size * 0.54
    }

    pub(super) fn line(&mut self, role: Role, from: Point, to: Point) {
        self.stroke(role, &Line::new(from, to).to_path(FLATNESS));
    }

    pub(super) fn stroke(&mut self, role: Role, path: &BezPath) {
        self.stroke_with(role, path, Pen::Outline);
    }

    pub(super) fn stroke_with(&mut self, role: Role, path: &BezPath, pen: Pen) {
        let look = self.theme.look(role);
        let mut flat = flattened(path);
        if !look.dashes.is_empty() {
            // Only what the paper shows: far in, a whole circle would be some 100 000 dashes.
            flat = shown(&flat, self.window.inflate(40.0, 40.0));
            flat = kurbo::dash(flat.into_iter(), 0.0, look.dashes).collect();
        }
        if !flat.elements().is_empty() {
            self.marks.push(Mark::Stroke {
                role,
                path: flat,
                pen,
            });
        }
    }

    /// Fills with the pen's colour.
    pub(super) fn fill(&mut self, role: Role, outline: &BezPath) {
        self.marks.push(Mark::Fill {
            role,
            path: flattened(outline),
            is_ink: true,
        });
    }

    /// Fills with the fill's colour.
    pub(super) fn body(&mut self, role: Role, outline: &BezPath) {
        self.marks.push(Mark::Fill {
            role,
            path: flattened(outline),
            is_ink: false,
        });
    }

    pub(super) fn text(&mut self, role: Role, at: Point, anchor: Anchor, text: String) {
        self.sized_text(role, at, anchor, TEXT_SIZE, text);
    }

    pub(super) fn sized_text(
        &mut self,
        role: Role,
        at: Point,
        anchor: Anchor,
        size: f64,
        text: String,
    ) {
        let is_strong = matches!(
            role,
            Role::Heading | Role::Clip | Role::Dimension | Role::BelowCut(_) | Role::Overlay(_)
        );
        self.marks.push(Mark::Text {
            role,
            at,
            anchor,
            size,
            is_turned: false,
            is_strong,
            text,
        });
    }

    pub(super) fn turned_text(&mut self, role: Role, at: Point, text: String) {
        self.marks.push(Mark::Text {
            role,
            at,
            anchor: Anchor::BottomMiddle,
            size: TEXT_SIZE,
            is_turned: true,
            is_strong: true,
            text,
        });
    }

    fn hatching(&mut self, role: Role, outline: &BezPath) {
        let Some(hatching) = self.theme.look(role).hatching else {
            return;
        };
        let mut path = BezPath::new();
        for line in hatch(&flattened(outline), hatching, self.window) {
            path.move_to(line.p0);
            path.line_to(line.p1);
        }
        if !path.elements().is_empty() {
            self.marks.push(Mark::Stroke {
                role,
                path,
                pen: Pen::Hatching,
            });
        }
    }

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

    /// Whether words that run from a place to the right, or to the left, stay on the paper.
    pub(super) fn holds(&self, from: Point, towards: f64, width: f64) -> bool {
        let end = from.x + width.copysign(towards);
        let (least, most) = (self.window.x0 + 4.0, self.window.x1 - 4.0);
        (least..=most).contains(&from.x.min(end)) && (least..=most).contains(&from.x.max(end))
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

fn flattened(path: &BezPath) -> BezPath {
    let mut flat = BezPath::new();
    kurbo::flatten(path.elements().iter().copied(), FLATNESS, |element| {
        flat.push(element);
    });
    flat
}

/// The pieces of a flat path that lie in a window.
fn shown(flat: &BezPath, window: Rect) -> BezPath {
    let mut shown = BezPath::new();
    let mut last = None;
    for segment in flat.segments() {
        let kurbo::PathSeg::Line(line) = segment else {
            continue;
        };
        let Some(piece) = cut_to(line, window) else {
            continue;
        };
        if last != Some(piece.p0) {
            shown.move_to(piece.p0);
        }
        shown.line_to(piece.p1);
        last = Some(piece.p1);
    }
    shown
}

/// The part of a line inside a rectangle (Liang and Barsky, 1984).
fn cut_to(line: Line, window: Rect) -> Option<Line> {
    let way = line.p1 - line.p0;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (along, low, high) in [
        (way.x, window.x0 - line.p0.x, window.x1 - line.p0.x),
        (way.y, window.y0 - line.p0.y, window.y1 - line.p0.y),
    ] {
        if along == 0.0 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
        } else {
            let (a, b) = (low / along, high / along);
            from = from.max(a.min(b));
            to = to.min(a.max(b));
        }
    }
    // Ends that are not cut stay as they are, so that pieces still meet.
    let start = if from > 0.0 {
        line.p0 + way * from
    } else {
        line.p0
    };
    let end = if to < 1.0 {
        line.p0 + way * to
    } else {
        line.p1
    };
    (from < to).then(|| Line::new(start, end))
}

/// Lays the shapes that a view shows out on paper.
#[must_use]
pub fn lay_out(scene: &Scene, view: &View, shown_in: ShownIn, theme: Theme) -> Panel {
    let mut paper = Paper::new(theme, view.window);
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
