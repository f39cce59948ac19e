//! The knife's top face against the reel: whether the face behind the edge clears the reel's circle.

use super::number::Number;
use crate::units::{Angle, Length};

/// The top angle below which the face behind the edge would stand inside the reel.
///
/// Seen from the edge the reel's circle rises to the back at the clip angle, the datum at the
/// attitude: what lies between must be ground away. Turning the frame changes both alike.
pub(crate) fn top_angle_needed<N: Number>(attitude: Angle<N>, clip_angle: Angle<N>) -> Angle<N> {
    attitude - clip_angle
}

/// How near a top face that needs more angle comes to the reel's surface, behind the edge; negative
/// inside it: `(R + g)·cos κ − R`, with κ below zero what its angle lacks.
#[must_use]
pub fn heel_to_reel(reel_radius: Length, gap: Length, clearance: Angle) -> Length {
    (reel_radius + gap) * clearance.rad().cos() - reel_radius
}
