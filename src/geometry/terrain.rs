//! The ground under the rollers: level, a crest or a hollow, and how deep the rollers sink.

use kurbo::Point;

use super::circles::{Circle, Meeting};
use super::{Impossible, Pose, RollerOnPlate};
use crate::units::Length;

/// The ground's shape along the direction of travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// As the plate.
    Level,
    /// A rise of this radius.
    Crest(Length),
    /// A dip of this radius.
    Hollow(Length),
}

/// The ground a posed unit stands on, on the plate's axes: both rollers rest on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Terrain {
    surface: Surface,
    sink_mm: f64,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Surface {
    Level,
    Crest { centre: Point, radius_mm: f64 },
    Hollow { centre: Point, radius_mm: f64 },
}

/// Level ground without sink: the plate itself.
#[must_use]
pub fn on_level() -> Terrain {
    Terrain {
        surface: Surface::Level,
        sink_mm: 0.0,
    }
}

impl Terrain {
    /// Puts ground of a shape under a posed unit, the rollers sunk into it.
    ///
    /// # Errors
    /// When the crest or hollow is too tight for both rollers to rest on it.
    pub fn under(pose: &Pose, shape: Shape, sink: Length) -> Result<Self, Impossible> {
        let (front, rear) = (pose.front_roller, pose.rear_roller);
        let apart = Length::from_mm((front.centre - rear.centre).hypot());
        let surface = match shape {
            Shape::Level => Surface::Level,
            Shape::Crest(radius) => {
                let radius_mm = radius.mm();
                let about = |roller: RollerOnPlate| Circle {
                    centre: roller.centre,
                    radius_mm: radius_mm + roller.radius_mm,
                };
                Meeting::of(about(rear), about(front))
                    .map(|meeting| Surface::Crest {
                        centre: meeting.right(),
                        radius_mm,
                    })
                    .ok_or(Impossible::CrestTooTight { radius, apart })?
            }
            Shape::Hollow(radius) => {
                let radius_mm = radius.mm();
                let about = |roller: RollerOnPlate| Circle {
                    centre: roller.centre,
                    radius_mm: radius_mm - roller.radius_mm,
                };
                let is_wide = radius_mm > rear.radius_mm.max(front.radius_mm);
                is_wide
                    .then(|| Meeting::of(about(rear), about(front)))
                    .flatten()
                    .map(|meeting| Surface::Hollow {
                        centre: meeting.left(),
                        radius_mm,
                    })
                    .ok_or(Impossible::HollowTooTight { radius, apart })?
            }
        };
        Ok(Self {
            surface,
            sink_mm: sink.mm(),
        })
    }

    /// How clear a point stands of this ground; negative inside it.
    #[must_use]
    pub fn clearance(&self, on_plate: Point) -> Length {
        self.clearance_of_disc(on_plate, 0.0)
    }

    /// How clear the reel stands of this ground; negative inside it.
    #[must_use]
    pub fn reel_clearance(&self, pose: &Pose) -> Length {
        self.clearance_of_disc(pose.centre_on_plate, pose.reel_radius_mm)
    }

    /// The height of the ground's surface on the plate's axes at a place along them.
    ///
    /// The sink is taken up here: the surface stands that much higher. Nothing beside the circle
    /// of a crest or hollow.
    #[must_use]
    pub fn surface_mm(&self, x_mm: f64) -> Option<f64> {
        let upright = |centre: Point, radius_mm: f64| {
            let across = x_mm - centre.x;
            let under_root = (radius_mm - across) * (radius_mm + across);
            (under_root >= 0.0).then(|| under_root.sqrt())
        };
        let surface = match self.surface {
            Surface::Level => 0.0,
            Surface::Crest { centre, radius_mm } => centre.y + upright(centre, radius_mm)?,
            Surface::Hollow { centre, radius_mm } => centre.y - upright(centre, radius_mm)?,
        };
        Some(surface + self.sink_mm)
    }

    /// Whether this is the plate itself.
    #[must_use]
    pub fn is_level(&self) -> bool {
        self.surface == Surface::Level
    }

    fn clearance_of_disc(&self, centre_of_disc: Point, disc_radius_mm: f64) -> Length {
        let clear_mm = match self.surface {
            Surface::Level => centre_of_disc.y - disc_radius_mm,
            Surface::Crest { centre, radius_mm } => {
                (centre_of_disc - centre).hypot() - disc_radius_mm - radius_mm
            }
            Surface::Hollow { centre, radius_mm } => {
                radius_mm - disc_radius_mm - (centre_of_disc - centre).hypot()
            }
        };
        Length::from_mm(clear_mm - self.sink_mm)
    }
}
