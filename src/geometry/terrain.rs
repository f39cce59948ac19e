//! The ground under the rollers: level, a crest or a hollow, and how deep the rollers sink.

use kurbo::{Point, Vec2};

use super::circles::{Circle, Meeting};
use super::ground_line::GroundLine;
use super::number::Number;
use super::plane::Place;
use super::{Impossible, Pose, RollerOnPlate};
use crate::units::{Angle, Length};

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

/// How deep the rollers sink into the ground.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sink<N = f64> {
    /// Both of them, where a roller has no sink of its own.
    pub rollers: Length<N>,
    /// The front roller's own.
    pub front: Option<Length<N>>,
    /// The rear roller's own.
    pub rear: Option<Length<N>>,
}

impl<N: Copy> Sink<N> {
    /// The same for both rollers.
    pub const fn of_both(rollers: Length<N>) -> Self {
        Self {
            rollers,
            front: None,
            rear: None,
        }
    }

    /// How deep the front roller sinks.
    pub fn of_front(&self) -> Length<N> {
        self.front.unwrap_or(self.rollers)
    }

    /// How deep the rear roller sinks.
    pub fn of_rear(&self) -> Length<N> {
        self.rear.unwrap_or(self.rollers)
    }
}

impl Sink {
    /// None at all.
    pub const NONE: Self = Self::of_both(Length::ZERO);

    /// Whether both rollers stand on top of the ground.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.of_front() == Length::ZERO && self.of_rear() == Length::ZERO
    }

    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(&self) -> Sink<N> {
        Sink {
            rollers: self.rollers.exact(),
            front: self.front.map(Length::exact),
            rear: self.rear.map(Length::exact),
        }
    }
}

/// The ground a posed unit stands on, on the plate's axes: both rollers rest on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Terrain(Ground<f64>);

/// Level ground without sink: the plate itself.
#[must_use]
pub fn on_level() -> Terrain {
    Terrain(Ground::plate())
}

impl Terrain {
    /// Puts ground of a shape under a posed unit, the rollers sunk into it.
    ///
    /// # Errors
    /// When the crest or hollow is too tight for both rollers to rest on it, or no level ground
    /// touches both as deep as they sink.
    pub fn under(pose: &Pose, shape: GroundShape, sink: Sink) -> Result<Self, Impossible> {
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

    /// The slope of the ground under a point, at its foot square to the surface: positive rising
    /// ahead.
    #[must_use]
    pub fn slope_under(&self, on_plate: Point) -> Angle {
        Angle::from_rad(self.0.slope_under_rad(on_plate.into()))
    }

    /// The height of the ground's surface on the plate's axes at a place along them; none beside the
    /// circle of a crest or hollow.
    #[must_use]
    pub fn surface_mm(&self, x_mm: f64) -> Option<f64> {
        let upright = |centre: Place<f64>, radius_mm: f64| {
            let across = x_mm - centre.x;
            let under_root = (radius_mm - across) * (radius_mm + across);
            (under_root >= 0.0).then(|| under_root.sqrt())
        };
        Some(match self.0 {
            Ground::Level(line) => line.foot.y - (x_mm - line.foot.x) * line.up.x / line.up.y,
            Ground::Crest { centre, radius_mm } => centre.y + upright(centre, radius_mm)?,
            Ground::Hollow { centre, radius_mm } => centre.y - upright(centre, radius_mm)?,
        })
    }

    /// The direction in which a point is nearest the ground: square to its surface, one long.
    #[must_use]
    pub fn down_at(&self, on_plate: Point) -> Vec2 {
        let (way, sign) = match self.0 {
            Ground::Level(line) => return -Vec2::new(line.up.x, line.up.y),
            Ground::Crest { centre, .. } => (centre, 1.0),
            Ground::Hollow { centre, .. } => (centre, -1.0),
        };
        let to_centre = Point::new(way.x, way.y) - on_plate;
        to_centre.normalize() * sign
    }

    /// The ground raised by so much, square to its surface: what is left where all above is cut away.
    #[must_use]
    pub fn raised(&self, by: Length) -> Self {
        let by_mm = by.mm();
        Self(match self.0 {
            Ground::Level(line) => Ground::Level(GroundLine {
                foot: line.foot + line.up * by_mm,
                ..line
            }),
            Ground::Crest { centre, radius_mm } => Ground::Crest {
                centre,
                radius_mm: radius_mm + by_mm,
            },
            Ground::Hollow { centre, radius_mm } => Ground::Hollow {
                centre,
                radius_mm: radius_mm - by_mm,
            },
        })
    }

    /// How far a circle lies below this ground's surface: on either side of its lowest point, as an angle at
    /// its centre. None where all of it is above or all below.
    #[must_use]
    pub fn half_arc_below(&self, centre: Point, radius_mm: f64) -> Option<Angle> {
        // By the law of cosines, in the triangle of both centres and a place where the circles meet.
        let cosine = match self.0 {
            Ground::Level(_) => self.clearance(centre).mm() / radius_mm,
            Ground::Crest {
                centre: middle,
                radius_mm: ground_mm,
            } => {
                let apart = centre.distance(Point::new(middle.x, middle.y));
                (apart * apart + radius_mm * radius_mm - ground_mm * ground_mm)
                    / (2.0 * apart * radius_mm)
            }
            Ground::Hollow {
                centre: middle,
                radius_mm: ground_mm,
            } => {
                let apart = centre.distance(Point::new(middle.x, middle.y));
                (ground_mm * ground_mm - apart * apart - radius_mm * radius_mm)
                    / (2.0 * apart * radius_mm)
            }
        };
        (cosine.abs() < 1.0).then(|| Angle::from_rad(cosine.acos()))
    }

    /// Whether this is straight ground: the plate, or level ground that the rollers sink into.
    #[must_use]
    pub fn is_level(&self) -> bool {
        matches!(self.0, Ground::Level(_))
    }
}

impl From<Ground<f64>> for Terrain {
    fn from(ground: Ground<f64>) -> Self {
        Self(ground)
    }
}

/// The ground in bare numbers, where the rollers sunk into it bring it.
///
/// A roller that sinks by s stands on it with a radius that is s smaller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Ground<N> {
    Level(GroundLine<N>),
    Crest { centre: Place<N>, radius_mm: N },
    Hollow { centre: Place<N>, radius_mm: N },
}

