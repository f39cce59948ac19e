//! How far a search looks: one place for each range.

use crate::unit::Limits;
use crate::units::{Angle, Length};

/// The attitudes that are looked at when the brackets' range is not known.
pub const ATTITUDES: (Angle, Angle) = (Angle::from_deg(-5.0), Angle::from_deg(20.0));
/// How far the edge is looked for ahead of and behind its place: half an inch.
pub const MOST_EXTENSION: Length = Length::from_inches(0.5);
/// How far a roller is moved in its brackets at most, either way (common practice, no source).
pub const MOST_ROLLER_MOVE: Length = Length::from_inches(1.0);
/// The lowest height of cut that is looked at, in millimetres.
pub const LEAST_HEIGHT_MM: f64 = 0.5;
/// The highest height of cut that is looked at, in millimetres.
pub const MOST_HEIGHT_MM: f64 = 120.0;

/// The attitudes that are looked at: what the brackets were said to allow, or −5° to 20°.
#[must_use]
pub fn attitude_range(limits: &Limits) -> (Angle, Angle) {
    limits.attitude_range.unwrap_or(ATTITUDES)
}

/// How much of a lip may be ground away, as a part of what it was made with (common practice, no
/// source).
pub const MOST_OF_LIP: f64 = 0.5;
