//! A reel's diameter over hours or days: what was read, the line through it with its band, and when the
//! limits are met.

use kurbo::{BezPath, Circle, Line, Point, Rect, Shape as _};

use crate::analysis::{Met, WearAhead, WearAlong, WearLimit, WearRate, When};
use crate::drawing::paper::{Anchor, Axis, Panel, Pen, Pencil, Style};
use crate::drawing::scene::Role;
use crate::plate::Day;
use crate::units::{Length, System, fixed, round_up};

/// Sizes of words.
const TITLE: f64 = 12.5;
const NUMBER: f64 = 10.5;
/// Paper for the numbers beside the plot, for the title above and the words below it.
const BESIDE: f64 = 50.0;
const ABOVE: f64 = 22.0;
const BELOW: f64 = 34.0;
/// The least paper between two numbers across.
const APART: f64 = 58.0;
/// How far past the last reading the plot goes at the most, in times what the readings span.
const FURTHEST: f64 = 4.0;
/// The band is drawn while it is no wider than this part of what the plot shows.
const WIDEST_BAND: f64 = 0.6;
/// Steps that the band is drawn in.
const STEPS: u32 = 60;

/// What of the plane a plot shows, and where on the paper.
struct Field {
    frame: Rect,
    along: (f64, f64),
    mm: (f64, f64),
}

impl Field {
    fn x(&self, at: f64) -> f64 {
        let (from, to) = self.along;
        self.frame.x0 + self.frame.width() * (at - from) / (to - from)
    }

    fn y(&self, mm: f64) -> f64 {
        let (from, to) = self.mm;
        self.frame.y1 - self.frame.height() * (mm - from) / (to - from)
    }

    fn point(&self, at: f64, mm: f64) -> Point {
        Point::new(self.x(at), self.y(mm))
    }
}

/// Draws how a reel wears in a rectangle of paper.
#[must_use]
pub fn wear_plot(
    ahead: &WearAhead,
    smallest: Length,
    window: Rect,
    system: System,
    style: impl Into<Style>,
) -> Vec<Panel> {
    let style = style.into();
    let mut words = Pencil::new(style, window);
    let frame = Rect::new(
        window.x0 + words.by_text(BESIDE),
        window.y0 + words.by_text(ABOVE),
        window.x1 - words.by_text(20.0),
        window.y1 - words.by_text(BELOW),
    );
    if ahead.diameters.is_empty() {
        let told = "No reel diameter in the record yet".to_owned();
        words.sized_text(Role::Heading, frame.center(), Anchor::Middle, TITLE, told);
        words.stroke(Role::Note, &frame.to_path(0.1));
        return vec![words.done()];
    }
    let mut drawn = Pencil::new(style, frame);
    let field = field(ahead, smallest, frame);
    if let Ok(rate) = &ahead.rate {
        line_and_band(&mut drawn, rate, &field);
    }
    limits(&mut drawn, &mut words, ahead, &field, system);
    let radius = drawn.by_text(3.6);
    for (at, diameter) in &ahead.diameters {
        let spot = Circle::new(field.point(*at, diameter.mm()), radius);
        drawn.fill(Role::Heading, &spot.to_path(0.01));
    }
    axis_up(&mut words, &field, system);
    axis_across(&mut words, &field, ahead.along);
    let title = Axis::of_length(system).title("reel diameter");
    let above = Point::new(window.x0, window.y0 + words.by_text(0.45 * ABOVE));
    words.sized_text(Role::Heading, above, Anchor::Left, TITLE, title);
    let below = match ahead.along {
        WearAlong::Hours => "machine's hours",
        WearAlong::Days => "date",
    };
    let at = Point::new(frame.center().x, window.y1 - words.by_text(8.0));
    words.sized_text(Role::Note, at, Anchor::Middle, NUMBER, below.to_owned());
    words.stroke(Role::Note, &frame.to_path(0.1));
    vec![drawn.done(), words.done()]
}

/// When a limit is met by the line, where the plot may go so far.
fn reached(ahead: &WearAhead) -> impl Iterator<Item = (WearLimit, f64, f64)> + '_ {
    let limits = ahead.limits.iter();
    limits.filter_map(|(limit, met, when)| match (met, when) {
        (Met::At(diameter), Some(When::Then(_, reached))) => {
            Some((*limit, diameter.mm(), reached.at))
        }
        _ => None,
    })
}

