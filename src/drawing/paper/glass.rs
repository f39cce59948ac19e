//! A panel seen through a glass: a place of it enlarged, in the same paper.

use kurbo::{Affine, Rect, TranslateScale};

use super::mark::{Mark, Panel};
use super::style::Style;

impl Panel {
    /// This panel, moved and enlarged, as far as it is seen in a rectangle of paper. Its lines are drawn in
    /// `style`, so that a glass need not make them wider; words that would be cut are left out.
    #[must_use]
    pub fn through_glass(self, glass: TranslateScale, within: Rect, style: Style) -> Self {
        let window = (glass * self.window).intersect(within);
        let marks = self.marks.into_iter().map(|mark| enlarged(mark, glass));
        let is_seen = |mark: &Mark| match mark.words_place() {
            Some(words) => window.contains_rect(words),
            None => true,
        };
        Self {
            style,
            window,
            marks: marks.filter(is_seen).collect(),
        }
    }
}

fn enlarged(mark: Mark, glass: TranslateScale) -> Mark {
    let through = Affine::from(glass);
    match mark {
        Mark::Stroke { role, path, pen } => Mark::Stroke {
            role,
            path: through * path,
            pen,
        },
        Mark::Fill { role, path, is_ink } => Mark::Fill {
            role,
            path: through * path,
            is_ink,
        },
        Mark::Text {
            role,
            at,
            anchor,
            size,
            is_turned,
            is_strong,
            text,
        } => Mark::Text {
            role,
            at: glass * at,
            anchor,
            size: size * glass.scale,
            is_turned,
            is_strong,
            text,
        },
    }
}

#[cfg(test)]
mod tests {
    use kurbo::{Point, Shape as _, Vec2};

    use super::*;
    use crate::drawing::paper::{Anchor, Pen, Theme};
    use crate::drawing::scene::Role;

    #[test]
    fn what_is_held_stays_and_words_that_would_be_cut_go() {
        let words = |text: &str, x| Mark::Text {
            role: Role::Note,
            at: Point::new(x, 50.0),
            anchor: Anchor::Middle,
            size: 5.0,
            is_turned: false,
            is_strong: false,
            text: text.to_owned(),
        };
        let mut path = kurbo::BezPath::new();
        path.move_to((40.0, 50.0));
        path.line_to((60.0, 50.0));
        let window = Rect::new(0.0, 0.0, 100.0, 100.0);
        let line = Mark::Stroke {
            role: Role::Knife,
            path,
            pen: Pen::Outline,
        };
        let panel = Panel {
            style: Style::from(Theme::Light),
            window,
            marks: vec![line, words("held", 50.0), words("at the edge", 5.0)],
        };
        // Three times as large about the middle.
        let held = Vec2::new(50.0, 50.0);
        let glass = TranslateScale::new(held - 3.0 * held, 3.0);
        let style = Style {
            pen: 2.0,
            ..Style::from(Theme::Light)
        };
        let seen = panel.through_glass(glass, window, style);
        assert_eq!((seen.window, seen.style.pen), (window, 2.0));
        let [Mark::Stroke { path, .. }, Mark::Text { at, size, text, .. }] = &seen.marks[..] else {
            panic!("{:?}", seen.marks);
        };
        let bounds = path.bounding_box();
        assert_eq!((bounds.x0, bounds.x1), (20.0, 80.0));
        assert_eq!(
            (*at, *size, text.as_str()),
            (Point::new(50.0, 50.0), 15.0, "held")
        );
    }
}
