//! What knives give over the reel's life, from new to scrap: a plot on paper, with the limits.

use kurbo::{Line, Point, Rect, Shape as _};

use crate::analysis::knives::{Curve, Measured, SameLine, Trial};
use crate::drawing::paper::{Anchor, Axis, Panel, Pencil, Style};
use crate::drawing::scene::{Role, polyline};
use crate::unit::Unit;
use crate::units::System;

/// A knife's line: its place in the list of knives, which picks its pattern, and its curves.
#[derive(Clone, Debug, PartialEq)]
pub struct LifeLine {
    /// Its place in the list of knives.
    pub place: u8,
    /// Its curves over the reel's diameter, in the order of [`Measured::ALL`].
    pub curves: [Curve; 3],
}

/// Sizes of words.
const TITLE: f64 = 12.5;
const NUMBER: f64 = 10.5;
/// Paper for the numbers beside the plot, for the title above and the words below it.
const BESIDE: f64 = 46.0;
const ABOVE: f64 = 20.0;
const BELOW: f64 = 32.0;
/// How far around the limits and the values in force the plot reaches, in parts of their span.
const REACH: f64 = 1.5;

/// Draws one of the measured numbers over the reel's life in a rectangle of paper. A line that lies on
/// another one is not drawn over it: the key tells of it.
#[must_use]
pub fn life_plot(
    lines: &[LifeLine],
    measured: Measured,
    (unit, trial): (&Unit, &Trial),
    window: Rect,
    system: System,
    style: impl Into<Style>,
) -> Vec<Panel> {
    let style = style.into();
    let mut words = Pencil::new(style, window);
    let index = measured as usize;
    let limits = measured.limits(unit, trial);
    let name_width = |name: &str| words.width_of(Role::Note, name, NUMBER);
    let names = limits.iter().map(|limit| name_width(limit.name));
    let beside = names.fold(words.by_text(18.0), f64::max) + words.by_text(6.0);
    let frame = Rect::new(
        window.x0 + words.by_text(BESIDE),
        window.y0 + words.by_text(ABOVE),
        window.x1 - beside,
        window.y1 - words.by_text(BELOW),
    );
    let (new, scrap) = (unit.new_diameter.mm(), unit.smallest_diameter.mm());
    let curves = lines.iter().map(|line| &line.curves[index]);
    let points = curves
        .clone()
        .flat_map(|curve| curve.pieces.iter().flatten());
    let points = points.map(|point| point[1]);
    let at_limits = limits.iter().map(|limit| limit.at.mm());
    let now_mm = unit.setting.reel_diameter.mm();
    let in_force = curves.filter_map(|curve| nearest(curve, now_mm));
    let (low, high) = span(at_limits.chain(in_force));
    let reach = REACH * (high - low).max(0.5);
    let (drawn_low, drawn_high) = span(points);
    let bottom = drawn_low.max(low - reach).min(low);
    let top = drawn_high.min(high + reach).max(high);
    let margin = 0.08 * (top - bottom).max(0.1);
    let (bottom, top) = if bottom.is_finite() && top.is_finite() {
        (bottom - margin, top + margin)
    } else {
        (-1.0, 1.0)
    };
    let life = (new - scrap).max(1e-9);
    // A reel's life runs from new to scrap.
    let x = |mm: f64| frame.x0 + frame.width() * (new - mm) / life;
    let y = |mm: f64| frame.y1 - frame.height() * (mm - bottom) / (top - bottom);
    let mut drawn = Pencil::new(style, frame);
    for limit in &limits {
        let at = y(limit.at.mm());
        drawn.line(
            Role::Datum,
            Point::new(frame.x0, at),
            Point::new(frame.x1, at),
        );
    }
    let now = x(now_mm);
    let upright = Line::new((now, frame.y0), (now, frame.y1));
    drawn.stroke(Role::CentreLine, &upright.to_path(0.1));
    let same = SameLine::of_all(lines.iter().map(|line| &line.curves));
    let own = lines.iter().zip(same);
    let own = own.filter(|(_, same)| same.in_plot(measured).is_none());
    for (line, _) in own {
        for piece in &line.curves[index].pieces {
            let points = piece.iter().map(|point| (x(point[0]), y(point[1])));
            let path = polyline(points);
            drawn.stroke(Role::Overlay(line.place), &path);
        }
    }
    let axis = Axis::of_small_length(system);
    let per_point = (axis.place(top) - axis.place(bottom)) / frame.height().max(1.0);
    let least = per_point * words.by_text(26.0);
    for tick in axis.ticks((axis.place(bottom), axis.place(top)), least) {
        let at = y(axis.base(tick.place));
        let from = Point::new(frame.x0 - words.by_text(4.0), at);
        words.line(Role::Note, from, Point::new(frame.x0, at));
        let beside = Point::new(frame.x0 - words.by_text(6.0), at);
        words.sized_text(Role::Note, beside, Anchor::Right, NUMBER, axis.number(tick));
    }
    let axis_across = Axis::of_length(system);
    let per_point = (axis_across.place(new) - axis_across.place(scrap)) / frame.width().max(1.0);
    let apart = if axis_across.is_in_fractions() {
        54.0
    } else {
        42.0
    };
    let bounds = (axis_across.place(scrap), axis_across.place(new));
    for tick in axis_across.ticks(bounds, per_point * words.by_text(apart)) {
        let at = x(axis_across.base(tick.place));
        let foot = Point::new(at, frame.y1 + words.by_text(4.0));
        words.line(Role::Note, Point::new(at, frame.y1), foot);
        let below = Point::new(at, frame.y1 + words.by_text(11.0));
        let number = axis_across.number(tick);
        words.sized_text(Role::Note, below, Anchor::Middle, NUMBER, number);
    }
    let below = Point::new(frame.center().x, window.y1 - words.by_text(8.0));
    let title = axis_across.title("reel diameter, new to scrap");
    words.sized_text(Role::Note, below, Anchor::Middle, NUMBER, title);
    let at_lines = limits.iter().map(|limit| (y(limit.at.mm()), limit.name));
    name_limits(&mut words, frame, at_lines.collect());
    let title = axis.title(measured.name());
    let title = words.fitted(Role::Heading, &title, TITLE, window.width());
    let title = title.into_owned();
    let above = Point::new(window.x0, window.y0 + words.by_text(0.45 * ABOVE));
    words.sized_text(Role::Heading, above, Anchor::Left, TITLE, title);
    words.stroke(Role::Note, &frame.to_path(0.1));
    vec![drawn.done(), words.done()]
}

/// Each limit by its name at the end of its line, one over the other where they are close.
fn name_limits(words: &mut Pencil, frame: Rect, mut limits: Vec<(f64, &'static str)>) {
    limits.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut lowest = frame.y1;
    for (at, name) in limits {
        let place = Point::new(frame.x1 + words.by_text(4.0), at.min(lowest));
        lowest = place.y - words.by_text(1.15 * NUMBER);
        words.sized_text(Role::Note, place, Anchor::Left, NUMBER, name.to_owned());
    }
}

/// What a curve gives at a diameter, or where it runs nearest to it; none of a curve that runs nowhere.
fn nearest(curve: &Curve, diameter_mm: f64) -> Option<f64> {
    let points = curve.pieces.iter().flatten();
    let nearest = points.min_by(|one, other| {
        let [one, other] = [one, other].map(|point| (point[0] - diameter_mm).abs());
        one.total_cmp(&other)
    });
    nearest.map(|point| point[1])
}

fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}
