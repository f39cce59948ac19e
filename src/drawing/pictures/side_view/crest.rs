//! The unit standing on a crest: the ground's curve to scale, and how near it comes.

use kurbo::{Circle, Point, Shape as _};

use super::{SideView, Standing, label, label_or, line};
use crate::analysis::why::{CrestLimit, CrestLimits};
use crate::drawing::scene::{EXACT_MM, Role, Scene, Shape, ShownIn};
use crate::geometry::{GroundShape, Terrain, on_level};
use crate::units::Length;

/// Nearer than this, in millimetres, a part touches.
const TOUCHING_MM: f64 = 1e-6;

/// What a unit is drawn standing on.
pub(super) struct Stand {
    pub(super) terrain: Terrain,
    /// The crest's radius and where it comes from; none off a crest.
    crest: Option<(Length, Origin)>,
}

#[derive(Clone, Copy)]
enum Origin {
    /// It was entered.
    Entered,
    /// It is the one on which reel or knife just touches.
    Tightest,
}

impl SideView<'_> {
    /// What the unit stands on: on a crest the one that was entered, or else the tightest one that
    /// the whole unit crosses.
    pub(super) fn stand(&self) -> Stand {
        let plain = |terrain| Stand {
            terrain,
            crest: None,
        };
        match self.standing {
            Standing::Plate => plain(on_level()),
            Standing::Turf => plain(self.case.solution.terrain),
            Standing::Crest => self
                .crest()
                .unwrap_or_else(|| plain(self.case.solution.terrain)),
        }
    }

    fn crest(&self) -> Option<Stand> {
        let unit = self.case.unit;
        let (radius, origin) = match unit.shape {
            GroundShape::Crest(radius) => (radius, Origin::Entered),
            GroundShape::Level | GroundShape::Hollow(_) => {
                let tightest = CrestLimits::of(&self.case).whole().radius()?;
                (tightest, Origin::Tightest)
            }
        };
        let pose = &self.case.solution.pose;
        let shape = GroundShape::Crest(radius);
        let terrain = Terrain::under(pose, shape, unit.sink).ok()?;
        Some(Stand {
            terrain,
            crest: Some((radius, origin)),
        })
    }

    /// How far reel, edge and underside stand over the crest, measured square to it.
    pub(super) fn over_crest(&self, scene: &mut Scene) {
        if self.standing != Standing::Crest {
            return;
        }
        let stand = self.stand();
        let terrain = &stand.terrain;
        let front = self.case.solution.pose.front_roller.centre.x;
        let Some((radius, origin)) = stand.crest else {
            self.on_no_crest(scene, Point::new(front, 0.0));
            return;
        };
        let shown = self.system.radius(radius);
        let forms = match origin {
            Origin::Entered => [
                format!("crest of {shown} radius"),
                format!("crest R {shown}"),
            ],
            Origin::Tightest => [
                format!("tightest crest it crosses: {shown} radius"),
                format!("tightest crest it crosses: R {shown}"),
            ],
        };
        if let Some(y) = terrain.surface_mm(front) {
            let word = label_or(Point::new(front, y), (-40.0, 36.0), true, forms);
            scene.add_in(ShownIn::Whole, Role::Clip, word);
        }
        let pose = &self.case.solution.pose;
        let (centre, edge) = (pose.centre_on_plate, pose.edge_on_plate);
        let lowest = centre + terrain.down_at(centre) * pose.reel_radius_mm;
        let underside = self.nearest_underside(terrain);
        // The lens looks at the edge; the underside may touch far behind it.
        for (part, place, shown_in, aside) in [
            ("edge", edge, ShownIn::Lens, (14.0, 140.0)),
            ("reel", lowest, ShownIn::Lens, (14.0, 168.0)),
            ("underside", underside, ShownIn::Whole, (-26.0, 60.0)),
        ] {
            let clear = terrain.clearance(place);
            // What the edge stands over the ground is dimensioned as the height of cut.
            if part == "edge" && clear.mm() >= TOUCHING_MM {
                continue;
            }
            let ground = place + terrain.down_at(place) * clear.mm();
            scene.add(Role::Dimension, Shape::Line(line(place, ground)));
            let told = self.over_crest_forms(part, clear);
            let word = label_or(place.midpoint(ground), aside, true, told);
            scene.add_in(shown_in, Role::Dimension, word);
            let touch = Circle::new(ground, 0.15).to_path(EXACT_MM);
            scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Line(touch));
        }
    }

    /// It in a sentence, and in fewer words.
    fn over_crest_forms(&self, part: &str, clear: Length) -> Vec<String> {
        if clear.mm() < -TOUCHING_MM {
            let deep = self.length(-clear);
            vec![
                format!("{part} {deep} into the crest"),
                format!("{part} {deep} into it"),
            ]
        } else if clear.mm() < TOUCHING_MM {
            vec![
                format!("the {part} touches the crest"),
                format!("{part} touches"),
            ]
        } else {
            let clear = self.length(clear);
            vec![
                format!("{part} {clear} over the crest"),
                format!("{part} {clear} clear"),
            ]
        }
    }

    /// Why there is no crest to stand on.
    fn on_no_crest(&self, scene: &mut Scene, under_roller: Point) {
        let told = match CrestLimits::of(&self.case).whole() {
            CrestLimit::TouchesOnLevel => "on no crest: reel or knife touches level ground already",
            CrestLimit::Radius(_) | CrestLimit::ClearsAll => {
                "on no crest: none that carries both rollers touches reel or knife"
            }
        };
        let word = label(under_roller, (-40.0, 36.0), false, told.to_owned());
        scene.add_in(ShownIn::Whole, Role::Clip, word);
    }

    /// The point of knife and hardware that stands nearest the ground.
    fn nearest_underside(&self, terrain: &Terrain) -> Point {
        self.case
            .underside_on_plate()
            .min_by(|a, b| {
                let clear = |point: &Point| terrain.clearance(*point).mm();
                clear(a).total_cmp(&clear(b))
            })
            // The knife's four corners are always there.
            .unwrap_or(self.case.solution.lowest_on_plate)
    }
}