/// What the plot shows: every reading, and the way to the limits as far as that is not many times as long.
fn field(ahead: &WearAhead, smallest: Length, frame: Rect) -> Field {
    let ends = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let (first, last) = ends(&mut ahead.diameters.iter().map(|(at, _)| *at));
    let (smallest_read, largest_read) = ends(&mut ahead.diameters.iter().map(|(_, d)| d.mm()));
    if !(first.is_finite() && smallest_read.is_finite()) {
        let mm = smallest.mm();
        return Field {
            frame,
            along: (0.0, 1.0),
            mm: (mm - 1.0, mm + 1.0),
        };
    }
    let span = (last - first).max(30.0);
    let furthest = last + FURTHEST * span;
    let ahead_to = reached(ahead).map(|(_, _, at)| at).fold(last, f64::max);
    let to = ahead_to.min(furthest);
    let margin = 0.05 * (to - first).max(span);
    let shown = reached(ahead).filter(|(_, _, at)| *at <= to);
    let low = shown.map(|(_, mm, _)| mm).fold(smallest_read, f64::min);
    let low = low.min(smallest.mm());
    let aside = 0.08 * (largest_read - low).max(0.2);
    Field {
        frame,
        along: (first - margin, to + margin),
        mm: (low - aside, largest_read + aside),
    }
}

fn line_and_band(drawn: &mut Pencil, rate: &WearRate, field: &Field) {
    let (from, to) = field.along;
    let at = |step: u32| from + (to - from) * f64::from(step) / f64::from(STEPS);
    let (line_from, line_to) = (rate.expected(from).0, rate.expected(to).0);
    let is_telling = |at: &f64| {
        let off = rate.expected(*at).1;
        off.is_some_and(|off| 2.0 * off.mm() <= WIDEST_BAND * (field.mm.1 - field.mm.0))
    };
    let told: Vec<f64> = (0..=STEPS).map(at).filter(is_telling).collect();
    if told.len() > 1 {
        let edge = |at: f64, side: f64| {
            let (line, off) = rate.expected(at);
            let off = off.unwrap_or(Length::ZERO);
            field.point(at, line.mm() + side * off.mm())
        };
        let mut band = BezPath::new();
        band.move_to(edge(told[0], 1.0));
        for at in &told {
            band.line_to(edge(*at, 1.0));
        }
        for at in told.iter().rev() {
            band.line_to(edge(*at, -1.0));
        }
        band.close_path();
        drawn.body(Role::Band, &band);
    }
    let line = Line::new(
        field.point(from, line_from.mm()),
        field.point(to, line_to.mm()),
    );
    drawn.stroke_with(Role::Heading, &line.to_path(0.1), Pen::Wide(1.8));
}

/// A level line for each limit that is met on the way, and an upright where the line meets it.
fn limits(
    drawn: &mut Pencil,
    words: &mut Pencil,
    ahead: &WearAhead,
    field: &Field,
    system: System,
) {
    let mut taken: Vec<f64> = Vec::new();
    let mut rows = 0;
    for (limit, met, when) in &ahead.limits {
        let Met::At(diameter) = met else { continue };
        let y = field.y(diameter.mm());
        if !(field.frame.y0..=field.frame.y1).contains(&y) {
            continue;
        }
        let (x0, x1) = (field.frame.x0, field.frame.x1);
        drawn.line(Role::CutLine, Point::new(x0, y), Point::new(x1, y));
        let told = format!("{}: {}", limit.word(), system.length(*diameter));
        let room = words.by_text(1.3 * NUMBER);
        let mut at = y - 0.6 * room;
        while taken.iter().any(|other| (other - at).abs() < room) {
            at -= room;
        }
        taken.push(at);
        let place = Point::new(x0 + words.by_text(5.0), at);
        words.sized_text(Role::Heading, place, Anchor::Left, NUMBER, told);
        if let Some(When::Then(along, reached)) = when {
            let x = field.x(reached.at);
            if x <= x1 {
                drawn.line(
                    Role::CentreLine,
                    Point::new(x, y),
                    Point::new(x, field.frame.y0),
                );
                // Each on a row of its own: limits are often met soon after one another.
                let row = words.by_text((0.9 + 1.3 * f64::from(rows)) * NUMBER);
                rows += 1;
                let told = format!("{} {}", limit.word(), along.told(reached.at));
                let wide = words.width_of(Role::Heading, &told, NUMBER);
                let above = Point::new(x - words.by_text(4.0), field.frame.y0 + row);
                let has_room = above.x - wide > x0 && row < 0.4 * field.frame.height();
                if has_room {
                    words.sized_text(Role::Heading, above, Anchor::Right, NUMBER, told);
                }
            }
        }
    }
}