impl<N: Number> Ground<N> {
    /// The plate itself.
    pub(crate) fn plate() -> Self {
        Self::Level(GroundLine::plate())
    }

    /// Ground of a shape under both rollers, sunk into it.
    pub(crate) fn under(
        front: Circle<N>,
        rear: Circle<N>,
        shape: GroundShape<N>,
        sink: Sink<N>,
    ) -> Result<Self, Impossible> {
        let standing = |roller: Circle<N>, by: Length<N>| Circle {
            radius_mm: roller.radius_mm - by.mm(),
            ..roller
        };
        let (front_sink, rear_sink) = (sink.of_front(), sink.of_rear());
        let (front, rear) = (standing(front, front_sink), standing(rear, rear_sink));
        let apart = || Length::from_mm((front.centre - rear.centre).hypot().re());
        match shape {
            // Sunk alike the ground lies level, to the last digit; only the derivatives are more.
            GroundShape::Level if N::NDERIV == 0 && front_sink == rear_sink => {
                let plate = GroundLine::plate();
                Ok(Self::Level(GroundLine {
                    foot: plate.foot + plate.up * front_sink.mm(),
                    ..plate
                }))
            }
            GroundShape::Level => GroundLine::under_rollers(front, rear).map(Self::Level),
            GroundShape::Crest(radius) => {
                let radius_mm = radius.mm();
                let about = |roller: Circle<N>| Circle {
                    centre: roller.centre,
                    radius_mm: radius_mm + roller.radius_mm,
                };
                Meeting::of(about(rear), about(front))
                    .map(|meeting| Self::Crest {
                        centre: meeting.right(),
                        radius_mm,
                    })
                    .ok_or_else(|| Impossible::CrestTooTight {
                        radius: Length::from_mm(radius_mm.re()),
                        apart: apart(),
                    })
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
                    .map(|meeting| Self::Hollow {
                        centre: meeting.left(),
                        radius_mm,
                    })
                    .ok_or_else(|| Impossible::HollowTooTight {
                        radius: Length::from_mm(radius_mm.re()),
                        apart: apart(),
                    })
            }
        }
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
        match *self {
            Self::Level(line) => line.height_mm(disc.centre) - disc.radius_mm,
            Self::Crest { centre, radius_mm } => {
                (disc.centre - centre).hypot() - disc.radius_mm - radius_mm
            }
            Self::Hollow { centre, radius_mm } => {
                radius_mm - disc.radius_mm - (disc.centre - centre).hypot()
            }
        }
    }

    /// The place of the ground nearest to a point, square to its surface: where a roller centred on the
    /// point touches it.
    pub(crate) fn foot_of(&self, on_plate: Place<N>) -> Place<N> {
        match *self {
            Self::Level(line) => on_plate + line.up * -line.height_mm(on_plate),
            Self::Crest { centre, radius_mm } | Self::Hollow { centre, radius_mm } => {
                let away = on_plate - centre;
                centre + away * (radius_mm / away.hypot())
            }
        }
    }

    /// The slope of the ground under a point, at its foot square to the surface: positive rising
    /// ahead.
    pub(crate) fn slope_under_rad(&self, on_plate: Place<N>) -> N {
        let up = match *self {
            Self::Level(line) => return line.slope_rad,
            Self::Crest { centre, .. } => on_plate - centre,
            Self::Hollow { centre, .. } => centre - on_plate,
        };
        (-up.x).angle_over(up.y)
    }
}
