//! The settings marked on the window map, with their names.

use kurbo::{BezPath, Circle, Point, Rect, Shape as _, Size, Vec2};

use super::axes::MapAxes;
use crate::drawing::paper::{Anchor, Pencil, words};
use crate::drawing::scene::Role;
use crate::units::{Angle, Length};

/// Size of the marks' names.
const SIZE: f64 = 12.5;

/// What a mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MapMark {
    /// The setting in force.
    Now,
    /// The bench pose.
    Bench,
}

impl MapMark {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Now, Self::Bench];

    /// Its name.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Now => "as set now",
            Self::Bench => "measured",
        }
    }
}

/// A setting to be marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MapSetting {
    /// What it is.
    pub mark: MapMark,
    /// Its attitude.
    pub attitude: Angle,
    /// Its reel's diameter.
    pub diameter: Length,
}

impl MapSetting {
    fn at(&self, axes: &MapAxes) -> Point {
        axes.place(self.attitude, self.diameter)
    }

    /// The paper that its mark takes.
    pub(super) fn place(&self, axes: &MapAxes) -> Rect {
        let size = Size::new(26.0, 26.0) * axes.style.text;
        Rect::from_center_size(self.at(axes), size)
    }
}

/// Draws the settings that lie on the map, those of one place as one.
pub(super) fn draw_all(pencil: &mut Pencil, settings: &[MapSetting], axes: &MapAxes) {
    let frame = axes.frame();
    for setting in settings {
        let at = setting.at(axes);
        let other = settings.iter().find(|other| other.mark != setting.mark);
        let apart = other.map_or(f64::INFINITY, |other| other.at(axes).distance(at));
        let is_one_place = apart < pencil.by_text(14.0);
        if !frame.inset(0.5).contains(at) || (is_one_place && setting.mark == MapMark::Bench) {
            continue;
        }
        let words = if !is_one_place {
            vec![setting.mark.words()]
        } else if apart < 0.5 {
            vec!["as set now, as measured", "now, measured"]
        } else {
            vec!["as set now, near as measured", "now"]
        };
        let other = other.map_or(at, |other| other.at(axes));
        name(pencil, frame, (at, other), &words);
        draw_mark(pencil, setting.mark, at);
    }
}

/// Writes a setting's name on the side away from the other one, or else on the other side, in the
/// longest of some words that have room.
fn name(pencil: &mut Pencil, frame: Rect, (at, other): (Point, Point), forms: &[&str]) {
    let aside = pencil.by_text(12.0);
    let half = pencil.by_text(words::LINE * SIZE / 2.0 + 2.0);
    let y = at.y.min(frame.y1 - half).max(frame.y0 + half);
    for words in forms {
        let room = aside + pencil.by_text(2.0) + pencil.width_of(Role::Setting, words, SIZE);
        let has_right = at.x + room < frame.x1;
        let has_left = at.x - room > frame.x0;
        let is_right = has_right && (at.x >= other.x || !has_left);
        let (anchor, way) = if is_right {
            (Anchor::Left, aside)
        } else {
            (Anchor::Right, -aside)
        };
        if has_right || has_left {
            let to = Point::new(at.x + way, y);
            pencil.sized_text(Role::Setting, to, anchor, SIZE, (*words).to_owned());
            return;
        }
    }
}

/// Draws a setting's mark: a ring and a dot for the one in force, a diamond for the bench pose.
pub(super) fn draw_mark(pencil: &mut Pencil, mark: MapMark, at: Point) {
    let circle = |radius: f64| Circle::new(at, radius).to_path(0.01);
    let diamond = |size: f64| {
        let mut path = BezPath::new();
        path.move_to(at + Vec2::new(0.0, -size));
        for way in [(size, 0.0), (0.0, size), (-size, 0.0)] {
            path.line_to(at + Vec2::from(way));
        }
        path.close_path();
        path
    };
    let (wide, inner) = (pencil.by_text(1.5), pencil.by_text(6.0));
    match mark {
        MapMark::Now => {
            pencil.body(Role::Paper, &circle(inner + wide));
            pencil.stroke(Role::Setting, &circle(inner));
            pencil.fill(Role::Setting, &circle(pencil.by_text(2.8)));
        }
        MapMark::Bench => {
            let inner = inner + pencil.by_text(0.5);
            pencil.body(Role::Paper, &diamond(inner + pencil.by_text(2.0)));
            pencil.body(Role::Setting, &diamond(inner));
            pencil.stroke(Role::Setting, &diamond(inner));
        }
    }
}
