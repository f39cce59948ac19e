//! The sweep below the cut: one shape, one large number, and the height of cut as a ruler beside it.

use kurbo::{Arc, BezPath, Point, Shape as _};

use super::{SideView, Standing, Subject, label};
use crate::analysis::NumberId;
use crate::drawing::scene::{
    Dimension, Direction, EXACT_MM, Label, Role, Ruler, RulerStep, Scene, Shape, ShownIn,
};
use crate::geometry::Terrain;
use crate::units::{Length, Share, System};

/// How many times as large as others the number of the sweep is, in the lens and in the whole.
const LARGE: f64 = 2.2;
const LARGER: f64 = 1.5;
/// What is swept below the cut line of a unit on the plate.
const ON_PLATE: &str = "sweep";

/// The reel against what the knife leaves, on whatever the unit is drawn standing on.
pub(super) struct BelowCut {
    /// What the knife leaves: the ground, raised by the cut.
    pub(super) cut: Terrain,
    /// How deep the reel hangs below it; negative above it.
    pub(super) depth: Length,
    /// The reel's lowest point there.
    pub(super) lowest: Point,
    /// The same point's foot on what the knife leaves.
    over_lowest: Point,
    /// What the depth is called there.
    name: &'static str,
    /// As a share of the height of cut, where that is the one told on the plate.
    share: Option<Share>,
    /// How far the depth can be off.
    pub(super) off: Option<Length>,
}

