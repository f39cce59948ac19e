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
    let at_of = |mark: MapMark| {
        let setting = settings.iter().find(|setting| setting.mark == mark)?;
        let at = setting.at(axes);
        frame.inset(0.5).contains(at).then_some(at)
    };
    let (now, bench, aim) = (
        at_of(MapMark::Now),
        at_of(MapMark::Bench),
        at_of(MapMark::Aim),
    );
    let near = pencil.by_text(ONE_PLACE);
    let apart = |one: Option<Point>, other: Option<Point>| {
        let both = one.zip(other);
        both.map_or(f64::INFINITY, |(one, other)| one.distance(other))
    };
    let (to_bench, to_aim) = (apart(now, bench), apart(now, aim));
    let with_aim = |apart: f64| match apart {
        apart if apart < SAME_PLACE => ", aim",
        apart if apart < near => ", near aim",
        _ => "",
    };
    let of_now = match to_bench {
        apart if apart < SAME_PLACE => ["as set now, as measured", "now, measured"],
        apart if apart < near => ["as set now, near as measured", "now"],
        _ => [MapMark::Now.words(), "now"],
    };
    let of_now = of_now.map(|words| format!("{words}{}", with_aim(to_aim)));
    let of_bench = format!("{}{}", MapMark::Bench.words(), with_aim(apart(bench, aim)));
    let stands_alone = |place: Option<Point>, others: &[Option<Point>]| {
        place.filter(|_| others.iter().all(|other| apart(place, *other) >= near))
    };
    let aim = stands_alone(aim, &[now, bench]);
    let bench = stands_alone(bench, &[now]);
    let marks = [
        (MapMark::Bench, bench, vec![of_bench]),
        (MapMark::Aim, aim, vec![MapMark::Aim.words().to_owned()]),
        (MapMark::Now, now, of_now.to_vec()),
    ];
    let places: Vec<(MapMark, Point)> = marks
        .iter()
        .filter_map(|(mark, at, _)| Some((*mark, (*at)?)))
        .collect();
    // The setting in force has its name before the others.
    for (mark, at, forms) in marks.into_iter().rev() {
        if let Some(at) = at {
            let others = places.iter().filter(|(other, _)| *other != mark);
            let others: Vec<Point> = others.map(|(_, other)| *other).collect();
            name(pencil, frame, at, &others, &forms);
        }
    }
    for (mark, at) in places {
        draw_mark(pencil, mark, at);
    }
}

/// Writes a setting's name beside its mark, on the side away from the nearest other one, or else on
/// another where it stands clear of marks and names; nowhere where there is no such side.
fn name(pencil: &mut Pencil, frame: Rect, at: Point, others: &[Point], forms: &[String]) {
    let (aside, over) = (pencil.by_text(12.0), pencil.by_text(18.0));
    let mark = Size::new(26.0, 26.0) * pencil.style.text;
    let marks = others
        .iter()
        .map(|other| Rect::from_center_size(*other, mark));
    let taken: Vec<Rect> = pencil.words_places().chain(marks).collect();
    let nearest = others
        .iter()
        .min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)));
    let is_right_first = nearest.is_none_or(|other| at.x >= other.x);
    for words in forms {
        let size = Size::new(
            pencil.width_of(Role::Setting, words, SIZE) + pencil.by_text(4.0),
            pencil.by_text(words::LINE * SIZE + 2.0),
        );
        let half = size.width / 2.0;
        let mut ways = [
            Vec2::new(aside + half, 0.0),
            Vec2::new(-aside - half, 0.0),
            Vec2::new(0.0, -over),
            Vec2::new(0.0, over),
        ];
        if !is_right_first {
            ways.swap(0, 1);
        }
        let up_and_down = |middle: Point| {
            let half = size.height / 2.0;
            Point::new(middle.x, middle.y.min(frame.y1 - half).max(frame.y0 + half))
        };
        let places = ways.map(|way| Rect::from_center_size(up_and_down(at + way), size));
        let own = Rect::from_center_size(at, Size::new(aside, aside));
        let free = places.into_iter().find(|place| {
            frame.x0 <= place.x0
                && place.x1 <= frame.x1
                && !place.overlaps(own)
                && !taken.iter().any(|taken| taken.overlaps(*place))
        });
        if let Some(place) = free {
            let middle = place.center();
            pencil.sized_text(Role::Setting, middle, Anchor::Middle, SIZE, words.clone());
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
