//! The sweep: how the reel's circle hangs below the cut line, a circular segment.

use kurbo::Vec2;

use crate::units::{Angle, Length};

/// What the reel does below the cut line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sweep {
    /// How far the edge stands behind the vertical through the reel centre; negative when ahead.
    pub behind_centre: Length,
    /// The centre's height above the edge.
    pub centre_above_edge: Length,
    /// At the reel centre, from straight down to the edge; positive when the edge is behind.
    pub clip_angle: Angle,
    /// How far the lowest point of the reel's circle hangs below the edge; negative when above.
    pub below_cut: Length,
    /// Length of the reel's circle that lies below the cut line, as a chord; 0 when none does.
    pub chord: Length,
}

impl Sweep {
    pub(super) fn of(reel_radius_mm: f64, edge_to_centre_mm: Vec2) -> Self {
        let (behind_mm, above_mm) = (edge_to_centre_mm.x, edge_to_centre_mm.y);
        let under_root = (reel_radius_mm - above_mm) * (reel_radius_mm + above_mm);
        Self {
            behind_centre: Length::from_mm(behind_mm),
            centre_above_edge: Length::from_mm(above_mm),
            clip_angle: Angle::from_rad(behind_mm.atan2(above_mm)),
            below_cut: Length::from_mm(reel_radius_mm - above_mm),
            chord: Length::from_mm(2.0 * under_root.max(0.0).sqrt()),
        }
    }
}

/// Height of a circular segment over half its chord: `R − sqrt(R² − b²)`, the handbook's "rise" or
/// versed sine. It is the sweep below the cut of a reel in light contact.
///
/// Nothing when half the chord is longer than the radius.
#[must_use]
pub fn rise_of_segment(radius: Length, half_chord: Length) -> Option<Length> {
    let (radius_mm, half_mm) = (radius.mm(), half_chord.mm());
    let under_root = (radius_mm - half_mm) * (radius_mm + half_mm);
    (under_root >= 0.0)
        .then(|| Length::from_mm(half_mm * half_mm / (radius_mm + under_root.sqrt())))
}
