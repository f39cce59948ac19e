//! The ground under the rollers: level, a crest or a hollow, and how deep the rollers sink.

use kurbo::{Point, Vec2};

use super::circles::{Circle, Meeting};
use super::number::Number;
use super::plane::Place;
use super::{Impossible, Pose, RollerOnPlate};
use crate::units::Length;

/// The ground's shape along the direction of travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GroundShape<N = f64> {
    /// As the plate.
    Level,
    /// A rise of this radius.
    Crest(Length<N>),
    /// A dip of this radius.
    Hollow(Length<N>),
}

impl GroundShape {
    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(&self) -> GroundShape<N> {
        match self {
            Self::Level => GroundShape::Level,
            Self::Crest(radius) => GroundShape::Crest(radius.exact()),
            Self::Hollow(radius) => GroundShape::Hollow(radius.exact()),
        }
    }
}

/// The ground a posed unit stands on, on the plate's axes: both rollers rest on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Terrain(Ground<f64>);

/// Level ground without sink: the plate itself.
#[must_use]
pub fn on_level() -> Terrain {
    Terrain(Ground::level())
}

impl Terrain {
    /// Puts ground of a shape under a posed unit, the rollers sunk into it.
    ///
    /// # Errors
    /// When the crest or hollow is too tight for both rollers to rest on it.
    pub fn under(pose: &Pose, shape: GroundShape, sink: Length) -> Result<Self, Impossible> {
        let disc = |roller: RollerOnPlate| Circle {
            centre: roller.centre.into(),
            radius_mm: roller.radius_mm,
        };
        let (front, rear) = (disc(pose.front_roller), disc(pose.rear_roller));
        Ground::under(front, rear, shape, sink).map(Self)
    }

    /// How clear a point stands of this ground; negative inside it.
    #[must_use]
    pub fn clearance(&self, on_plate: Point) -> Length {
        Length::from_mm(self.0.clearance_mm(on_plate.into()))
    }

    /// How clear the reel stands of this ground; negative inside it.
    #[must_use]
    pub fn reel_clearance(&self, pose: &Pose) -> Length {
        let reel = Circle {
            centre: pose.centre_on_plate.into(),
            radius_mm: pose.reel_radius_mm,
        };
        Length::from_mm(self.0.clearance_of_disc_mm(reel))
    }

    /// The height of the ground's surface on the plate's axes at a place along them.
    ///
    /// The sink is taken up here: the surface stands that much higher. None beside the circle
    /// of a crest or hollow.
    #[must_use]
    pub fn surface_mm(&self, x_mm: f64) -> Option<f64> {
        let upright = |centre: Place<f64>, radius_mm: f64| {
            let across = x_mm - centre.x;
            let under_root = (radius_mm - across) * (radius_mm + across);
            (under_root >= 0.0).then(|| under_root.sqrt())
        };
        let surface = match self.0.surface {
            Surface::Level => 0.0,
            Surface::Crest { centre, radius_mm } => centre.y + upright(centre, radius_mm)?,
            Surface::Hollow { centre, radius_mm } => centre.y - upright(centre, radius_mm)?,
        };
        Some(surface + self.0.sink_mm)
    }

    /// The direction in which a point is nearest the ground: square to its surface, one long.
    #[must_use]
    pub fn down_at(&self, on_plate: Point) -> Vec2 {
        let (way, sign) = match self.0.surface {
            Surface::Level => return Vec2::new(0.0, -1.0),
            Surface::Crest { centre, .. } => (centre, 1.0),
            Surface::Hollow { centre, .. } => (centre, -1.0),
        };
        let to_centre = Point::new(way.x, way.y) - on_plate;
        to_centre.normalize() * sign
    }

    /// Whether this is the plate itself.
    #[must_use]
    pub fn is_level(&self) -> bool {
        self.0.surface == Surface::Level
    }
}

impl From<Ground<f64>> for Terrain {
    fn from(ground: Ground<f64>) -> Self {
        Self(ground)
    }
}

/// The ground in bare numbers, its surface as the rollers bring it there, the sink beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ground<N> {
    surface: Surface<N>,
    sink_mm: N,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Surface<N> {
    Level,
    Crest { centre: Place<N>, radius_mm: N },
    Hollow { centre: Place<N>, radius_mm: N },
}

impl<N: Number> Ground<N> {
    /// The plate itself.
    pub(crate) fn level() -> Self {
        Self {
            surface: Surface::Level,
            sink_mm: N::exact(0.0),
        }
    }

    /// Ground of a shape under both rollers, sunk into it.
    pub(crate) fn under(
        front: Circle<N>,
        rear: Circle<N>,
        shape: GroundShape<N>,
        sink: Length<N>,
    ) -> Result<Self, Impossible> {
        let apart = || Length::from_mm((front.centre - rear.centre).hypot().re());
        let surface = match shape {
            GroundShape::Level => Surface::Level,
            GroundShape::Crest(radius) => {
                let radius_mm = radius.mm();
                let about = |roller: Circle<N>| Circle {
                    centre: roller.centre,
                    radius_mm: radius_mm + roller.radius_mm,
                };
                Meeting::of(about(rear), about(front))
                    .map(|meeting| Surface::Crest {
                        centre: meeting.right(),
                        radius_mm,
                    })
                    .ok_or_else(|| Impossible::CrestTooTight {
                        radius: Length::from_mm(radius_mm.re()),
                        apart: apart(),
                    })?
            }
            GroundShape::Hollow(radius) => {
                let radius_mm = radius.mm();
                let about = |roller: Circle<N>| Circle {
                    centre: roller.centre,
                    radius_mm: radius_mm - roller.radius_mm,
                };
                let widest_mm = rear.radius_mm.re().max(front.radius_mm.re());
                (radius_mm.re() > widest_mm)
                    .then(|| Meeting::of(about(rear), about(front)))
                    .flatten()
                    .map(|meeting| Surface::Hollow {
                        centre: meeting.left(),
                        radius_mm,
                    })
                    .ok_or_else(|| Impossible::HollowTooTight {
                        radius: Length::from_mm(radius_mm.re()),
                        apart: apart(),
                    })?
            }
        };
        Ok(Self {
            surface,
            sink_mm: sink.mm(),
        })
    }

    /// How clear a point stands of this ground; negative inside it.
    pub(crate) fn clearance_mm(&self, on_plate: Place<N>) -> N {
        self.clearance_of_disc_mm(Circle {
            centre: on_plate,
            radius_mm: N::exact(0.0),
        })
    }

    /// How clear a disc stands of this ground; negative inside it.
    pub(crate) fn clearance_of_disc_mm(&self, disc: Circle<N>) -> N {
        let clear_mm = match self.surface {
            Surface::Level => disc.centre.y - disc.radius_mm,
            Surface::Crest { centre, radius_mm } => {
                (disc.centre - centre).hypot() - disc.radius_mm - radius_mm
            }
            Surface::Hollow { centre, radius_mm } => {
                radius_mm - disc.radius_mm - (disc.centre - centre).hypot()
            }
        };
        clear_mm - self.sink_mm
    }
}
