//! The sweep: how the reel's circle hangs below the cut line, a circular segment.

use super::number::Number;
use super::plane::Way;
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

/// The same as bare numbers.
// A bare number's name carries its unit.
#[allow(clippy::struct_field_names)]
#[derive(Clone, Copy, Debug)]
pub(crate) struct SweepFigures<N> {
    pub(crate) behind_centre_mm: N,
    pub(crate) centre_above_edge_mm: N,
    pub(crate) below_cut_mm: N,
    reel_radius_mm: N,
}

impl<N: Number> SweepFigures<N> {
    pub(crate) fn of(reel_radius_mm: N, edge_to_centre: Way<N>) -> Self {
        Self {
            behind_centre_mm: edge_to_centre.x,
            centre_above_edge_mm: edge_to_centre.y,
            below_cut_mm: reel_radius_mm - edge_to_centre.y,
            reel_radius_mm,
        }
    }

    pub(crate) fn clip_angle_rad(&self) -> N {
        self.behind_centre_mm.angle_over(self.centre_above_edge_mm)
    }

    pub(crate) fn chord_mm(&self) -> N {
        let (radius_mm, above_mm) = (self.reel_radius_mm, self.centre_above_edge_mm);
        ((radius_mm - above_mm) * (radius_mm + above_mm)).root() * 2.0
    }

    /// Sweep over height of cut; nothing when the edge is not above the plate.
    pub(crate) fn share_of(&self, height_of_cut_mm: N) -> Option<N> {
        (height_of_cut_mm.re() > 0.0).then(|| self.below_cut_mm / height_of_cut_mm)
    }

    /// Plate to the lowest point of the reel's circle.
    pub(crate) fn reel_over_plate_mm(&self, height_of_cut_mm: N) -> N {
        height_of_cut_mm - self.below_cut_mm
    }
}

impl From<SweepFigures<f64>> for Sweep {
    fn from(figures: SweepFigures<f64>) -> Self {
        Self {
            behind_centre: Length::from_mm(figures.behind_centre_mm),
            centre_above_edge: Length::from_mm(figures.centre_above_edge_mm),
            clip_angle: Angle::from_rad(figures.clip_angle_rad()),
            below_cut: Length::from_mm(figures.below_cut_mm),
            chord: Length::from_mm(figures.chord_mm()),
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
