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
    /// What the unit is aimed at.
    Aim,
}

impl MapMark {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Now, Self::Bench, Self::Aim];

    /// Its name.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Now => "as set now",
            Self::Bench => "measured",
            Self::Aim => "aim",
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

/// Nearer than this two marks are one.
const ONE_PLACE: f64 = 14.0;
/// Nearer than this, in paper units, they are the same.
const SAME_PLACE: f64 = 0.5;

/// Draws the settings that lie on the map, those of one place as one.
pub(super) fn draw_all(pencil: &mut Pencil, settings: &[MapSetting], axes: &MapAxes) {
    let frame = axes.frame();
    let marked = |mark: MapMark| settings.iter().find(move |setting| setting.mark == mark);
    let on_map = |setting: &&MapSetting| frame.inset(0.5).contains(setting.at(axes));
    let aim = marked(MapMark::Aim).filter(on_map);
    let aim_at = aim.map(|aim| aim.at(axes));
    let mut is_aim_told = false;
    for mark in [MapMark::Bench, MapMark::Now] {
        let Some(setting) = marked(mark).filter(on_map) else {
            continue;
        };
        let at = setting.at(axes);
        let other = settings
            .iter()
            .find(|other| other.mark != mark && other.mark != MapMark::Aim);
        let other = other.map(|other| other.at(axes));
        let apart = other.map_or(f64::INFINITY, |other| other.distance(at));
        let is_one_place = apart < pencil.by_text(ONE_PLACE);
        if is_one_place && mark == MapMark::Bench {
            continue;
        }
        let words = if !is_one_place {
            vec![mark.words()]
        } else if apart < SAME_PLACE {
            vec!["as set now, as measured", "now, measured"]
        } else {
            vec!["as set now, near as measured", "now"]
        };
        let to_aim = aim_at.map_or(f64::INFINITY, |aim| aim.distance(at));
        let aim_words = if to_aim >= pencil.by_text(ONE_PLACE) {
            ""
        } else if to_aim < SAME_PLACE {
            ", the aim"
        } else {
            ", near the aim"
        };
        is_aim_told |= !aim_words.is_empty();
        let words: Vec<String> = words
            .into_iter()
            .map(|words| format!("{words}{aim_words}"))
            .collect();
        // Away from the nearer of the others that stand apart.
        let others = other.filter(|_| !is_one_place).into_iter();
        let others = others.chain(aim_at.filter(|_| aim_words.is_empty()));
        let nearest = others.min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)));
        name(pencil, frame, (at, nearest.unwrap_or(at)), &words);
        draw_mark(pencil, mark, at);
    }
    if let Some(at) = aim_at.filter(|_| !is_aim_told) {
        let marks: Vec<Rect> = settings.iter().map(|setting| setting.place(axes)).collect();
        name_aim(pencil, frame, at, &marks);
        draw_mark(pencil, MapMark::Aim, at);
    }
}

/// Writes the aim's name beside its mark, on the first side where it stands clear of the other marks and
/// their names; nowhere where there is none.
fn name_aim(pencil: &mut Pencil, frame: Rect, at: Point, marks: &[Rect]) {
    let words = MapMark::Aim.words();
    let (aside, over) = (pencil.by_text(12.0), pencil.by_text(18.0));
    let size = Size::new(
        pencil.width_of(Role::Setting, words, SIZE),
        pencil.by_text(words::LINE * SIZE),
    );
    let others = marks.iter().filter(|mark| !mark.contains(at)).copied();
    let taken: Vec<Rect> = pencil.words_places().chain(others).collect();
    let half = size.width / 2.0;
    let spots = [
        Vec2::new(aside + half, 0.0),
        Vec2::new(-aside - half, 0.0),
        Vec2::new(0.0, -over),
        Vec2::new(0.0, over),
    ];
    let places = spots.map(|way| Rect::from_center_size(at + way, size));
    let free = places.into_iter().find(|place| {
        let is_inside = frame.union(*place) == frame;
        is_inside && !taken.iter().any(|taken| taken.overlaps(*place))
    });
    if let Some(place) = free {
        let middle = place.center();
        pencil.sized_text(
            Role::Setting,
            middle,
            Anchor::Middle,
            SIZE,
            words.to_owned(),
        );
    }
}

/// Writes a setting's name on the side away from the other one, or else on the other side, in the
/// longest of some words that have room.
fn name(pencil: &mut Pencil, frame: Rect, (at, other): (Point, Point), forms: &[String]) {
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
            pencil.sized_text(Role::Setting, to, anchor, SIZE, words.clone());
            return;
        }
    }
}

/// Draws a setting's mark: a ring and a dot for the one in force, a diamond for the bench pose, a ring
/// with a cross for what is aimed at.
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
        MapMark::Aim => {
            pencil.body(Role::Paper, &circle(inner + wide));
            pencil.stroke(Role::Setting, &circle(inner));
            let reach = inner + pencil.by_text(3.0);
            for way in [Vec2::new(reach, 0.0), Vec2::new(0.0, reach)] {
                pencil.line(Role::Setting, at - way, at + way);
            }
        }
    }
}
