//! A small picture of each step of the height budget: what it is, drawn large, not to scale.

use kurbo::{Arc, Point, Shape as _};

use crate::analysis::Level;
use crate::analysis::why::StepKind;
use crate::drawing::scene::{EXACT, Role, Scene, Shape, Sketch, WIDE};

/// The picture of a step, `number` written at its dimension.
#[must_use]
pub fn step_picture(kind: StepKind, number: String) -> Scene {
    let mut picture = Sketch::new(number);
    match kind {
        StepKind::HeightOfCut => picture.height_of_cut(),
        StepKind::RollerSink => picture.sink(),
        StepKind::Crest => picture.crest(),
        StepKind::Hollow => picture.hollow(),
        StepKind::RollerRunout => picture.runout(),
        StepKind::EndDifference => picture.ends(),
        StepKind::Sweep => picture.sweep(),
        StepKind::Underside => picture.underside(),
    }
    picture.scene
}

impl Sketch {
    fn height_of_cut(&mut self) {
        self.ground(Role::Plate);
        self.knife((0.0, 36.0));
        self.line(Role::CutLine, (-20.0, 36.0), (95.0, 36.0));
        self.upwards(40.0, 0.0, 36.0);
        self.word((-52.0, 64.0), "knife");
        self.word((78.0, -11.0), "plate");
    }

    fn sink(&mut self) {
        self.hatched(
            Role::Soil,
            &[(-WIDE, -36.0), (-WIDE, 14.0), (WIDE, 14.0), (WIDE, -36.0)],
        );
        self.roller((-10.0, 36.0), 34.0);
        self.line(Role::Datum, (-10.0, 2.0), (70.0, 2.0));
        self.upwards(58.0, 2.0, 14.0);
        self.word((-72.0, 24.0), "turf");
    }

    /// A crest for a rise of the middle over its ends, which stand at `base`, a hollow for a fall.
    fn arc(&mut self, base: f64, up: f64) {
        let half = 100.0_f64;
        let radius = (half * half + up * up) / (2.0 * up.abs());
        let centre = Point::new(0.0, base + up - radius.copysign(up));
        let turn = (half / radius).asin();
        let middle = std::f64::consts::FRAC_PI_2.copysign(up);
        let arc = Arc::new(centre, (radius, radius), middle + turn, -2.0 * turn, 0.0);
        let mut soil = arc.to_path(EXACT);
        self.scene.add(Role::Soil, Shape::Line(soil.clone()));
        let end = if up > 0.0 { 100.0 } else { -100.0 };
        soil.line_to((end, -34.0));
        soil.line_to((-end, -34.0));
        soil.close_path();
        self.scene.add(Role::Soil, Shape::Hatch(soil));
    }

    fn crest(&mut self) {
        self.arc(0.0, 16.0);
        self.roller((-80.0, 22.0), 16.0);
        self.roller((80.0, 22.0), 16.0);
        self.line(Role::Datum, (-80.0, 6.0), (80.0, 6.0));
        self.knife((0.0, 40.0));
        self.upwards(24.0, 6.0, 15.1);
    }

    fn hollow(&mut self) {
        self.arc(16.0, -16.0);
        self.roller((-80.0, 26.0), 16.0);
        self.roller((80.0, 26.0), 16.0);
        self.line(Role::Datum, (-80.0, 10.0), (80.0, 10.0));
        self.knife((0.0, 44.0));
        self.upwards(24.0, 0.9, 10.0);
    }

    fn runout(&mut self) {
        self.ground(Role::Plate);
        self.roller((-15.0, 32.0), 32.0);
        self.circle(Role::Ghost, (-15.0, 44.0), 32.0);
        self.line(Role::CentreLine, (-15.0, 70.0), (-15.0, -8.0));
        self.upwards(48.0, 32.0, 44.0);
        self.line(Role::Datum, (-15.0, 32.0), (48.0, 32.0));
        self.line(Role::Datum, (-15.0, 44.0), (48.0, 44.0));
        self.word((-76.0, 60.0), "one turn");
    }

    fn ends(&mut self) {
        self.ground(Role::Plate);
        self.line(Role::Datum, (-90.0, 34.0), (90.0, 34.0));
        self.hatched(
            Role::Knife,
            &[(-85.0, 46.0), (85.0, 22.0), (85.0, 32.0), (-85.0, 56.0)],
        );
        self.upwards(70.0, 24.0, 34.0);
        self.word((-62.0, 65.0), "high side");
        self.word((62.0, 62.0), "low side");
    }

    fn sweep(&mut self) {
        self.ground(Role::Plate);
        let (radius, edge_height, depth) = (90.0_f64, 34.0, 14.0);
        let centre = Point::new(20.0, edge_height - depth + radius);
        let half = ((radius - depth) / radius).acos();
        let arc = |turn: f64| {
            Arc::new(
                centre,
                (radius, radius),
                -std::f64::consts::FRAC_PI_2 - turn,
                2.0 * turn,
                0.0,
            )
            .to_path(EXACT)
        };
        let mut below = arc(half);
        below.close_path();
        self.scene
            .add(Role::BelowCut(Level::Over), Shape::Hatch(below));
        self.scene.add(Role::ReelRim, Shape::Line(arc(0.95)));
        self.line(Role::CutLine, (-95.0, edge_height), (95.0, edge_height));
        let edge = centre.x - radius * half.sin();
        self.knife((edge, edge_height));
        self.line(
            Role::Datum,
            (20.0, edge_height - depth),
            (86.0, edge_height - depth),
        );
        self.upwards(80.0, edge_height - depth, edge_height);
        self.word((20.0, 60.0), "reel");
    }

    fn underside(&mut self) {
        self.ground(Role::Plate);
        self.hatched(
            Role::Knife,
            &[
                (35.0, 50.0),
                (-80.0, 60.0),
                (-82.0, 36.0),
                (3.0, 27.0),
                (4.0, 37.0),
                (34.0, 38.0),
            ],
        );
        self.line(Role::CutLine, (-95.0, 50.0), (95.0, 50.0));
        self.line(Role::Datum, (3.0, 27.0), (80.0, 27.0));
        self.upwards(66.0, 27.0, 50.0);
        self.word((62.0, 64.0), "cut line");
    }
}
