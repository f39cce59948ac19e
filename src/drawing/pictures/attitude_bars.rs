//! The attitudes that hold every limit, a bar for each size of the reel in its life, knife by knife,
//! with the range that they have in common.

use kurbo::{Line, Point, Rect, Shape as _};

use crate::analysis::knives::{KnifeRow, Life};
use crate::analysis::ranges::attitude_range;
use crate::drawing::paper::{Anchor, Axis, Panel, Pencil, Style, letters};
use crate::drawing::scene::Role;
use crate::unit::Unit;
use crate::units::{Angle, System};

/// Size of the words.
const SIZE: f64 = 12.0;
/// Paper for the knives' names, and below the bars for the numbers.
const NAMES: f64 = 170.0;
const FOOT: f64 = 34.0;
const HEAD: f64 = 18.0;
/// A bar's height, and that of a knife's bars with the paper between knives.
const BAR: f64 = 9.0;
const BETWEEN: f64 = 4.0;
const KNIFE: f64 = 46.0;

/// How high the picture of so many knives is.
#[must_use]
pub fn attitude_bars_height(knives: usize, style: impl Into<Style>) -> f64 {
    let count = f64::from(u32::try_from(knives).unwrap_or(u32::MAX));
    style.into().text * (HEAD + KNIFE * count + FOOT)
}

/// Draws the bars of some knives, those with the most room first, in a rectangle of paper.
#[must_use]
pub fn attitude_bars(
    rows: &[&KnifeRow],
    unit: &Unit,
    now: Angle,
    window: Rect,
    system: System,
    style: impl Into<Style>,
) -> Panel {
    let mut pencil = Pencil::new(style, window);
    let (low, high) = attitude_range(&unit.limits);
    let span = (high.deg() - low.deg()).max(1e-6);
    let frame = Rect::new(
        window.x0 + pencil.by_text(NAMES),
        window.y0 + pencil.by_text(HEAD),
        window.x1 - pencil.by_text(24.0),
        window.y1 - pencil.by_text(FOOT),
    );
    let across = |angle: Angle| frame.x0 + frame.width() * (angle.deg() - low.deg()) / span;
    for (index, row) in (0_u32..).zip(rows) {
        let top = frame.y0 + pencil.by_text(KNIFE * f64::from(index) + 4.0);
        let name = letters::readable(&row.name);
        let room = pencil.by_text(NAMES - 52.0);
        let name = pencil.fitted(Role::Heading, &name, SIZE, room).into_owned();
        let middle = top + pencil.by_text(1.5 * BAR + BETWEEN);
        let at = Point::new(window.x0 + pencil.by_text(2.0), middle);
        pencil.sized_text(Role::Heading, at, Anchor::Left, SIZE, name);
        if let Some(common) = &row.set_once {
            let place = Rect::new(
                across(common.low.at),
                top - pencil.by_text(3.0),
                across(common.high.at),
                top + pencil.by_text(3.0 * BAR + 2.0 * BETWEEN + 3.0),
            );
            pencil.body(Role::Usable, &place.to_path(0.1));
            pencil.stroke(Role::Usable, &place.to_path(0.1));
        }
        for (place, life) in (0_u32..).zip(Life::ALL) {
            let y = top + pencil.by_text(f64::from(place) * (BAR + BETWEEN));
            let beside = Point::new(
                frame.x0 - pencil.by_text(6.0),
                y + pencil.by_text(0.5 * BAR),
            );
            pencil.sized_text(
                Role::Note,
                beside,
                Anchor::Right,
                10.0,
                life.name().to_owned(),
            );
            for window in &row.at(life).windows {
                let bar = Rect::new(
                    across(window.low),
                    y,
                    across(window.high),
                    y + pencil.by_text(BAR),
                );
                pencil.body(Role::Knife, &bar.to_path(0.1));
                pencil.stroke(Role::Frame, &bar.to_path(0.1));
                pencil.stroke(Role::Note, &bar.to_path(0.1));
            }
        }
    }
    axis(&mut pencil, frame, (low, high), across);
    let x = across(now);
    if (frame.x0..=frame.x1).contains(&x) {
        let line = Line::new((x, frame.y0 - pencil.by_text(2.0)), (x, frame.y1));
        pencil.stroke(Role::Vertical, &line.to_path(0.1));
        let told = format!("as set {}", system.angle(now));
        let half = 0.5 * pencil.width_of(Role::Note, &told, SIZE);
        let x = x.clamp(window.x0 + half, (window.x1 - half).max(window.x0 + half));
        let at = Point::new(x, window.y0 + pencil.by_text(0.4 * HEAD));
        pencil.sized_text(Role::Note, at, Anchor::Middle, SIZE, told);
    }
    pencil.done()
}

fn axis(
    pencil: &mut Pencil,
    frame: Rect,
    (low, high): (Angle, Angle),
    across: impl Fn(Angle) -> f64,
) {
    let axis = Axis::of_angle();
    pencil.line(
        Role::Heading,
        Point::new(frame.x0, frame.y1),
        Point::new(frame.x1, frame.y1),
    );
    let least = (high.deg() - low.deg()) * pencil.by_text(36.0) / frame.width().max(1.0);
    for tick in axis.ticks((low.deg(), high.deg()), least) {
        let x = across(Angle::from_deg(tick.place));
        let foot = Point::new(x, frame.y1 + pencil.by_text(4.0));
        pencil.line(Role::Heading, Point::new(x, frame.y1), foot);
        let at = Point::new(x, frame.y1 + pencil.by_text(12.0));
        pencil.sized_text(Role::Note, at, Anchor::Middle, 11.0, axis.number(tick));
    }
    let at = Point::new(frame.center().x, frame.y1 + pencil.by_text(25.0));
    let title = axis.title("attitude that holds every limit");
    pencil.sized_text(Role::Note, at, Anchor::Middle, 11.0, title);
}
