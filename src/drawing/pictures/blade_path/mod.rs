//! The paths of several blades' tips over the ground, to scale: a close-up of the cut line, and the
//! path of one blade over two turns of the reel.

mod canvas;
mod words;

pub use canvas::PathCanvas;

use kurbo::{Circle, Line, Point, Rect, Shape as _, Vec2};

use super::side_view::knife_outline;
use crate::analysis::{Case, Findings, Kinematics, Level};
use crate::drawing::scene::{EXACT_MM, Label, Role, Scene, Shape, ShownIn};
use crate::geometry::BladePath;
use crate::unit::ExampleCount;
use crate::units::System;

/// Pieces of a path in a turn of the reel, each a cubic with the true ends and directions: of a
/// 100 mm reel none strays by a hundredth of a thousandth of a millimetre.
const PIECES_A_TURN: i32 = 96;
/// How thick the ground is drawn, in parts of the view's height.
const GROUND_DEPTH: f64 = 0.05;
/// How many clips to either side of the one at the knife are shown.
const NEIGHBOURS: i32 = 2;
/// Clip lengths past which, over the height of cut, only the next neighbours are shown.
const LONG_CLIP: f64 = 3.0;

/// What is drawn. The close-up shows what a lens shows, the turns of the reel what a view of the
/// whole does.
#[derive(Clone, Copy, Debug)]
pub struct PathDrawing<'a> {
    /// The unit, its setting and its solution.
    pub case: Case<'a>,
    /// What was found about it.
    pub findings: &'a Findings,
    /// How many of its readings are still examples.
    pub examples: ExampleCount,
    /// What its speeds make of it.
    pub kinematics: &'a Kinematics,
    /// The units of the words.
    pub system: System,
}

