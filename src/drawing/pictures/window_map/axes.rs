//! The axes of the window map: where on paper an attitude and a reel's diameter stand.

use kurbo::{Line, Point, Rect, Shape as _, Vec2};

use crate::analysis::ranges::attitude_range;
use crate::drawing::paper::{Anchor, Axis, Panel, Pencil, Style};
use crate::drawing::scene::Role;
use crate::unit::Unit;
use crate::units::{Angle, Length, System};

/// Size of the numbers, and of the words along an axis.
const NUMBER_SIZE: f64 = 12.5;
const TITLE_SIZE: f64 = 13.0;
/// Paper below the map for numbers and words, and beside it for the words.
const BELOW: f64 = 42.0;
const BESIDE: f64 = 24.0;
/// Paper at the map's right and top, for half of the last number.
const SPARE: f64 = 14.0;
const TICK: f64 = 5.0;
/// The least distance between two marks across, and up.
const ACROSS: f64 = 44.0;
const ACROSS_IN_FRACTIONS: f64 = 56.0;
const UP: f64 = 34.0;

/// A window map's place on paper, with what its axes run over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MapAxes {
    window: Rect,
    frame: Rect,
    attitudes_deg: (f64, f64),
    /// The sizes that the reel has, and those that the paper shows.
    sizes_mm: (f64, f64),
    shown_mm: (f64, f64),
    system: System,
    pub(super) style: Style,
}

impl MapAxes {
    /// The axes of a unit's map in a rectangle of paper.
    #[must_use]
    pub fn of(unit: &Unit, window: Rect, system: System, style: impl Into<Style>) -> Self {
        let style = style.into();
        let (low, high) = attitude_range(&unit.limits);
        let sizes_mm = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
        let (smallest, new) = sizes_mm;
        let shown_mm = if new > smallest {
            sizes_mm
        } else {
            // A reel of one size still wants a strip of paper.
            (0.99 * smallest, 1.01 * new)
        };
        let mut axes = Self {
            window,
            frame: window,
            attitudes_deg: (low.deg(), high.deg()),
            sizes_mm,
            shown_mm,
            system,
            style,
        };
        let pencil = Pencil::new(style, window);
        axes.frame = Rect::new(
            window.x0,
            window.y0 + pencil.by_text(SPARE / 2.0),
            window.x1 - pencil.by_text(SPARE),
            (window.y1 - pencil.by_text(BELOW)).max(window.y0 + pencil.by_text(SPARE)),
        );
        let widest = axes
            .ticks_up(&pencil)
            .map(|(_, number)| pencil.width_of(Role::Note, &number, NUMBER_SIZE))
            .fold(0.0, f64::max);
        let beside = widest + pencil.by_text(BESIDE + TICK + 3.0);
        axes.frame.x0 = (window.x0 + beside).min(axes.frame.x1);
        axes
    }

    /// The paper of the map itself, without its axes.
    #[must_use]
    pub fn frame(&self) -> Rect {
        self.frame
    }

    /// The diameters that the paper shows.
    pub(super) fn diameters(&self) -> (Length, Length) {
        let (least, most) = self.shown_mm;
        (Length::from_mm(least), Length::from_mm(most))
    }

    /// Where an attitude and a diameter stand on paper.
    #[must_use]
    pub fn place(&self, attitude: Angle, diameter: Length) -> Point {
        let part = |value: f64, (low, high): (f64, f64)| (value - low) / (high - low);
        Point::new(
            self.frame.x0 + self.frame.width() * part(attitude.deg(), self.attitudes_deg),
            self.frame.y1 - self.frame.height() * part(diameter.mm(), self.shown_mm),
        )
    }

    /// What a place on paper stands for, the nearest that the unit has.
    #[must_use]
    pub fn setting_at(&self, place: Point) -> (Angle, Length) {
        let within = |part: f64, (low, high): (f64, f64)| low + part * (high - low);
        let across = (place.x - self.frame.x0) / self.frame.width();
        let up = (self.frame.y1 - place.y) / self.frame.height();
        let (low, high) = self.attitudes_deg;
        let (smallest, new) = self.sizes_mm;
        (
            Angle::from_deg(within(across, self.attitudes_deg).min(high).max(low)),
            Length::from_mm(within(up, self.shown_mm).min(new).max(smallest)),
        )
    }

