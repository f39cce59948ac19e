//! The adjuster of a roller's end: an eccentric as a clock, a thread and its nut, a stack of shims.

use kurbo::{Arc, Point, Shape as _};

use crate::analysis::plate::Correction;
use crate::drawing::scene::{EXACT, Role, Scene, Shape, Sketch};
use crate::geometry::{Eccentric, EccentricTurn, ShimStack};
use crate::units::{Angle, Length, System, fixed};

/// An eccentric to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClockPicture {
    /// Where it stands.
    pub eccentric: Eccentric,
    /// Where it is turned to, the nearer first; none where that is out of its throw or not known.
    pub turns: Option<[EccentricTurn; 2]>,
}

impl ClockPicture {
    /// An eccentric with its correction.
    #[must_use]
    pub fn of(eccentric: Eccentric, correction: Option<&Correction>) -> Self {
        let turns = match correction {
            Some(Correction::Eccentric { turns, .. }) => *turns,
            _ => None,
        };
        Self { eccentric, turns }
    }
}

const CENTRE: (f64, f64) = (0.0, 20.0);
const RADIUS: f64 = 38.0;

fn on_clock(deg: f64, radius: f64) -> (f64, f64) {
    let (sine, cosine) = deg.to_radians().sin_cos();
    (CENTRE.0 + radius * cosine, CENTRE.1 + radius * sine)
}

fn told(angle: Angle) -> String {
    format!("{}°", fixed(angle.deg(), 1))
}

/// The clock of an eccentric: where it stands, both places it can be turned to, the nearer one ringed.
#[must_use]
pub fn clock_picture(clock: ClockPicture, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.circle(Role::CentreLine, CENTRE, RADIUS);
    sketch.circle(Role::Hardware, CENTRE, 3.0);
    sketch.line(
        Role::Datum,
        on_clock(180.0, RADIUS + 8.0),
        on_clock(0.0, RADIUS + 8.0),
    );
    let now = clock.eccentric.now.deg();
    let mut taken = Vec::new();
    let mut hand = |sketch: &mut Sketch, role, deg: f64, words: &str| {
        let tip = on_clock(deg, RADIUS);
        sketch.line(role, CENTRE, tip);
        sketch.circle(role, tip, 3.4);
        // Words of hands near each other stand on either side.
        let near = taken.iter().filter(|other: &&f64| {
            let apart = (deg - **other).rem_euclid(360.0);
            apart.min(360.0 - apart) < 24.0
        });
        let aside = near.count();
        taken.push(deg);
        let (x, y) = on_clock(deg, RADIUS + 14.0);
        let side = if x < CENTRE.0 { -34.0 } else { 34.0 };
        let down = [0.0, 13.0, -13.0][aside.min(2)];
        sketch.word((CENTRE.0 + side + (x - CENTRE.0), y + down), words);
    };
    if let Some([near, far]) = clock.turns {
        hand(
            &mut sketch,
            Role::CutLine,
            near.to.deg(),
            &format!("to {}", told(near.to)),
        );
        hand(
            &mut sketch,
            Role::Ghost,
            far.to.deg(),
            &format!("or {}", told(far.to)),
        );
        let tip = on_clock(near.to.deg(), RADIUS);
        sketch.scene.add(Role::Clip, Shape::Ring(tip.into()));
        let turn = Arc::new(
            Point::from(CENTRE),
            (0.55 * RADIUS, 0.55 * RADIUS),
            now.to_radians(),
            near.turn.rad(),
            0.0,
        );
        if near.turn.deg().abs() > 4.0 {
            let path = turn.to_path(EXACT);
            sketch.scene.add(Role::CutLine, Shape::Arrow(path));
        }
    }
    hand(
        &mut sketch,
        Role::Roller,
        now,
        &format!("now {}", told(clock.eccentric.now)),
    );
    let throw = system.length(clock.eccentric.throw);
    sketch.word((0.0, -29.0), &format!("throw {throw}; 0° is forward"));
    sketch.word((0.0, 72.0), "up");
    sketch.scene
}

/// A thread with its nut, and how far it is turned.
#[must_use]
pub fn thread_picture(turns: Option<f64>) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.outline(
        Role::Hardware,
        &[(-10.0, -30.0), (10.0, -30.0), (10.0, 74.0), (-10.0, 74.0)],
    );
    for step in 0..13_u8 {
        let y = -28.0 + 8.0 * f64::from(step);
        sketch.line(Role::Hint, (-10.0, y), (10.0, y + 4.0));
    }
    sketch.outline(
        Role::Knife,
        &[(-30.0, 12.0), (30.0, 12.0), (30.0, 32.0), (-30.0, 32.0)],
    );
    if let Some(turns) = turns {
        let (from, to) = if turns < 0.0 {
            (52.0, -4.0)
        } else {
            (-4.0, 52.0)
        };
        sketch.arrow(Role::CutLine, (48.0, from), (48.0, to));
        let told = format!("{} turns", fixed(turns.abs(), 2));
        sketch.word((-66.0, 30.0), &told);
        let flats = format!("{} flats", fixed(turns.abs() * 6.0, 1));
        sketch.word((-66.0, 12.0), &flats);
    }
    sketch.word((66.0, 22.0), "nut");
    sketch.scene
}

/// A stack of shims, each with its thickness.
#[must_use]
pub fn shims_picture(stack: Option<&ShimStack>, system: System) -> Scene {
    let mut sketch = Sketch::new(String::new());
    sketch.outline(
        Role::Hardware,
        &[(-60.0, -30.0), (20.0, -30.0), (20.0, -14.0), (-60.0, -14.0)],
    );
    let pieces: &[Length] = stack.map_or(&[], |stack| &stack.pieces);
    let most = pieces.iter().map(|piece| piece.mm()).fold(1e-9, f64::max);
    let mut y = -14.0;
    for piece in pieces {
        // Eight of them have room, the thickest each twice as high as the thinnest can be.
        let height = 5.0 + 4.0 * piece.mm() / most;
        sketch.outline(
            Role::CutLine,
            &[
                (-56.0, y),
                (16.0, y),
                (16.0, y + height),
                (-56.0, y + height),
            ],
        );
        y += height;
    }
    sketch.outline(
        Role::Hardware,
        &[(-60.0, y), (20.0, y), (20.0, y + 12.0), (-60.0, y + 12.0)],
    );
    let mut told: Vec<(String, u8)> = Vec::new();
    for piece in pieces {
        let text = system.length(*piece);
        match told.last_mut() {
            Some((last, count)) if *last == text => *count += 1,
            _ => told.push((text, 1)),
        }
    }
    for (line, (text, count)) in (0_u8..).zip(&told) {
        let at = (62.0, -8.0 + 13.0 * f64::from(line));
        sketch.word(at, &format!("{count} × {text}"));
    }
    sketch.scene
}
