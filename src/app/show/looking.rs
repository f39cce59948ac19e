//! Where a room looks: a place of the picture enlarged.

use kurbo::{Point, Rect, TranslateScale, Vec2};

/// The most that a place is enlarged.
const MOST: f64 = 12.0;
/// How much a key and a click enlarge.
pub(super) const BY_KEY: f64 = 1.25;
pub(super) const BY_PLACE: f64 = 3.0;

/// The glass that a picture is seen through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Looking {
    /// How many times as large as by itself the picture is.
    enlarges: f64,
    /// How far it is moved, once enlarged about the paper's origin.
    to: Vec2,
}

impl Default for Looking {
    fn default() -> Self {
        Self {
            enlarges: 1.0,
            to: Vec2::ZERO,
        }
    }
}

impl Looking {
    pub(super) fn glass(self) -> TranslateScale {
        TranslateScale::new(self.to, self.enlarges)
    }

    /// How many times as large as by itself the picture is.
    pub(super) fn enlarges(self) -> f64 {
        self.enlarges
    }

    pub(super) fn is_close(self) -> bool {
        self.enlarges > 1.0
    }

    /// Enlarged by a factor, what is at a place of the paper staying there as far as the picture still
    /// covers its paper.
    pub(super) fn zoomed(self, by: f64, held: Point, paper: Rect) -> Self {
        let scale = (self.enlarges * by).clamp(1.0, MOST);
        let by = scale / self.enlarges;
        let to = held.to_vec2() - by * (held.to_vec2() - self.to);
        Self::covering(to, scale, paper)
    }

    /// Moved as a hand drags the picture.
    pub(super) fn dragged(self, by: Vec2, paper: Rect) -> Self {
        Self::covering(self.to + by, self.enlarges, paper)
    }

    /// All of a frame in view, as large as there is room for.
    pub(super) fn at_frame(self, frame: Rect, paper: Rect) -> Self {
        let seen = self.glass().inverse() * frame;
        let room = (paper.width() / seen.width()).min(paper.height() / seen.height());
        let scale = room.clamp(1.0, MOST);
        let to = paper.center().to_vec2() - scale * seen.center().to_vec2();
        Self::covering(to, scale, paper)
    }

    fn covering(to: Vec2, enlarges: f64, paper: Rect) -> Self {
        let least = (1.0 - enlarges) * Vec2::new(paper.x1, paper.y1);
        let most = (1.0 - enlarges) * Vec2::new(paper.x0, paper.y0);
        let to = Vec2::new(to.x.clamp(least.x, most.x), to.y.clamp(least.y, most.y));
        Self { enlarges, to }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "what is compared comes out exact")]

    use super::*;

    const PAPER: Rect = Rect::new(100.0, 50.0, 500.0, 250.0);

    fn covers(looking: Looking) -> bool {
        let seen = looking.glass() * PAPER;
        seen.inflate(1e-9, 1e-9).contains_rect(PAPER)
    }

    #[test]
    fn what_is_held_stays_and_the_picture_always_covers_its_paper() {
        let held = Point::new(210.0, 130.0);
        let close = Looking::default().zoomed(3.0, held, PAPER);
        assert!((close.glass() * held - held).hypot() < 1e-9 && covers(close));
        let corner = close.dragged(Vec2::new(4000.0, 4000.0), PAPER);
        assert!(covers(corner) && corner.glass() * PAPER.origin() == PAPER.origin());
        let all = corner.zoomed(0.01, held, PAPER);
        assert_eq!(all, Looking::default());
        assert_eq!(all.zoomed(1e6, held, PAPER).enlarges(), MOST);
    }

    #[test]
    fn a_frame_drawn_around_a_place_fills_the_paper_with_it() {
        let frame = Rect::new(300.0, 100.0, 400.0, 150.0);
        let close = Looking::default().at_frame(frame, PAPER);
        assert_eq!((close.glass() * frame, covers(close)), (PAPER, true));
        // Drawn through the glass, it is of what is seen there.
        let closer = close.at_frame(Rect::new(100.0, 50.0, 300.0, 150.0), PAPER);
        assert_eq!(closer.enlarges(), 8.0);
    }
}
