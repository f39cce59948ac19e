//! A unit as it was measured on the plate, in plain values.

use kurbo::{Affine, Point};

use super::figures::BenchFigures;
use super::number::Number;
use super::plane::{Motion, Place};
use super::{Closing, Impossible};
use crate::units::{Angle, Length};

/// A roller as measured: its diameter, and how far its centre stands from the edge along the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Roller {
    /// Diameter, above nothing.
    pub diameter: Length,
    /// Centre from the edge along the plate: ahead for the front roller, behind for the rear one.
    pub from_edge: Length,
}

impl Roller {
    /// Half the diameter, in millimetres.
    #[must_use]
    pub fn radius_mm(&self) -> f64 {
        self.diameter.mm() / 2.0
    }
}

/// The bench pose: what was measured while the unit stood on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bench {
    /// Reel diameter as measured.
    pub reel_diameter: Length,
    /// Plate to edge.
    pub height_of_cut: Length,
    /// Knife datum against the plate, positive with the knife's back higher than its edge.
    pub attitude: Angle,
    /// How far the edge stands behind the vertical through the reel centre; negative when ahead.
    pub behind_centre: Length,
    /// Reel surface to edge along the line of centres.
    pub gap: Length,
    /// The front roller.
    pub front_roller: Roller,
    /// The rear roller.
    pub rear_roller: Roller,
}

/// A knife's section, measured from its own unground edge along and below the datum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnifeSection {
    /// Mounting-screw line to edge, along the datum.
    pub reach: Length,
    /// Edge to back.
    pub width: Length,
    /// Thickness of the front lip.
    pub lip_thickness: Length,
    /// Edge to where the lip meets the body.
    pub lip_length: Length,
    /// Thickness of the body.
    pub body_thickness: Length,
}

/// Everything about a unit that its setting does not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Profile {
    /// The bench pose.
    pub bench: Bench,
    /// How reel and knife are brought together.
    pub closing: Closing,
    /// The knife that was on the unit on the bench; others are measured against it.
    pub knife: KnifeSection,
}

impl Bench {
    /// The bench edge, straight above the frame's origin.
    #[must_use]
    pub fn edge_in_frame(&self) -> Point {
        BenchFigures::<f64>::exact(self).edge_in_frame().into()
    }

    /// The reel centre in the bench pose.
    ///
    /// # Errors
    /// When behind centre is more than reel radius and gap together.
    pub fn centre_in_frame(&self) -> Result<Point, Impossible> {
        let centre = BenchFigures::<f64>::exact(self).centre_in_frame()?;
        Ok(centre.into())
    }

    /// The front roller's centre in the bench pose.
    #[must_use]
    pub fn front_roller_in_frame(&self) -> Point {
        let figures = BenchFigures::<f64>::exact(self);
        figures.front_roller_in_frame().into()
    }

    /// The rear roller's centre in the bench pose.
    #[must_use]
    pub fn rear_roller_in_frame(&self) -> Point {
        let figures = BenchFigures::<f64>::exact(self);
        figures.rear_roller_in_frame().into()
    }

    /// Takes a point of the bar (behind the bench edge along the datum, below the datum) to the frame.
    #[must_use]
    pub fn frame_from_bar(&self) -> Affine {
        BenchFigures::<f64>::exact(self).frame_from_bar().into()
    }
}

impl<N: Number> BenchFigures<N> {
    pub(super) fn edge_in_frame(&self) -> Place<N> {
        Place::new(N::exact(0.0), self.height_of_cut_mm)
    }

    pub(super) fn centre_in_frame(&self) -> Result<Place<N>, Impossible> {
        let reach_mm = self.reel_diameter_mm / 2.0 + self.gap_mm;
        let behind_mm = self.behind_centre_mm;
        if behind_mm.re().abs() > reach_mm.re() {
            return Err(Impossible::BehindCentreBeyondReel {
                behind_centre: Length::from_mm(behind_mm.re()),
                reach: Length::from_mm(reach_mm.re()),
            });
        }
        // (r − b)(r + b) keeps its digits where r² − b² would lose them.
        let above_mm = ((reach_mm - behind_mm) * (reach_mm + behind_mm)).root();
        Ok(Place::new(behind_mm, self.height_of_cut_mm + above_mm))
    }

    pub(super) fn front_roller_in_frame(&self) -> Place<N> {
        let roller = &self.front_roller;
        Place::new(roller.from_edge_mm, roller.radius_mm())
    }

    pub(super) fn rear_roller_in_frame(&self) -> Place<N> {
        let roller = &self.rear_roller;
        Place::new(-roller.from_edge_mm, roller.radius_mm())
    }

    /// Back along the datum is (−cos α, sin α) of the frame, down from it (−sin α, −cos α).
    pub(super) fn frame_from_bar(&self) -> Motion<N> {
        let (sin, cos) = self.attitude_deg.to_rad().sin_cos();
        Motion {
            cos: -cos,
            sin,
            shift: self.edge_in_frame().way_there(),
        }
    }
}
