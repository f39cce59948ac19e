//! Marks: what painters translate.

use kurbo::{BezPath, Point, Rect, Vec2};

use super::look::Pen;
use super::style::Style;
use super::words;
use crate::drawing::scene::Role;

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
    /// Unbroken lines and curves by one of the role's pens; dashes are cut already.
    Stroke {
        /// What it means.
        role: Role,
        /// Curves are kept; a painter that has none flattens them.
        path: BezPath,
        /// Which of the role's pens.
        pen: Pen,
    },
    /// A filled outline.
    Fill {
        /// What it means.
        role: Role,
        /// Closed; curves are kept.
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
        /// Size in paper units, the picture's style counted in.
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
    /// The place that words take; none for other marks.
    pub(super) fn words_place(&self) -> Option<Rect> {
        let Self::Text {
            at,
            anchor,
            size,
            is_turned,
            is_strong,
            text,
            ..
        } = self
        else {
            return None;
        };
        let (width, height) = (words::width(text, *size, *is_strong), words::LINE * size);
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
}

/// Marks in a rectangle of paper that none of them leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// How they were laid out, and so are to be painted.
    pub style: Style,
    /// The rectangle.
    pub window: Rect,
    /// The marks, from the back to the front.
    pub marks: Vec<Mark>,
}
