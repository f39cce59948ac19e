//! A roller's runout round its turn, and what it does to the cut along the ground.

use std::f64::consts::TAU;

use kurbo::{Point, Rect};

use crate::analysis::plate::StationRunout;
use crate::drawing::scene::{Role, Scene, Shape, Sketch, closed, polyline};
use crate::plate::{Station, StationReadings};
use crate::units::{Length, System};

/// Beside the key.
const CENTRE: (f64, f64) = (32.0, 22.0);
/// What an indicator reads in the middle of a turn.
const MIDDLE: f64 = 34.0;
/// The furthest reading from there.
const SWING: f64 = 11.0;

/// The place of a line among those of the pictures.
const fn place(station: Station) -> u8 {
    match station {
        Station::Left => 0,
        Station::Middle => 1,
        Station::Right => 2,
    }
}

fn at(turned: f64, radius: f64) -> Point {
    let (sine, cosine) = turned.sin_cos();
    Point::new(CENTRE.0 + radius * cosine, CENTRE.1 + radius * sine)
}

/// Readings of every station round the turn, with the circle fitted to each, largely drawn.
#[must_use]
pub fn turn_picture(read: &[StationReadings], stations: &[StationRunout]) -> Scene {
    let mut sketch = Sketch::new(String::new());
    // With room for its words over it and under it, on a page too.
    sketch.scene.bounds = Rect::new(-100.0, -40.0, 100.0, 84.0);
    sketch.circle(Role::CentreLine, CENTRE, MIDDLE);
    for quarter in 0..4_u8 {
        let turned = f64::from(quarter) * TAU / 4.0;
        let (from, to) = (at(turned, 4.0), at(turned, MIDDLE + SWING + 1.0));
        sketch.line(Role::Datum, (from.x, from.y), (to.x, to.y));
        // Past the ends of both lines; words are wider than they are high.
        let past = if quarter % 2 == 0 { 16.0 } else { 6.5 };
        let words = at(turned, MIDDLE + SWING + past);
        sketch.word((words.x, words.y), &format!("{}°", u16::from(quarter) * 90));
    }
    let furthest = read
        .iter()
        .zip(stations)
        .flat_map(|(read, station)| {
            let mean = station.circle.mean;
            read.readings
                .iter()
                .map(move |(_, at)| (*at - mean).mm().abs())
        })
        .fold(1e-6, f64::max);
    let scale = SWING / furthest;
    for (line, (read, station)) in (0_u8..).zip(read.iter().zip(stations)) {
        let role = Role::Overlay(place(station.station));
        let circle = &station.circle;
        let (a, b) = (
            circle.out_of_centre.cosine.mm(),
            circle.out_of_centre.sine.mm(),
        );
        let fitted = closed((0..72_u8).map(|step| {
            let turned = f64::from(step) * TAU / 72.0;
            at(
                turned,
                MIDDLE + scale * (a * turned.cos() + b * turned.sin()),
            )
        }));
        sketch.scene.add(role, Shape::Line(fitted));
        for (angle, reading) in &read.readings {
            let point = at(angle.rad(), MIDDLE + scale * (*reading - circle.mean).mm());
            sketch.circle(role, (point.x, point.y), 1.6);
        }
        let text = station.station.word().to_owned();
        let key = Shape::Key { row: line, text };
        sketch.scene.add(role, key);
    }
    sketch.scene
}

/// What a roller's runout does to the cut along the ground: up and down by so much once a turn.
#[must_use]
pub fn ground_band_picture(rise: Length, pitch: Length, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.ground(Role::Soil);
    let (low, high) = (22.0, 42.0);
    let along = |x: f64| 0.5 * (low + high) - 0.5 * (high - low) * (TAU * (x + 70.0) / 70.0).cos();
    let wave = polyline((0..=96_u8).map(|step| {
        let x = -96.0 + 2.0 * f64::from(step);
        (x, along(x))
    }));
    for y in [low, high] {
        sketch.line(Role::Datum, (-96.0, y), (96.0, y));
    }
    sketch.scene.add(Role::CutLine, Shape::Line(wave));
    sketch.number = system.length(rise);
    sketch.upwards(84.0, low, high);
    sketch.number = system.length(pitch);
    sketch.across_at((-70.0, low), (0.0, low), 8.0);
    sketch.word((-40.0, 62.0), "cut, once a turn");
    sketch.scene
}

impl Sketch {
    /// A length along the ground with its number, its line at a height.
    fn across_at(&mut self, from: (f64, f64), to: (f64, f64), height: f64) {
        let dimension = crate::drawing::scene::Dimension {
            from: from.into(),
            to: to.into(),
            direction: crate::drawing::scene::Direction::Across,
            through: Point::new(from.0, height),
            offset: 0.0,
            larger: 1.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, Shape::Dimension(dimension));
    }
}
