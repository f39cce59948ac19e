//! The unit standing on a crest: the ground's curve to scale, and how near it comes.

use kurbo::{Circle, Point, Shape as _};

use super::{EXACT_MM, SideView, Standing, label, line};
use crate::analysis::why::{CrestLimit, CrestLimits};
use crate::drawing::{Role, Scene, Shape, ShownIn};
use crate::geometry::{Shape as GroundShape, Terrain, on_level};
use crate::units::Length;

/// What a unit is drawn standing on.
pub(super) struct Stand {
    pub(super) terrain: Terrain,
    /// The crest's radius and where it comes from; nothing off a crest.
    crest: Option<(Length, Origin)>,
}

#[derive(Clone, Copy)]
enum Origin {
    /// It was entered.
    Entered,
    /// It is the one on which the reel just touches.
    Tightest,
}

impl SideView<'_> {
    /// What the unit stands on: on a crest the one that was entered, or else the tightest one that
    /// the reel crosses.
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
            GroundShape::Level | GroundShape::Hollow(_) => match CrestLimits::of(&self.case).reel {
                CrestLimit::Radius(radius) => (radius, Origin::Tightest),
                CrestLimit::TouchesOnLevel | CrestLimit::ClearsAll => return None,
            },
        };
        let pose = &self.case.solution.pose;
        let shape = GroundShape::Crest(radius);
        let terrain = Terrain::under(pose, shape, unit.roller_sink).ok()?;
        Some(Stand {
            terrain,
            crest: Some((radius, origin)),
        })
    }

    /// How far reel and edge stand over the crest, measured square to it.
    pub(super) fn over_crest(&self, scene: &mut Scene) {
        let stand = self.stand();
        let pose = &self.case.solution.pose;
        let Some((radius, origin)) = stand.crest else {
            if self.standing == Standing::Crest {
                let told = match CrestLimits::of(&self.case).reel {
                    CrestLimit::TouchesOnLevel => {
                        "on no crest: the reel touches the ground on the level already"
                    }
                    _ => "on no crest: none reaches the reel",
                };
                let at = pose.front_roller.centre;
                let under = Point::new(at.x, 0.0);
                let word = label(under, (-40.0, 36.0), false, told.to_owned());
                scene.add_in(ShownIn::Whole, Role::Clip, word);
            }
            return;
        };
        let terrain = &stand.terrain;
        let shown = self.system.radius(radius);
        let text = match origin {
            Origin::Entered => format!("crest of {shown} radius"),
            Origin::Tightest => format!("tightest crest the reel crosses: {shown} radius"),
        };
        if let Some(y) = terrain.surface_mm(pose.front_roller.centre.x) {
            let at = Point::new(pose.front_roller.centre.x, y);
            let word = label(at, (-40.0, 36.0), true, text.clone());
            scene.add_in(ShownIn::Whole, Role::Clip, word);
        }
        let centre = pose.centre_on_plate;
        let down = terrain.down_at(centre);
        let lowest = centre + down * pose.reel_radius_mm;
        let clear = terrain.reel_clearance(pose);
        let ground = lowest + down * clear.mm();
        scene.add(Role::Dimension, Shape::Line(line(lowest, ground)));
        let told = if clear.mm() < -1e-6 {
            format!("reel {} into the crest", self.length(-clear))
        } else if clear.mm() < 1e-6 {
            "the reel touches the crest".to_owned()
        } else {
            format!("reel {} over the crest", self.length(clear))
        };
        let word = label(lowest.midpoint(ground), (14.0, 168.0), true, told);
        scene.add_in(ShownIn::Lens, Role::Clip, word);
        let edge = pose.edge_on_plate;
        let cut = terrain.clearance(edge);
        let under_edge = edge + terrain.down_at(edge) * cut.mm();
        scene.add(Role::Dimension, Shape::Line(line(edge, under_edge)));
        let told = format!("edge {} over the crest", self.length(cut));
        let word = label(edge.midpoint(under_edge), (14.0, 140.0), true, told);
        scene.add_in(ShownIn::Lens, Role::Dimension, word);
        let touch = Circle::new(ground, 0.15).to_path(EXACT_MM);
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Line(touch));
    }
}