impl SideView<'_> {
    /// The reel against what the knife leaves, here.
    pub(super) fn reel_below_cut(&self) -> BelowCut {
        let solution = self.case.solution;
        let pose = &solution.pose;
        let centre = pose.centre_on_plate;
        let terrain = self.stand().terrain;
        let cut = terrain.raised(terrain.clearance(pose.edge_on_plate));
        let lowest = centre + terrain.down_at(centre) * pose.reel_radius_mm;
        let depth = Length::from_mm(-cut.clearance(lowest).mm());
        let is_as_on_plate = self.standing == Standing::Plate
            || self.length(depth) == self.length(solution.sweep.below_cut);
        let number = if is_as_on_plate {
            Some(NumberId::SweepBelowCut)
        } else {
            // What the readings leave open is known of the ground that was entered.
            (terrain == solution.terrain).then_some(NumberId::SweepOnGround)
        };
        BelowCut {
            depth: if is_as_on_plate {
                solution.sweep.below_cut
            } else {
                depth
            },
            over_lowest: lowest - terrain.down_at(centre) * depth.mm(),
            cut,
            lowest,
            name: match self.standing {
                Standing::Plate => ON_PLATE,
                _ if is_as_on_plate => ON_PLATE,
                Standing::Turf => "sweep on turf",
                Standing::Crest => "sweep on crest",
            },
            share: solution.sweep_share.filter(|_| is_as_on_plate),
            off: number.and_then(|number| self.off(number)),
        }
    }

    pub(super) fn below_cut(&self, scene: &mut Scene) {
        let Some(arc) = self.arc_below_cut() else {
            return;
        };
        let role = Role::BelowCut(self.sweep_level());
        scene.add(role, Shape::Hatch(self.closed_by_cut(&arc)));
        scene.add(role, Shape::Line(arc));
    }

    /// The part of the reel's circle that hangs below what the knife leaves.
    pub(super) fn arc_below_cut(&self) -> Option<BezPath> {
        let below = self.reel_below_cut();
        let pose = &self.case.solution.pose;
        let (centre, radius) = (pose.centre_on_plate, pose.reel_radius_mm);
        if below.depth.mm() <= 0.0 {
            return None;
        }
        let half = below.cut.half_arc_below(centre, radius)?.rad();
        let start = (below.lowest - centre).atan2() - half;
        Some(Arc::new(centre, (radius, radius), start, 2.0 * half, 0.0).to_path(EXACT_MM))
    }

    /// That part with what the knife leaves as its upper side, which is straight on straight ground.
    pub(super) fn closed_by_cut(&self, arc: &BezPath) -> BezPath {
        const PIECES: u32 = 12;
        let cut = self.reel_below_cut().cut;
        let mut outline = arc.clone();
        if !cut.is_level() {
            let bounds = arc.bounding_box();
            let back = (1..PIECES).map(|piece| f64::from(piece) / f64::from(PIECES));
            let back = back.map(|part| bounds.x1 - part * bounds.width());
            for place in back.filter_map(|x| Some(Point::new(x, cut.surface_mm(x)?))) {
                outline.line_to(place);
            }
        }
        outline.close_path();
        outline
    }

    pub(super) fn sweep(&self, scene: &mut Scene) {
        let solution = self.case.solution;
        let (centre, edge) = (solution.pose.centre_on_plate, solution.pose.edge_on_plate);
        let below = self.reel_below_cut();
        let (lowest, depth) = (below.lowest, self.length(below.depth));
        // On the plate beside the vertical; on ground square to it.
        let (from, direction) = if self.standing == Standing::Plate {
            (edge, Direction::Up)
        } else {
            (below.over_lowest, Direction::Along)
        };
        // A level is the plate's number's.
        let level = self.sweep_is_worst().filter(|_| below.name == ON_PLATE);
        // Never a bare number: what it measures is the point of the picture.
        let mut told = vec![format!("{} {depth}", below.name)];
        if let Some(level) = level {
            told.insert(0, format!("{level}: {ON_PLATE} {depth}"));
        }
        if below.name != ON_PLATE {
            told.push(format!("{ON_PLATE} {depth}"));
        }
        let dimension = Dimension {
            from,
            to: lowest,
            direction,
            through: lowest,
            offset: 40.0,
            larger: self.larger(Subject::Sweep, LARGE),
            text: told.remove(0),
            shorter: told,
        };
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Dimension(dimension));
        self.height_ruler(scene);
        if below.depth.mm() <= 0.0 {
            return;
        }
        let role = Role::BelowCut(self.sweep_level());
        let share = below.share.map(|share| self.system.share(share));
        let mut forms = vec![format!("{} {depth}", below.name)];
        if below.name != ON_PLATE {
            forms.push(format!("{ON_PLATE} {depth}"));
        }
        // Both would crowd what stands beside it; the lens and the numbers tell the share.
        match (level, &share) {
            (Some(level), _) => forms.insert(0, format!("{level}: {}", forms[0])),
            (None, Some(share)) => forms.insert(0, format!("{} ({share})", forms[0])),
            (None, None) => {}
        }
        let [text, shorter @ ..] = &forms[..] else {
            return;
        };
        let whole = Label {
            at: lowest,
            offset: (46.0, 62.0).into(),
            has_leader: true,
            larger: self.larger(Subject::Sweep, LARGER),
            text: text.clone(),
            shorter: shorter.to_vec(),
        };
        scene.add_in(ShownIn::Whole, role, Shape::Label(whole));
        let Some(share) = share else {
            return;
        };
        let of_height = format!("{share} of the height of cut");
        let inside = if self.standing == Standing::Plate {
            let back = 0.2 * solution.sweep.behind_centre.mm();
            Point::new(centre.x - back, lowest.y.midpoint(edge.y))
        } else {
            lowest.midpoint(below.over_lowest)
        };
        let word = label(inside, (28.0, -118.0), true, of_height);
        scene.add_in(ShownIn::Lens, Role::Note, word);
    }

    /// The height of cut as a ruler from the ground under the edge, beside the sweep.
    fn height_ruler(&self, scene: &mut Scene) {
        let cut = self.cut();
        if cut.height.mm() <= 0.0 {
            return;
        }
        let ruler = Ruler {
            foot: cut.ground,
            top: cut.edge,
            beside: self.reel_below_cut().lowest,
            offset: 84.0,
            larger: self.larger(Subject::HeightOfCut, LARGER),
            steps: steps(self.system),
            text: format!("{} {}", cut.name, self.length(cut.height)),
            shorter: vec![format!("{} {}", cut.short, self.length(cut.height))],
        };
        scene.add_in(ShownIn::Lens, Role::CutLine, Shape::Ruler(ruler));
    }
}

/// The marks that a ruler in these units has, from the closest.
fn steps(system: System) -> Vec<RulerStep> {
    let inches = |inches| Length::from_inches(inches).mm();
    let step = |small_mm, larges| RulerStep { small_mm, larges };
    match system {
        System::Millimetre => [(0.1, 5.0), (0.5, 2.0), (1.0, 5.0), (5.0, 2.0), (10.0, 5.0)]
            .map(|(mm, larges)| step(mm, larges))
            .to_vec(),
        System::InchDecimal => [
            (0.005, 4.0),
            (0.01, 5.0),
            (0.05, 2.0),
            (0.1, 5.0),
            (0.5, 2.0),
        ]
        .map(|(length, larges)| step(inches(length), larges))
        .to_vec(),
        System::InchFraction => [64.0, 32.0, 16.0, 8.0, 4.0, 2.0]
            .map(|parts| step(inches(1.0 / parts), 4.0))
            .to_vec(),
    }
}
