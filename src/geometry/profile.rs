//! A unit as it was measured on the plate, in plain values.

use super::number::Number;
use super::plane::{Motion, Place};
use super::{Closing, Impossible};
use crate::units::{Angle, Length};

/// A roller as measured: its diameter, and how far its centre stands from the edge along the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Roller<N = f64> {
    /// Diameter, above zero.
    pub diameter: Length<N>,
    /// Centre from the edge along the plate: ahead for the front roller, behind for the rear one.
    pub from_edge: Length<N>,
}

impl<N: Number> Roller<N> {
    /// Half the diameter, in millimetres.
    pub fn radius_mm(&self) -> N {
        self.diameter.mm() / 2.0
    }
}

/// The bench pose: what was measured while the unit stood on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bench<N = f64> {
    /// Reel diameter as measured.
    pub reel_diameter: Length<N>,
    /// Plate to edge.
    pub height_of_cut: Length<N>,
    /// Knife datum against the plate, positive with the knife's back higher than its edge.
    pub attitude: Angle<N>,
    /// How far the edge stands behind the vertical through the reel centre; negative when ahead.
    pub behind_centre: Length<N>,
    /// Reel surface to edge along the line of centres.
    pub gap: Length<N>,
    /// The front roller.
    pub front_roller: Roller<N>,
    /// The rear roller.
    pub rear_roller: Roller<N>,
}

/// A knife's section, measured from its own unground edge along and below the datum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnifeSection<N = f64> {
    /// Mounting-screw line to edge, along the datum.
    pub reach: Length<N>,
    /// Edge to back.
    pub width: Length<N>,
    /// Thickness of the front lip.
    pub lip_thickness: Length<N>,
    /// Edge to where the lip meets the body.
    pub lip_length: Length<N>,
    /// Thickness of the body.
    pub body_thickness: Length<N>,
    /// How far the top face falls below the datum, going back from the edge; none where nobody
    /// gave it.
    pub top_angle: Option<Angle<N>>,
    /// How far the front face leans back, going down from the edge; none where nobody gave it.
    pub front_angle: Option<Angle<N>>,
    /// Metal taken off the top face, square to it.
    pub top_ground: Length<N>,
    /// Metal taken off the front face, square to it.
    pub face_ground: Length<N>,
}

/// Everything about a unit that its setting does not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Profile<N = f64> {
    /// The bench pose.
    pub bench: Bench<N>,
    /// How reel and knife are brought together.
    pub closing: Closing<N>,
    /// The knife that was on the unit on the bench; others are measured against it.
    pub knife: KnifeSection<N>,
}

impl Profile {
    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(&self) -> Profile<N> {
        Profile {
            bench: self.bench.exact(),
            closing: self.closing.exact(),
            knife: self.knife.exact(),
        }
    }
}

impl<N: Number> Bench<N> {
    /// How the line from the edge to the reel's centre leans, positive leaning ahead at the top.
    pub(crate) fn lean_of_bench_line(&self) -> Angle<N> {
        let behind = self.behind_centre.mm();
        let to_centre = self.reel_diameter.mm() * 0.5 + self.gap.mm();
        let upright = (to_centre * to_centre - behind * behind).root();
        Angle::from_rad(behind.angle_over(upright))
    }
}

impl Bench {
    fn exact<N: Number>(&self) -> Bench<N> {
        Bench {
            reel_diameter: self.reel_diameter.exact(),
            height_of_cut: self.height_of_cut.exact(),
            attitude: self.attitude.exact(),
            behind_centre: self.behind_centre.exact(),
            gap: self.gap.exact(),
            front_roller: self.front_roller.exact(),
            rear_roller: self.rear_roller.exact(),
        }
    }
}

impl Roller {
    fn exact<N: Number>(&self) -> Roller<N> {
        Roller {
            diameter: self.diameter.exact(),
            from_edge: self.from_edge.exact(),
        }
    }
}

