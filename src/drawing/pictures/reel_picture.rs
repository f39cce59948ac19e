//! A small picture of each other way to the reel's diameter: the reel from its end, not to scale.

use std::f64::consts::PI;

use crate::analysis::ReelWay;
use crate::drawing::scene::{Role, Scene, Sketch};

/// The reel of the pictures.
const RADIUS: f64 = 44.0;
const CENTRE: (f64, f64) = (-34.0, 22.0);
const BAR: f64 = 7.0;
/// Where the dimension stands.
const READ_AT: f64 = 56.0;
/// Blades past so many are no more than a blur.
const MOST_DRAWN: u32 = 16;

/// The picture of a way on a reel of so many blades, `number` written at its dimension.
#[must_use]
pub fn reel_picture(way: ReelWay, blades: u32, number: String) -> Scene {
    let mut sketch = Sketch::new(number);
    let tips = tips(blades);
    sketch.circle(Role::ReelRim, CENTRE, RADIUS);
    sketch.circle(Role::Blade, CENTRE, 5.0);
    for (x, y) in &tips {
        let inner = |middle: f64, at: f64| middle + 0.72 * (at - middle);
        let root = (inner(CENTRE.0, *x), inner(CENTRE.1, *y));
        sketch.line(Role::Blade, (*x, *y), root);
    }
    match way {
        ReelWay::Tips => sketch.over_tips(&tips),
        ReelWay::Bars => sketch.over_bars(),
        ReelWay::Tape | ReelWay::DiameterTape => sketch.round(&tips),
    }
    sketch.scene
}

/// The tips, so turned that two of those farthest apart stand over one another.
fn tips(blades: u32) -> Vec<(f64, f64)> {
    // A blur keeps being even or odd.
    let drawn = if blades > MOST_DRAWN {
        MOST_DRAWN - blades % 2
    } else {
        blades.max(1)
    };
    let count = f64::from(drawn);
    let across = if drawn % 2 == 0 { PI } else { PI - PI / count };
    let tip = |blade: u32| {
        let angle = 0.5 * across + 2.0 * PI * f64::from(blade) / count;
        let (sin, cos) = angle.sin_cos();
        (CENTRE.0 + RADIUS * cos, CENTRE.1 + RADIUS * sin)
    };
    (0..drawn).map(tip).collect()
}

impl Sketch {
    fn over_tips(&mut self, tips: &[(f64, f64)]) {
        let Some((x, y)) = tips.first().copied() else {
            return;
        };
        let below = 2.0 * CENTRE.1 - y;
        self.line(Role::CutLine, (x, y), (x, below));
        self.read_between(x, below, y);
        self.word((30.0, CENTRE.1), "over the tips");
    }

    fn over_bars(&mut self) {
        let (left, right) = (CENTRE.0 - 14.0, CENTRE.0 + 14.0);
        for (from, to) in [
            (CENTRE.1 + RADIUS, CENTRE.1 + RADIUS + BAR),
            (CENTRE.1 - RADIUS - BAR, CENTRE.1 - RADIUS),
        ] {
            let corners = [(left, from), (right, from), (right, to), (left, to)];
            self.hatched(Role::Hardware, &corners);
        }
        let reach = RADIUS + BAR;
        self.read_between(right, CENTRE.1 - reach, CENTRE.1 + reach);
        self.word((30.0, CENTRE.1), "over the bars");
    }

    /// A tape straight from tip to tip.
    fn round(&mut self, tips: &[(f64, f64)]) {
        let next = tips.iter().skip(1).chain(tips.first());
        for (from, to) in tips.iter().zip(next) {
            self.line(Role::CutLine, *from, *to);
        }
        self.word((44.0, CENTRE.1 + 10.0), "tape round the tips");
        let number = self.number.clone();
        self.word((44.0, CENTRE.1 - 8.0), &number);
    }

    fn read_between(&mut self, x: f64, below: f64, above: f64) {
        for y in [below, above] {
            self.line(Role::Datum, (x, y), (READ_AT + 4.0, y));
        }
        self.upwards(READ_AT, below, above);
    }
}