    /// Where the marks up stand on paper, with their numbers.
    fn ticks_up(&self, pencil: &Pencil) -> impl Iterator<Item = (f64, String)> {
        let axis = Axis::of_length(self.system);
        let (low, high) = self.shown_mm;
        let a_point = axis.place(high - low) / self.frame.height().max(1.0);
        let bounds = (axis.place(low), axis.place(high));
        let ticks = axis.ticks(bounds, pencil.by_text(UP) * a_point);
        let at = move |diameter_mm| self.place(Angle::ZERO, Length::from_mm(diameter_mm)).y;
        ticks
            .into_iter()
            .map(move |tick| (at(axis.base(tick.place)), axis.number(tick)))
    }

    /// Where the marks across stand on paper, with their numbers.
    fn ticks_across(&self, pencil: &Pencil) -> impl Iterator<Item = (f64, String)> {
        let axis = Axis::of_angle();
        let (low, high) = self.attitudes_deg;
        let a_point = axis.place(high - low) / self.frame.width().max(1.0);
        let apart = if axis.is_in_fractions() {
            ACROSS_IN_FRACTIONS
        } else {
            ACROSS
        };
        let bounds = (axis.place(low), axis.place(high));
        let ticks = axis.ticks(bounds, pencil.by_text(apart) * a_point);
        let at = move |deg| self.place(Angle::from_deg(deg), self.diameters().0).x;
        ticks
            .into_iter()
            .map(move |tick| (at(axis.base(tick.place)), axis.number(tick)))
    }

    /// The frame with its marks, numbers and words.
    pub(super) fn panel(&self) -> Panel {
        let mut pencil = Pencil::new(self.style, self.window);
        let frame = self.frame;
        pencil.body(Role::Paper, &frame.to_path(0.1));
        let tick = pencil.by_text(TICK);
        let aside = pencil.by_text(3.0);
        let mark = |pencil: &mut Pencil, from: Point, way: Vec2| {
            pencil.stroke(Role::LensFrame, &Line::new(from, from + way).to_path(0.1));
        };
        let up: Vec<_> = self.ticks_up(&pencil).collect();
        for (y, number) in up {
            let foot = Point::new(frame.x0, y);
            mark(&mut pencil, foot, Vec2::new(-tick, 0.0));
            let at = foot - Vec2::new(tick + aside, 0.0);
            pencil.sized_text(Role::Note, at, Anchor::Right, NUMBER_SIZE, number);
        }
        let across: Vec<_> = self.ticks_across(&pencil).collect();
        for (x, number) in across {
            let foot = Point::new(x, frame.y1);
            mark(&mut pencil, foot, Vec2::new(0.0, tick));
            let at = foot + Vec2::new(0.0, pencil.by_text(13.0));
            pencil.sized_text(Role::Note, at, Anchor::Middle, NUMBER_SIZE, number);
        }
        let sizes = (0.75 * TITLE_SIZE, TITLE_SIZE);
        let words = [Axis::of_angle().title("attitude")];
        let found = pencil.longest_fitting(Role::Note, &words, sizes, frame.width());
        if let Some((words, size)) = found {
            let at = Point::new(frame.center().x, self.window.y1 - pencil.by_text(9.0));
            pencil.sized_text(Role::Note, at, Anchor::Middle, size, words.to_owned());
        }
        let axis = Axis::of_length(self.system);
        let words = [
            axis.title("reel diameter, scrap to new"),
            axis.title("reel diameter"),
            axis.title("reel"),
        ];
        let found = pencil.longest_fitting(Role::Note, &words, sizes, frame.height());
        if let Some((words, size)) = found {
            let at = Point::new(self.window.x0 + pencil.by_text(17.0), frame.center().y);
            pencil.sized_turned_text(Role::Note, at, size, words.to_owned());
        }
        pencil.stroke(Role::LensFrame, &frame.to_path(0.1));
        pencil.done()
    }
}
