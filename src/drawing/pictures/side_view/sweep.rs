//! The sweep below the cut: one shape, one large number, and the height of cut as a ruler beside it.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Arc, BezPath, Point, Shape as _};

use super::{SideView, label_or};
use crate::analysis::NumberId;
use crate::drawing::scene::{
    Dimension, Direction, EXACT_MM, Label, Role, Ruler, RulerStep, Scene, Shape, ShownIn,
};
use crate::units::{Length, System};

/// How many times as large as others the number of the sweep is, in the lens and in the whole.
const LARGE: f64 = 2.2;
const LARGER: f64 = 1.5;

impl SideView<'_> {
    pub(super) fn below_cut(&self, scene: &mut Scene) {
        let Some(arc) = self.arc_below_cut() else {
            return;
        };
        let mut segment = arc.clone();
        segment.close_path();
        let role = Role::BelowCut(self.sweep_level());
        scene.add(role, Shape::Hatch(segment));
        scene.add(role, Shape::Line(arc));
    }

    /// The part of the reel's circle that hangs below the cut line.
    pub(super) fn arc_below_cut(&self) -> Option<BezPath> {
        let sweep = &self.case.solution.sweep;
        let pose = &self.case.solution.pose;
        if sweep.chord.mm() <= 0.0 {
            return None;
        }
        let radius = pose.reel_radius_mm;
        let half = (sweep.chord.mm() / 2.0).atan2(sweep.centre_above_edge.mm());
        let (start, centre) = (-FRAC_PI_2 - half, pose.centre_on_plate);
        Some(Arc::new(centre, (radius, radius), start, 2.0 * half, 0.0).to_path(EXACT_MM))
    }

    pub(super) fn sweep(&self, scene: &mut Scene) {
        let solution = self.case.solution;
        let sweep = &solution.sweep;
        let (centre, edge) = (solution.pose.centre_on_plate, solution.pose.edge_on_plate);
        let lowest = solution.pose.lowest_of_reel_on_plate();
        let depth = self.length(sweep.below_cut);
        let dimension = Dimension {
            from: edge,
            to: lowest,
            direction: Direction::Up,
            through: lowest,
            offset: 40.0,
            larger: LARGE,
            text: format!("sweep {depth}"),
            // Never a bare number: what it measures is the point of the picture.
            shorter: Vec::new(),
        };
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Dimension(dimension));
        self.height_ruler(scene);
        if sweep.chord.mm() <= 0.0 {
            return;
        }
        let role = Role::BelowCut(self.sweep_level());
        let share = solution.sweep_share.map(|share| self.system.share(share));
        let mut forms = vec![format!("sweep {depth}"), depth.clone()];
        let level = self.sweep_is_worst();
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
            larger: LARGER,
            text: text.clone(),
            shorter: shorter.to_vec(),
        };
        scene.add_in(ShownIn::Whole, role, Shape::Label(whole));
        // The share and what the readings leave open, beside the large number.
        let level = level.map_or(String::new(), |level| format!("{level}: "));
        let of_height = share.map(|share| format!("{share} of the height of cut"));
        let off = self
            .off(NumberId::SweepBelowCut)
            .map(|off| format!("{depth} ± {}", self.length(off)));
        // A ± stands beside the length that it is told in, never beside a share.
        let forms = match (of_height, off) {
            (Some(share), Some(off)) => {
                vec![
                    format!("{level}{off}, {share}"),
                    format!("{level}{off}"),
                    format!("{level}{share}"),
                ]
            }
            (Some(told), None) | (None, Some(told)) => vec![format!("{level}{told}")],
            (None, None) => return,
        };
        let inside = Point::new(
            centre.x - 0.2 * sweep.behind_centre.mm(),
            lowest.y.midpoint(edge.y),
        );
        scene.add_in(
            ShownIn::Lens,
            role,
            label_or(inside, (28.0, -118.0), true, forms),
        );
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
            beside: self.case.solution.pose.lowest_of_reel_on_plate(),
            offset: 84.0,
            steps: steps(self.system),
            text: format!("{} {}", cut.name, self.length(cut.height)),
            shorter: vec![self.length(cut.height)],
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
