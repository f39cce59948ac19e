//! The reel in motion, over stems of grass or by itself: one moment of it, to scale, the unit held still.

use std::f64::consts::TAU;

use kurbo::{Affine, Arc, BezPath, Circle, Line, Point, Rect, Shape as _, Vec2};

use super::side_view::{blade_section, knife_outline};
use crate::analysis::{Case, Findings, Kinematics};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape};
use crate::geometry::{BladePath, ReelTurn, StemState, Stems};
use crate::unit::ExampleCount;
use crate::units::Length;

/// Half of what is shown across, in reel radii, clip lengths and heights of cut: the widest counts.
const IN_RADII: f64 = 0.62;
const IN_CLIPS: f64 = 2.2;
const IN_HEIGHTS: f64 = 1.7;
/// Stems from clip to clip at the most, and how far apart they stand at the least, in parts of the
/// picture's width.
const MOST_STEMS: f64 = 24.0;
const LEAST_APART: f64 = 0.008;
/// How long the mark of a clip place is, in parts of the picture's width.
const MARK: f64 = 0.018;
/// Marks of clip places at the most.
const MOST_MARKS: f64 = 400.0;
/// What is told of the stems, on the picture itself.
const ILLUSTRATION: &str = "stems: an illustration";

/// How much of a turn a blade's track is seen for: its beginning tells which way it went.
const TRACK: f64 = 0.95;
/// What is shown around a whole reel, and how long its centre lines are, in parts of its radius.
const AROUND: f64 = 1.1;
const UNDER: f64 = 0.12;
const CROSS: f64 = 0.14;

/// What is shown of a reel in motion.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MotionOf {
    /// Its lower side as it cuts stems of grass.
    #[default]
    Mowing,
    /// The whole reel, of which one blade draws its circle; no grass.
    OneBlade,
}

/// What is drawn: a moment of the reel's turn on level ground.
#[derive(Clone, Copy, Debug)]
pub struct MotionDrawing<'a> {
    /// The unit, its setting and its solution.
    pub case: Case<'a>,
    /// What was found about it.
    pub findings: &'a Findings,
    /// How many of its readings are still examples.
    pub examples: ExampleCount,
    /// What its speeds make of it.
    pub kinematics: &'a Kinematics,
    /// The moment, as a part of a turn: at 0 a blade clips.
    pub phase: f64,
    /// What is shown of it.
    pub shows: MotionOf,
}