impl KnifeSection {
    pub(super) fn exact<N: Number>(&self) -> KnifeSection<N> {
        KnifeSection {
            reach: self.reach.exact(),
            width: self.width.exact(),
            lip_thickness: self.lip_thickness.exact(),
            lip_length: self.lip_length.exact(),
            body_thickness: self.body_thickness.exact(),
            top_angle: self.top_angle.map(Angle::exact),
            front_angle: self.front_angle.map(Angle::exact),
            top_ground: self.top_ground.exact(),
            face_ground: self.face_ground.exact(),
        }
    }

    /// The same knife before anything was ground off it.
    #[must_use]
    pub fn unground(self) -> Self {
        Self {
            top_ground: Length::ZERO,
            face_ground: Length::ZERO,
            ..self
        }
    }
}

impl<N: Number> KnifeSection<N> {
    /// The edge, where the ground top face meets the ground front face: behind and below the
    /// unground edge. A face without an angle of its own counts as 0° here.
    ///
    /// The top face, τ below the datum, lies t deeper, square to it; the front face, leaning back
    /// by ξ, lies f further back, square to it. Both hold where they meet.
    #[must_use]
    pub fn edge_from_unground(&self) -> Place<N> {
        let rad = |angle: Option<Angle<N>>| angle.map_or(N::exact(0.0), Angle::rad);
        let (top_rad, front_rad) = (rad(self.top_angle), rad(self.front_angle));
        let (top, face) = (self.top_ground.mm(), self.face_ground.mm());
        let ((sin_top, cos_top), (sin_front, cos_front)) = (top_rad.sin_cos(), front_rad.sin_cos());
        let between = (top_rad + front_rad).cos();
        Place::new(
            (top * sin_front + face * cos_top) / between,
            (top * cos_front + face * sin_top) / between,
        )
    }

    /// How far behind the unground edge the ground front face meets the lip's underside.
    pub(super) fn lip_bottom_behind(&self) -> Length<N> {
        match self.front_angle {
            None => self.face_ground,
            Some(angle) => {
                let (sin, cos) = angle.rad().sin_cos();
                let behind = (self.face_ground.mm() + self.lip_thickness.mm() * sin) / cos;
                Length::from_mm(behind)
            }
        }
    }
}

impl<N: Number> Bench<N> {
    pub(super) fn edge_in_frame(&self) -> Place<N> {
        Place::new(N::exact(0.0), self.height_of_cut.mm())
    }

    pub(super) fn centre_in_frame(&self) -> Result<Place<N>, Impossible> {
        let reach_mm = self.reel_diameter.mm() / 2.0 + self.gap.mm();
        let behind_mm = self.behind_centre.mm();
        if behind_mm.re().abs() > reach_mm.re() {
            return Err(Impossible::BehindCentreBeyondReel {
                behind_centre: Length::from_mm(behind_mm.re()),
                reach: Length::from_mm(reach_mm.re()),
            });
        }
        // (r − b)(r + b) keeps its digits where r² − b² would lose them.
        let above_mm = ((reach_mm - behind_mm) * (reach_mm + behind_mm)).root();
        Ok(Place::new(behind_mm, self.height_of_cut.mm() + above_mm))
    }

    pub(super) fn front_roller_in_frame(&self) -> Place<N> {
        let roller = &self.front_roller;
        Place::new(roller.from_edge.mm(), roller.radius_mm())
    }

    pub(super) fn rear_roller_in_frame(&self) -> Place<N> {
        let roller = &self.rear_roller;
        Place::new(-roller.from_edge.mm(), roller.radius_mm())
    }

    /// Back along the datum is (−cos α, sin α) of the frame, down from it (−sin α, −cos α).
    pub(super) fn frame_from_bar(&self) -> Motion<N> {
        let (sin, cos) = self.attitude.rad().sin_cos();
        Motion {
            cos: -cos,
            sin,
            shift: self.edge_in_frame().way_there(),
        }
    }
}
