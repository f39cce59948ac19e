//! Paper being drawn on: marks in paper units, cut, hatched and kept apart, for any painter.

use kurbo::{BezPath, Line, Point, Rect, Shape as _, Vec2};

use super::hatch::hatch;
use super::theme::{Pen, Theme};
use crate::drawing::scene::Role;

/// Size of ordinary words in paper units.
pub(in crate::drawing) const TEXT_SIZE: f64 = 13.5;
/// How far a flattened curve may stray, in paper units.
pub(in crate::drawing) const FLATNESS: f64 = 0.15;

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
    /// Words of a key.
    fn is_key(&self) -> bool {
        let overlaid = |role: &Role| matches!(role, Role::Overlay(_));
        matches!(self, Self::Text { role, .. } if overlaid(role))
    }

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
pub(in crate::drawing) struct Paper {
    theme: Theme,
    pub(in crate::drawing) window: Rect,
    marks: Vec<Mark>,
    /// What is drawn over the paper afterwards: words keep clear of it.
    reserved: Option<Rect>,
}

impl Paper {
    pub(in crate::drawing) fn new(theme: Theme, window: Rect) -> Self {
        Self {
            theme,
            window,
            marks: Vec::new(),
            reserved: None,
        }
    }

    /// Keeps words clear of a place.
    pub(in crate::drawing) fn reserve(&mut self, place: Rect) {
        self.reserved = Some(place);
    }

    /// The marks, words in front of everything.
    pub(in crate::drawing) fn done(mut self) -> Panel {
        self.marks
            .sort_by_key(|mark| matches!(mark, Mark::Text { .. }));
        Panel {
            window: self.window,
            marks: self.marks,
        }
    }

    /// Moves words off words: the important ones stay, minor ones give way or are left out.
    pub(in crate::drawing) fn declutter(&mut self) {
        /// How far words may move to find room, down and up, in the order it is tried.
        const MOVES: [f64; 7] = [0.0, 17.0, -17.0, 34.0, -34.0, 51.0, -51.0];
        let mut taken: Vec<Rect> = self.reserved.into_iter().collect();
        let mut left_out = Vec::new();
        let mut order: Vec<usize> = (0..self.marks.len()).collect();
        // A key stands where it stands; words on the drawing keep clear of it.
        order.sort_by_key(|&index| (!self.marks[index].is_key(), self.marks[index].is_minor()));
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
    pub(in crate::drawing) fn room_for(&self, x: f64, width: f64) -> f64 {
        let half = width / 2.0 + 6.0;
        let (least, most) = (self.window.x0 + half, self.window.x1 - half);
        if least < most {
            x.clamp(least, most)
        } else {
            x
        }
    }

    /// Roughly how wide words are; painters know better, layout only needs to choose a side.
    pub(in crate::drawing) fn width_of(text: &str, size: f64) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let letters = text.chars().count() as f64;
        letters * size * 0.54
    }

    pub(in crate::drawing) fn line(&mut self, role: Role, from: Point, to: Point) {
        self.stroke(role, &Line::new(from, to).to_path(FLATNESS));
    }

    pub(in crate::drawing) fn stroke(&mut self, role: Role, path: &BezPath) {
        self.stroke_with(role, path, Pen::Outline);
    }

    pub(in crate::drawing) fn stroke_with(&mut self, role: Role, path: &BezPath, pen: Pen) {
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
    pub(in crate::drawing) fn fill(&mut self, role: Role, outline: &BezPath) {
        self.marks.push(Mark::Fill {
            role,
            path: flattened(outline),
            is_ink: true,
        });
    }

    /// Fills with the fill's colour.
    pub(in crate::drawing) fn body(&mut self, role: Role, outline: &BezPath) {
        self.marks.push(Mark::Fill {
            role,
            path: flattened(outline),
            is_ink: false,
        });
    }

    pub(in crate::drawing) fn text(&mut self, role: Role, at: Point, anchor: Anchor, text: String) {
        self.sized_text(role, at, anchor, TEXT_SIZE, text);
    }

    pub(in crate::drawing) fn sized_text(
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

    pub(in crate::drawing) fn turned_text(&mut self, role: Role, at: Point, text: String) {
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

    pub(in crate::drawing) fn hatching(&mut self, role: Role, outline: &BezPath) {
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

    /// Whether words that run from a place to the right, or to the left, stay on the paper.
    pub(in crate::drawing) fn holds(&self, from: Point, towards: f64, width: f64) -> bool {
        let end = from.x + width.copysign(towards);
        let (least, most) = (self.window.x0 + 4.0, self.window.x1 - 4.0);
        (least..=most).contains(&from.x.min(end)) && (least..=most).contains(&from.x.max(end))
    }
}

pub(in crate::drawing) fn flattened(path: &BezPath) -> BezPath {
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
