//! Where words would like to stand.

use kurbo::{Point, Vec2};

use super::mark::Anchor;

/// From a shelf up to the middle of the words on it, in parts of their size.
pub(super) const OVER_SHELF: f64 = 0.8;
/// What a step down the list of places weighs against lines that the words cover.
const STEP: f64 = 0.5;
const STEP_AMONG_MANY: f64 = 0.05;

/// A place that words would like.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub(super) at: Point,
    pub(super) anchor: Anchor,
    pub(super) is_turned: bool,
    /// The words may be no longer than this.
    pub(super) most: f64,
    /// They may move across to stay on the paper.
    pub(super) may_slide: bool,
    /// A line leads from here to the words, which stand on its shelf.
    pub(super) leader: Option<Point>,
    pub(super) end: LeaderEnd,
    /// The line to the words is an arc about this place.
    pub(super) about: Option<Point>,
    /// What it costs more than the place before it.
    pub(super) step: f64,
    /// The line to it meets its shelf wherever it stands straight under it, not at an end.
    pub(super) is_tee: bool,
}

/// How the line to words ends at what they name (ISO 128-2).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LeaderEnd {
    /// As it comes: what it ends in is drawn already.
    Plain,
    /// At an outline or a line.
    Arrow,
    /// Within an outline.
    Dot,
}

impl Spot {
    pub(super) fn new(at: Point, anchor: Anchor) -> Self {
        Self {
            at,
            anchor,
            is_turned: false,
            most: f64::INFINITY,
            may_slide: false,
            leader: None,
            end: LeaderEnd::Plain,
            about: None,
            step: STEP,
            is_tee: false,
        }
    }

    /// Words whose line is a line of the drawing drawn on, and meets their shelf from straight below.
    pub(super) fn on_tee(self) -> Self {
        Self {
            is_tee: true,
            ..self
        }
    }

    /// One of many about a place, of which the next is hardly worse.
    pub(super) fn among_many(self) -> Self {
        Self {
            step: STEP_AMONG_MANY,
            ..self
        }
    }

    pub(super) fn ending(self, end: LeaderEnd) -> Self {
        Self { end, ..self }
    }

    pub(super) fn sliding(self) -> Self {
        Self {
            may_slide: true,
            ..self
        }
    }

    pub(super) fn at_most(self, most: f64) -> Self {
        Self { most, ..self }
    }

    pub(super) fn turned(self) -> Self {
        Self {
            is_turned: true,
            ..self
        }
    }

    /// Words on a shelf that begins, or ends, at a place to which a line leads.
    pub(super) fn on_shelf(from: Point, to: Point, size: f64) -> Self {
        let anchor = if to.x < from.x {
            Anchor::Right
        } else {
            Anchor::Left
        };
        Self {
            leader: Some(from),
            ..Self::new(to - Vec2::new(0.0, OVER_SHELF * size), anchor)
        }
    }

    /// Words on a shelf to one side of where an arc about a place ends, which is drawn on to there.
    pub(super) fn on_arc(
        about: Point,
        (from, to): (Point, Point),
        anchor: Anchor,
        size: f64,
    ) -> Self {
        Self {
            anchor,
            about: Some(about),
            ..Self::on_shelf(from, to, size)
        }
        .among_many()
    }

    /// The same words to the other side of where the line to them ends.
    pub(super) fn mirrored(self) -> Self {
        let anchor = match self.anchor {
            Anchor::Left => Anchor::Right,
            Anchor::Right => Anchor::Left,
            other => other,
        };
        Self { anchor, ..self }
    }

    /// Words on a shelf that stands upright, read from the right: it goes on from where a line leads to.
    pub(super) fn on_upright_shelf(from: Point, to: Point, size: f64) -> Self {
        let anchor = if to.y > from.y {
            Anchor::Right
        } else {
            Anchor::Left
        };
        Self {
            leader: Some(from),
            ..Self::new(to - Vec2::new(OVER_SHELF * size, 0.0), anchor).turned()
        }
    }
}