impl PathDrawing<'_> {
    /// Builds the scene: level ground, the unit at the moment of a clip, the edge at x = 0.
    #[must_use]
    pub fn scene(&self) -> Scene {
        let mut scene = Scene {
            items: Vec::with_capacity(64),
            bounds: self.whole_bounds(),
        };
        self.ground(&mut scene);
        self.knife_and_reel(&mut scene);
        self.below_cut(&mut scene);
        self.cut_line(&mut scene);
        self.paths(&mut scene);
        self.clip_points(&mut scene);
        self.dimensions_and_words(&mut scene);
        scene
    }

    /// What a view of the path over two turns of the reel must hold.
    #[must_use]
    pub fn whole_bounds(&self) -> Rect {
        let path = &self.kinematics.path;
        let radius = path.reel_radius_mm;
        let circle = |time_s: f64| Circle::new(path.centre_at(time_s), radius).bounding_box();
        let turn = path.turn_s();
        let all = circle(-turn).union(circle(turn)).union_pt((0.0, 0.0));
        // Room for the words above and the dimension below.
        Rect::new(
            all.x0 - 0.03 * all.width(),
            all.y0 - 0.20 * all.height(),
            all.x1 + 0.03 * all.width(),
            all.y1 + 0.12 * all.height(),
        )
    }

    /// What the close-up must hold: the clips at the knife and beside it, from the ground to
    /// somewhat above the cut line.
    #[must_use]
    pub fn close_bounds(&self) -> Rect {
        let height = self.height_mm();
        let clip = self.kinematics.clip_length.mm();
        // However short the clips, ground and cut line are shown.
        let apart = clip.max(height / LONG_CLIP).max(0.01);
        let half = (f64::from(self.neighbours()) + 0.6) * apart;
        let entry = self.entry().map_or(0.0, |entry| entry.x);
        let (low, high) = (self.cut_height().min(0.0), self.cut_height().max(0.0));
        let tall = height.max(0.5 * apart);
        Rect::new(
            -half,
            low - 0.2 * tall,
            half.max(entry + 0.3 * apart),
            high + 1.1 * tall,
        )
    }

    fn path(&self) -> &BladePath {
        &self.kinematics.path
    }

    fn cut_height(&self) -> f64 {
        self.path().cut_height_mm
    }

    /// The height of cut without its sign, so that an edge below the ground can be drawn as well.
    fn height_mm(&self) -> f64 {
        self.cut_height().abs()
    }

    fn neighbours(&self) -> i32 {
        let is_long = self.kinematics.clip_length.mm() > LONG_CLIP * self.height_mm();
        if is_long { 1 } else { NEIGHBOURS }
    }

    fn level(&self) -> Level {
        self.findings.drawn_sweep(self.examples)
    }

    /// From the clip at the knife to another one.
    fn offset(&self, clips: i32) -> Vec2 {
        Vec2::new(self.kinematics.clip_offset(clips).mm(), 0.0)
    }

    /// Where the tip that clips at the knife came through the cut line.
    fn entry(&self) -> Option<Point> {
        let below = self.kinematics.below_cut?;
        Some(self.path().tip_at(-below.time_s))
    }

    /// The reach of lines that run through every view.
    fn reach(&self) -> (f64, f64) {
        let all = self.whole_bounds().union(self.close_bounds());
        (all.x0 - all.width(), all.x1 + all.width())
    }

    fn ground(&self, scene: &mut Scene) {
        let (from, to) = self.reach();
        let surface = Line::new((from, 0.0), (to, 0.0)).to_path(EXACT_MM);
        for (shown_in, bounds) in [
            (ShownIn::Lens, self.close_bounds()),
            (ShownIn::Whole, self.whole_bounds()),
        ] {
            let soil = Rect::new(from, -GROUND_DEPTH * bounds.height(), to, 0.0);
            scene.add_in(shown_in, Role::Soil, Shape::Hatch(soil.to_path(EXACT_MM)));
        }
        scene.add(Role::Soil, Shape::Line(surface));
    }

    /// The unit at the moment of the clip: knife, reel's circle, its centre.
    fn knife_and_reel(&self, scene: &mut Scene) {
        let knife = knife_outline(&self.case);
        scene.add(Role::Knife, Shape::Hatch(knife.clone()));
        scene.add(Role::Knife, Shape::Line(knife));
        let path = self.path();
        let (centre, radius) = (path.centre_at_clip, path.reel_radius_mm);
        let circle = Circle::new(centre, radius).to_path(EXACT_MM);
        scene.add(Role::TipCircle, Shape::Line(circle));
        let across = |way: Vec2| Line::new(centre - way, centre + way).to_path(EXACT_MM);
        let way = Vec2::new(0.2 * radius, 0.0);
        scene.add(Role::CentreLine, Shape::Line(across(way)));
        let upright = Line::new((centre.x, centre.y + way.x), (centre.x, 0.0));
        scene.add(Role::Vertical, Shape::Line(upright.to_path(EXACT_MM)));
    }

    /// Between the cut line and the path of the blade at the knife, from where it enters to the clip.
    fn below_cut(&self, scene: &mut Scene) {
        let Some(below) = self.kinematics.below_cut else {
            return;
        };
        let way = self.path().piece(-below.time_s, 0.0, 32);
        let mut stirred = way.clone();
        stirred.line_to((0.0, self.cut_height()));
        stirred.close_path();
        let role = Role::BelowCut(self.level());
        scene.add(role, Shape::Hatch(stirred));
        scene.add(role, Shape::Line(way));
    }

    fn cut_line(&self, scene: &mut Scene) {
        let (from, to) = self.reach();
        let height = self.cut_height();
        let line = Line::new((from, height), (to, height)).to_path(EXACT_MM);
        scene.add(Role::CutLine, Shape::Line(line));
    }

    fn paths(&self, scene: &mut Scene) {
        let path = self.path();
        let (lowest, turn) = (path.lowest_at_s(), path.turn_s());
        let once = path.piece(lowest - turn / 2.0, lowest + turn / 2.0, PIECES_A_TURN);
        for clips in -self.neighbours()..=self.neighbours() {
            if clips != 0 {
                let beside = kurbo::Affine::translate(self.offset(clips)) * &once;
                scene.add_in(ShownIn::Lens, Role::Blade, Shape::Line(beside));
            }
        }
        scene.add_in(ShownIn::Lens, Role::ReelRim, Shape::Line(once));
        let twice = path.piece(lowest - turn, lowest + turn, 2 * PIECES_A_TURN);
        scene.add_in(ShownIn::Whole, Role::ReelRim, Shape::Line(twice));
    }

    fn clip_points(&self, scene: &mut Scene) {
        let clip = self.path().tip_at(0.0);
        for clips in -self.neighbours()..=self.neighbours() {
            let shown_in = if clips == 0 {
                ShownIn::Both
            } else {
                ShownIn::Lens
            };
            scene.add_in(shown_in, Role::Clip, Shape::Ring(clip + self.offset(clips)));
        }
    }
}

fn label(at: Point, offset: (f64, f64), has_leader: bool, text: &str) -> Shape {
    Shape::Label(Label {
        at,
        offset: offset.into(),
        has_leader,
        larger: 1.0,
        text: text.to_owned(),
        shorter: Vec::new(),
    })
}

/// Words with a line to a place, in the longest of two forms that has room.
fn label_or(at: Point, offset: (f64, f64), [text, shorter]: [&str; 2]) -> Shape {
    Shape::Label(Label {
        at,
        offset: offset.into(),
        has_leader: true,
        larger: 1.0,
        text: text.to_owned(),
        shorter: vec![shorter.to_owned()],
    })
}
