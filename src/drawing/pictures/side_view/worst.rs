//! The place of the worst finding, in its level's colour and named: hatched where it lies between the
//! parts, ringed where it lies on one.

use kurbo::{BezPath, Circle, Point, Rect, Shape as _, Vec2};

use super::{SideView, label_or};
use crate::analysis::{FindingId, Findings, Level};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape};

/// Where the worst finding stands on the unit.
#[derive(Clone, Debug, PartialEq)]
pub struct WorstPlace {
    /// What was found.
    pub finding: FindingId,
    /// How it stands.
    pub level: Level,
    /// The same in a word: what is undecided is no level yet.
    pub standing: &'static str,
    /// Its place on the plate.
    pub at: Point,
    outline: BezPath,
    name: String,
}

impl SideView<'_> {
    /// Where the worst finding stands; none while all are fine.
    #[must_use]
    pub fn worst_place(&self) -> Option<WorstPlace> {
        let worst = self.findings.most_urgent()?;
        let level = worst.shown_level();
        let outline = self.place_of(worst.id);
        Some(WorstPlace {
            finding: worst.id,
            level,
            standing: match worst.doubt {
                Some(_) => "undecided",
                None => level.word(),
            },
            at: outline.bounding_box().center(),
            outline,
            name: worst.title().to_lowercase(),
        })
    }

    /// How the sweep stands, in a word, where it is the worst finding and its number is shown.
    pub(super) fn sweep_is_worst(&self) -> Option<&'static str> {
        let worst = self.worst_place()?;
        let is_shown = self.reel_below_cut().depth.mm() > 0.0;
        (worst.finding == FindingId::Sweep && is_shown).then_some(worst.standing)
    }

    pub(super) fn worst(&self, scene: &mut Scene) {
        let Some(worst) = self.worst_place() else {
            return;
        };
        let role = Role::Worst(worst.level);
        // The sweep's own number tells it, or that of the reel to the soil.
        let has_its_number =
            self.sweep_is_worst().is_some() || self.is_told_by_subject(worst.finding);
        // On a part it is ringed: hatching there would read as another material.
        if !is_on_part(worst.finding) {
            scene.add(role, Shape::Hatch(worst.outline.clone()));
        }
        scene.add(role, Shape::Line(worst.outline));
        if has_its_number {
            return;
        }
        let whole = format!("{}: {}", worst.standing, worst.name);
        let word = label_or(worst.at, (-64.0, 52.0), true, [whole, worst.name]);
        scene.add(role, word);
    }

    /// The part of the drawing that a finding is about.
    fn place_of(&self, finding: FindingId) -> BezPath {
        let solution = self.case.solution;
        let pose = &solution.pose;
        let (centre, edge, radius) = (
            pose.centre_on_plate,
            pose.edge_on_plate,
            pose.reel_radius_mm,
        );
        let lowest = pose.lowest_of_reel_on_plate();
        let terrain = self.stand().terrain;
        let down_to_ground = |from: Point, half: f64| {
            let ground = terrain.surface_mm(from.x).unwrap_or(0.0);
            // However near the ground, the mark is seen.
            let least = 0.006 * radius;
            let (low, high) = (ground.min(from.y), ground.max(from.y));
            let spare = (least - (high - low)).max(0.0) / 2.0;
            Rect::new(from.x - half, low - spare, from.x + half, high + spare).to_path(EXACT_MM)
        };
        let spot = |at: Point, part: f64| Circle::new(at, part * radius).to_path(EXACT_MM);
        match finding {
            FindingId::Sweep => {
                let arc = self.arc_below_cut();
                arc.map_or_else(|| spot(edge, 0.04), |arc| self.closed_by_cut(&arc))
            }
            FindingId::Reel | FindingId::LowEnd => down_to_ground(lowest, 0.09 * radius),
            FindingId::Underside => down_to_ground(solution.nearest_ground_on_plate, 0.06 * radius),
            FindingId::LowEndUnderside => {
                down_to_ground(solution.nearest_ground_at_low_end_on_plate, 0.06 * radius)
            }
            FindingId::Cut => down_to_ground(edge, 0.05 * radius),
            FindingId::Ahead => Rect::from_points(
                edge - Vec2::new(0.0, 0.02 * radius),
                (centre.x, edge.y + 0.02 * radius),
            )
            .to_path(EXACT_MM),
            FindingId::Gap | FindingId::TopFace => spot(edge, 0.04),
            FindingId::Lip => spot(self.lip_on_plate(), 0.035),
            FindingId::Scrap => spot(centre + Vec2::from_angle(2.2) * radius, 0.08),
            FindingId::Clip => spot(pose.clip_point_on_plate(), 0.04),
            FindingId::Rollers => {
                let worse = Findings::roller_at_fault(&self.case);
                Circle::new(worse.centre, 0.45 * worse.radius_mm).to_path(EXACT_MM)
            }
            FindingId::RunoutSwing => {
                let worse = Findings::roller_that_swings(&self.case);
                Circle::new(worse.centre, 0.45 * worse.radius_mm).to_path(EXACT_MM)
            }
            FindingId::Attitude => spot(self.screw_on_plate(), 0.09),
        }
    }
}

/// Whether a finding's place lies on a part, and not between parts or over the ground.
const fn is_on_part(finding: FindingId) -> bool {
    match finding {
        FindingId::Gap
        | FindingId::TopFace
        | FindingId::Lip
        | FindingId::Scrap
        | FindingId::Clip
        | FindingId::Rollers
        | FindingId::RunoutSwing
        | FindingId::Attitude => true,
        FindingId::Sweep
        | FindingId::Reel
        | FindingId::LowEnd
        | FindingId::Underside
        | FindingId::LowEndUnderside
        | FindingId::Cut
        | FindingId::Ahead => false,
    }
}