impl MotionDrawing<'_> {
    /// The reel and all its blades.
    #[must_use]
    pub fn turn(&self) -> ReelTurn {
        ReelTurn {
            path: self.kinematics.path,
            blades: self.case.unit.blades,
        }
    }

    /// What a view must hold: the same at every phase.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        if self.shows == MotionOf::OneBlade {
            let (centre, radius) = (self.path().centre_at_clip, self.path().reel_radius_mm);
            return Rect {
                y0: -UNDER * radius,
                ..Circle::new(centre, AROUND * radius).bounding_box()
            };
        }
        let half = self.half_mm();
        Rect::new(-0.95 * half, -0.09 * half, 1.05 * half, 1.06 * half)
    }

    fn half_mm(&self) -> f64 {
        let path = self.path();
        let in_clips = IN_CLIPS * self.kinematics.clip_length.mm();
        (IN_RADII * path.reel_radius_mm)
            .max(in_clips)
            .max(IN_HEIGHTS * path.cut_height_mm.abs())
            .max(1.0)
    }

    fn path(&self) -> &BladePath {
        &self.kinematics.path
    }

    /// Takes a place over the ground to the picture, in which the unit stands still, the edge at x = 0.
    fn still(&self) -> Vec2 {
        Vec2::new(-self.turn().travelled(self.phase).mm(), 0.0)
    }

    /// Builds the scene: level ground moving back under the unit.
    #[must_use]
    pub fn scene(&self) -> Scene {
        let mut scene = Scene {
            items: Vec::with_capacity(256),
            bounds: self.bounds(),
        };
        self.ground(&mut scene);
        if self.shows == MotionOf::OneBlade {
            self.one_blade(&mut scene);
            self.knife(&mut scene);
            return scene;
        }
        self.reel(&mut scene);
        self.stems(&mut scene);
        self.ways(&mut scene);
        self.knife(&mut scene);
        self.clips(&mut scene);
        let below = (self.role_below(), "blade tip below the cut line");
        let keys = [
            Some((Role::Turf, ILLUSTRATION)),
            self.kinematics.below_cut.map(|_| below),
            Some((Role::CutLine, "cut line")),
            Some((Role::Clip, "clips, a clip length apart")),
        ];
        let keys = keys.into_iter().flatten();
        for (row, (role, text)) in (0..).zip(keys) {
            let text = text.to_owned();
            scene.add(role, Shape::Key { row, text });
        }
        scene
    }

    /// Wider than any view of it.
    fn reach(&self) -> (f64, f64) {
        let bounds = self.bounds();
        (bounds.x0 - bounds.width(), bounds.x1 + bounds.width())
    }

    fn ground(&self, scene: &mut Scene) {
        let (from, to) = self.reach();
        let deep = self.bounds().height();
        let soil = Rect::new(from, -deep, to, 0.0).to_path(EXACT_MM);
        // It goes back with the ground, and is alike from clip to clip.
        let soil = Shape::MovingHatch {
            outline: soil,
            through: self.still().to_point(),
            alike_mm: self.turn().clip_length().mm(),
        };
        scene.add(Role::Soil, soil);
        let line = |height| Line::new((from, height), (to, height)).to_path(EXACT_MM);
        scene.add(Role::Soil, Shape::Line(line(0.0)));
        let cut = line(self.path().cut_height_mm);
        scene.add(Role::CutLine, Shape::Line(cut));
    }

    fn knife(&self, scene: &mut Scene) {
        let knife = knife_outline(&self.case);
        scene.add(Role::Knife, Shape::Hatch(knife.clone()));
        scene.add(Role::Knife, Shape::Line(knife));
    }

    /// The whole reel about its centre: one blade, with the track that its tip leaves behind, the others as
    /// outlines.
    fn one_blade(&self, scene: &mut Scene) {
        let (centre, radius) = (self.path().centre_at_clip, self.path().reel_radius_mm);
        let circle = Circle::new(centre, radius).to_path(EXACT_MM);
        scene.add(Role::ReelBody, Shape::Fill(circle));
        for along in [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)] {
            let half = along * (CROSS * radius);
            let cross = Line::new(centre - half, centre + half).to_path(EXACT_MM);
            scene.add(Role::CentreLine, Shape::Line(cross));
        }
        let angle = |tip: Point| (tip + self.still() - centre).atan2();
        let turn = self.turn();
        let mut tips = turn.tips(self.phase);
        let Some(own) = tips.next().map(angle) else {
            return;
        };
        for tip in tips {
            let section = blade_section(centre, radius, angle(tip));
            scene.add(Role::Hint, Shape::Line(section));
        }
        // The reel turns its lower side towards the knife: the tip comes from where its angle is larger.
        let track = Arc::new(centre, (radius, radius), own, TRACK * TAU, 0.0);
        scene.add(Role::TipCircle, Shape::Line(track.to_path(EXACT_MM)));
        let section = blade_section(centre, radius, own);
        scene.add(Role::Blade, Shape::Fill(section.clone()));
        scene.add(Role::Blade, Shape::Line(section));
    }

    fn reel(&self, scene: &mut Scene) {
        let (centre, radius) = (self.path().centre_at_clip, self.path().reel_radius_mm);
        let circle = Circle::new(centre, radius).to_path(EXACT_MM);
        scene.add(Role::ReelBody, Shape::Fill(circle.clone()));
        scene.add(Role::TipCircle, Shape::Line(circle));
        for tip in self.turn().tips(self.phase) {
            let angle = (tip + self.still() - centre).atan2();
            let section = blade_section(centre, radius, angle);
            scene.add(Role::Blade, Shape::Fill(section.clone()));
            scene.add(Role::Blade, Shape::Line(section));
        }
    }

    /// Stems as far as any view reaches; as many from each clip to the next, so that the ground looks
    /// alike a clip later.
    fn stems(&self, scene: &mut Scene) {
        let turn = self.turn();
        let knife = knife_outline(&self.case).bounding_box();
        let stems = Stems::of(turn).map(|stems| {
            let clearance = self.case.solution.underside_clearance;
            stems.under_knife(clearance, Length::from_mm(-knife.x0))
        });
        let Some(stems) = stems else {
            return;
        };
        let bounds = self.bounds();
        let clip = turn.clip_length().mm();
        let least = LEAST_APART * bounds.width();
        let (count, apart) = if clip < least {
            // Clips closer than stems can be drawn.
            (1.0, clip * (least / clip).ceil())
        } else {
            let count = (clip / least).floor().min(MOST_STEMS);
            (count, clip / count)
        };
        // Between clips where there is room, so that none stands on the line between two.
        let first = if count > 1.0 { 0.5 } else { 0.0 };
        let travelled = turn.travelled(self.phase).mm();
        let (from, to) = (
            bounds.x0 - 0.5 * bounds.width() + travelled,
            bounds.x1 + 0.5 * bounds.width() + travelled,
        );
        let mut number = (from / apart).ceil();
        let (mut lines, mut bent) = (BezPath::new(), BezPath::new());
        while (number + first) * apart <= to {
            let root = Length::from_mm((number + first) * apart);
            let stem = stems.stem(root, self.phase);
            let drawn = Line::new(stem.root + self.still(), stem.top + self.still());
            let drawn = drawn.to_path(EXACT_MM);
            match stem.state {
                StemState::Standing | StemState::Cut => lines.extend(drawn),
                StemState::BentByBlade | StemState::BentByKnife => bent.extend(drawn),
            }
            number += 1.0;
        }
        // Darker where they are bent.
        for path in [lines.clone(), lines, bent.clone(), bent.clone(), bent] {
            scene.add(Role::Turf, Shape::Line(path));
        }
    }

    fn role_below(&self) -> Role {
        Role::BelowCut(self.findings.drawn_sweep(self.examples))
    }

    /// The way of every blade that is below the cut line, from where it entered to where it is now.
    fn ways(&self, scene: &mut Scene) {
        let Some(below) = self.kinematics.below_cut else {
            return;
        };
        let turn = self.turn();
        let way_phase = below.time_s / self.path().turn_s();
        let now = self.phase / turn.phase_of_clip();
        let mut clip = now.floor();
        let last = now + way_phase / turn.phase_of_clip();
        while clip <= last {
            let at = clip * turn.phase_of_clip();
            let (from, to) = (at - way_phase, self.phase.min(at));
            // A blade that has clipped shows its way until the next one does.
            if to > from {
                let moved = Vec2::new(turn.travelled(at).mm(), 0.0) + self.still();
                let way = self
                    .path()
                    .piece(turn.time_s(from - at), turn.time_s(to - at), 32);
                let way = Affine::translate(moved) * way;
                scene.add(self.role_below(), Shape::Line(way));
            }
            clip += 1.0;
        }
    }

    /// Where blades have clipped, marked on the ground below.
    fn clips(&self, scene: &mut Scene) {
        let turn = self.turn();
        let (clip, bounds) = (turn.clip_length().mm(), self.bounds());
        let foot = -MARK * bounds.width();
        let place = |number: f64| number * clip + self.still().x;
        let mut number = (self.phase / turn.phase_of_clip()).floor();
        let last = number - MOST_MARKS;
        while place(number) > bounds.x0 - 0.5 * bounds.width() && number > last {
            let mark = Line::new((place(number), 0.0), (place(number), foot));
            scene.add(Role::Clip, Shape::Line(mark.to_path(EXACT_MM)));
            number -= 1.0;
        }
    }
}
