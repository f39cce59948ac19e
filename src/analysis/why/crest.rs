//! From crest to scalp: the tightest crest that a unit crosses without touching it.

use crate::analysis::Case;
use crate::geometry::{GroundShape, RollerOnPlate, Terrain, on_level, touching_crest};
use crate::units::{Length, System};

/// The tightest crest for one part of the unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CrestLimit {
    /// It touches the ground on the level already.
    TouchesOnLevel,
    /// It touches on a crest of this radius, and clears every wider one.
    Radius(Length),
    /// No crest that carries both rollers touches it.
    ClearsAll,
}

impl CrestLimit {
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::TouchesOnLevel => "touches_on_level",
            Self::Radius(_) => "touches_at_radius",
            Self::ClearsAll => "clears_all",
        }
    }

    /// The limit of one part of the unit as a sentence.
    #[must_use]
    pub fn told_of(self, part: &str, system: System) -> String {
        match self {
            Self::TouchesOnLevel => {
                format!("The {part} touches level ground already.")
            }
            Self::Radius(radius) => format!(
                "The {part} clears every crest of a radius over {} and touches on tighter ones.",
                system.radius(radius)
            ),
            Self::ClearsAll => {
                format!("The {part} clears every crest that carries both rollers.")
            }
        }
    }

    /// The same in short, the part named beside it.
    #[must_use]
    pub fn in_short(self, system: System) -> String {
        match self {
            Self::TouchesOnLevel => "touches on level ground already".to_owned(),
            Self::Radius(radius) => {
                format!("touches on crests tighter than {}", system.radius(radius))
            }
            Self::ClearsAll => "clears every crest that carries both rollers".to_owned(),
        }
    }

    /// The radius, where there is one.
    #[must_use]
    pub fn radius(self) -> Option<Length> {
        match self {
            Self::Radius(radius) => Some(radius),
            Self::TouchesOnLevel | Self::ClearsAll => None,
        }
    }
}

/// The tightest crests of a unit, the rollers' sink included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrestLimits {
    /// For the reel.
    pub reel: CrestLimit,
    /// For the knife and its hardware.
    pub underside: CrestLimit,
}

impl CrestLimits {
    /// The tightest crest that the whole unit crosses: the wider of both.
    #[must_use]
    pub fn whole(&self) -> CrestLimit {
        use CrestLimit::{ClearsAll, Radius, TouchesOnLevel};
        match (self.reel, self.underside) {
            (TouchesOnLevel, _) | (_, TouchesOnLevel) => TouchesOnLevel,
            (Radius(reel), Radius(knife)) => Radius(if reel > knife { reel } else { knife }),
            (Radius(radius), ClearsAll) | (ClearsAll, Radius(radius)) => Radius(radius),
            (ClearsAll, ClearsAll) => ClearsAll,
        }
    }

    /// Works them out for a solved unit, whatever ground it stands on now.
    #[must_use]
    pub fn of(case: &Case) -> Self {
        let pose = &case.solution.pose;
        let sink = case.unit.sink;
        // A roller that sinks stands on the ground with a radius that is so much smaller.
        let standing = |roller: RollerOnPlate, by: Length| RollerOnPlate {
            radius_mm: roller.radius_mm - by.mm(),
            ..roller
        };
        let front = standing(pose.front_roller, sink.of_front());
        let rear = standing(pose.rear_roller, sink.of_rear());
        let level = Terrain::under(pose, GroundShape::Level, sink).unwrap_or_else(|_| on_level());
        let limit = |clear_of_level: Length, touched: Option<Length>| match touched {
            _ if clear_of_level.mm() <= 0.0 => CrestLimit::TouchesOnLevel,
            Some(radius) => CrestLimit::Radius(radius),
            None => CrestLimit::ClearsAll,
        };
        let under_knife = case
            .underside_on_plate()
            .filter_map(|place| touching_crest(&front, &rear, place, 0.0))
            .reduce(|widest, next| if next > widest { next } else { widest });
        let reel = touching_crest(&front, &rear, pose.centre_on_plate, pose.reel_radius_mm);
        Self {
            reel: limit(level.reel_clearance(pose), reel),
            underside: limit(case.underside_over(&level), under_knife),
        }
    }
}