fn axis_up(words: &mut Pencil, field: &Field, system: System) {
    let axis = Axis::of_length(system);
    let (bottom, top) = (axis.place(field.mm.0), axis.place(field.mm.1));
    let least = (top - bottom) / field.frame.height().max(1.0) * words.by_text(26.0);
    for tick in axis.ticks((bottom, top), least) {
        let at = field.y(axis.base(tick.place));
        let x = field.frame.x0;
        let mark = words.by_text(4.0);
        words.line(Role::Note, Point::new(x - mark, at), Point::new(x, at));
        let beside = Point::new(x - 1.5 * mark, at);
        words.sized_text(Role::Note, beside, Anchor::Right, NUMBER, axis.number(tick));
    }
}

fn axis_across(words: &mut Pencil, field: &Field, along: WearAlong) {
    let least =
        (field.along.1 - field.along.0) / field.frame.width().max(1.0) * words.by_text(APART);
    let marks = match along {
        WearAlong::Hours => hours(field.along, least),
        WearAlong::Days => months(field.along, least),
    };
    for (at, number) in marks {
        let x = field.x(at);
        let y = field.frame.y1;
        let mark = words.by_text(4.0);
        words.line(Role::Note, Point::new(x, y), Point::new(x, y + mark));
        let below = Point::new(x, y + words.by_text(11.0));
        words.sized_text(Role::Note, below, Anchor::Middle, NUMBER, number);
    }
}

/// Marks at round hours, no closer than `least`.
fn hours((from, to): (f64, f64), least: f64) -> Vec<(f64, String)> {
    let step = round_up(least.max(1.0));
    let mut at = (from / step).ceil() * step;
    let mut marks = Vec::new();
    while at <= to {
        marks.push((at, fixed(at, 0)));
        at += step;
    }
    marks
}

/// Marks at the beginnings of months or years, no closer than `least` days.
fn months((from, to): (f64, f64), least: f64) -> Vec<(f64, String)> {
    const STEPS: [u32; 10] = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600];
    const DAYS: f64 = 30.4;
    let step = STEPS
        .into_iter()
        .find(|step| f64::from(*step) * DAYS >= least);
    let step = step.unwrap_or(STEPS[STEPS.len() - 1]);
    let Some(first) = Day::of_number(from) else {
        return Vec::new();
    };
    let month_of = |day: Day| {
        let (year, month) = day.year_and_month();
        u32::try_from(year).unwrap_or(0) * 12 + month - 1
    };
    let mut month = month_of(first).div_ceil(step) * step;
    let mut marks = Vec::new();
    while let Some(day) = Day::first_of(month / 12, month % 12 + 1) {
        let at = day.number();
        if at > to {
            break;
        }
        if at >= from {
            let (year, of_year) = (month / 12, month % 12 + 1);
            let number = if step >= 12 {
                format!("{year}")
            } else {
                format!("{year}-{of_year:02}")
            };
            marks.push((at, number));
        }
        month += step;
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> f64 {
        Day::parse(text).unwrap().number()
    }

    #[test]
    fn marks_of_dates_stand_at_the_beginnings_of_months() {
        let numbers = |from: &str, to: &str, least: f64| -> Vec<String> {
            let marks = months((day(from), day(to)), least).into_iter();
            marks
                .map(|(at, number)| {
                    let day = Day::of_number(at).unwrap().to_string();
                    assert!(day.ends_with("-01") && day.starts_with(&number), "{day}");
                    number
                })
                .collect()
        };
        assert_eq!(
            numbers("2025-11-21", "2026-12-24", 80.0),
            ["2026-01", "2026-04", "2026-07", "2026-10"]
        );
        assert_eq!(
            numbers("2025-11-21", "2029-02-01", 300.0),
            ["2026", "2027", "2028", "2029"]
        );
        assert!(numbers("2025-11-21", "2025-11-25", 80.0).is_empty());
    }
}
