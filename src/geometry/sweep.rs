//! The sweep: how the reel's circle hangs below the cut line, a circular segment.

use super::number::Number;
use super::plane::Way;
use crate::units::{Angle, Length};

/// What the reel does below the cut line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sweep<N = f64> {
    /// How far the edge stands behind the vertical through the reel centre; negative when ahead.
    pub behind_centre: Length<N>,
    /// The centre's height above the edge.
    pub centre_above_edge: Length<N>,
    /// At the reel centre, from straight down to the edge; positive when the edge is behind.
    pub clip_angle: Angle<N>,
    /// How far the lowest point of the reel's circle hangs below the edge; negative when above.
    pub below_cut: Length<N>,
    /// Length of the reel's circle that lies below the cut line, as a chord; 0 when none does.
    pub chord: Length<N>,
}

impl<N: Number> Sweep<N> {
    pub(crate) fn of(reel_radius_mm: N, edge_to_centre: Way<N>) -> Self {
        let Way {
            x: behind,
            y: above,
        } = edge_to_centre;
        let under_root = (reel_radius_mm - above) * (reel_radius_mm + above);
        Self {
            behind_centre: Length::from_mm(behind),
            centre_above_edge: Length::from_mm(above),
            clip_angle: Angle::from_rad(behind.angle_over(above)),
            below_cut: Length::from_mm(reel_radius_mm - above),
            chord: Length::from_mm(under_root.root() * 2.0),
        }
    }

    /// Sweep over height of cut; none when the edge is not above the plate.
    pub(crate) fn share_of(&self, height_of_cut: Length<N>) -> Option<N> {
        (height_of_cut.mm().re() > 0.0).then(|| self.below_cut.mm() / height_of_cut.mm())
    }
}

/// Height of a circular segment over half its chord: `R − sqrt(R² − b²)`, the handbook's "rise" or
/// versed sine. It is the sweep below the cut of a reel in light contact.
///
/// None when half the chord is longer than the radius.
#[must_use]
pub fn rise_of_segment(radius: Length, half_chord: Length) -> Option<Length> {
    let (radius_mm, half_mm) = (radius.mm(), half_chord.mm());
    let under_root = (radius_mm - half_mm) * (radius_mm + half_mm);
    (under_root >= 0.0)
        .then(|| Length::from_mm(half_mm * half_mm / (radius_mm + under_root.sqrt())))
}
