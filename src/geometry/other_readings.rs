//! What follows from other readings than those a unit is described by: behind centre from a rise or
//! from a gauge block, the ground's radius from a straightedge.

use super::Number;
use crate::units::{Length, Sentence};

/// Another reading that cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Misread {
    /// A rise that the reel's circle does not have.
    RiseOffTheReel {
        /// The rise.
        rise: Length,
        /// The least there is.
        least: Length,
        /// The most: the reel's radius.
        most: Length,
    },
    /// A rise, with the gap, that may be zero for all the readings say.
    RiseLostInItsOff {
        /// The rise.
        rise: Length,
        /// How far it can be off, the gap's own ± included.
        off: Length,
        /// How far from straight below the centre the edge may stand.
        within: Length,
    },
    /// A gap under a straightedge that may be zero for all the readings say.
    GapLostInItsOff {
        /// The gap.
        gap: Length,
        /// How far it can be off.
        off: Length,
    },
    /// A block that touches the knife above its edge.
    TouchesOverEdge {
        /// Where it touches, over the plate.
        touches_at: Length,
        /// The height of cut.
        height_of_cut: Length,
    },
    /// A reel with no two tips to lie a tape or a caliper over.
    TooFewBlades,
    /// A tape so thick that what it reads goes all into going round itself.
    TapeThickerThanRound {
        /// Its length once round.
        length: Length,
        /// Its thickness.
        thickness: Length,
    },
    /// Bars that are as thick as what was read over them.
    BarsThickerThanOver {
        /// Over both bars with the reel between.
        over: Length,
        /// Both bars together.
        bars: Length,
    },
    /// What slides stands at the same height in both places.
    NoRise,
    /// Two places of what slides that may be one for all the readings say.
    TravelLostInItsOff {
        /// How far they stand apart.
        travel: Length,
        /// How far the readings can be off, all together.
        off: Length,
    },
    /// A reel's shaft so low that the reel would reach into the plate.
    ShaftTooLow {
        /// How high its middle stands over the plate.
        height: Length,
        /// The reel's radius.
        radius: Length,
    },
    /// A height over the plate that is not over it.
    UnderPlate {
        /// The height.
        height: Length,
    },
    /// A gap under a straightedge that no crest or hollow leaves.
    GapUnderStraightedge {
        /// The gap.
        gap: Length,
        /// What it must stay under.
        most: Length,
    },
}

impl Misread {
    /// What is wrong, and what would be right.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        match *self {
            Self::RiseOffTheReel { rise, least, most } => Sentence::new(
                "A rise of {} is not on this reel: it lies between {} and {}, the reel's radius. Check the reading, the reel's diameter and the height of cut.",
                &[rise.into(), least.into(), most.into()],
            ),
            Self::RiseLostInItsOff { rise, off, within } => Sentence::new(
                "A rise of {} that can be off by {} may be no rise at all: the edge stands within {} of straight below the centre, and no closer answer follows. Take a finer reading, or a block to a square.",
                &[rise.into(), off.into(), within.into()],
            ),
            Self::GapLostInItsOff { gap, off } => Sentence::new(
                "A gap of {} that can be off by {} may be no gap at all: the ground may as well be level. Take a finer reading, or a longer straightedge.",
                &[gap.into(), off.into()],
            ),
            Self::TouchesOverEdge {
                touches_at,
                height_of_cut,
            } => Sentence::new(
                "The block cannot touch the front face {} over the plate: the edge stands {} over it, and the face is below.",
                &[touches_at.into(), height_of_cut.into()],
            ),
            Self::TooFewBlades => Sentence::new(
                "A reel needs two blades or more for a tape or a caliper to lie over its tips. Count them again.",
                &[],
            ),
            Self::TapeThickerThanRound { length, thickness } => Sentence::new(
                "A tape {} thick cannot go round a reel in {}. Check both readings.",
                &[thickness.into(), length.into()],
            ),
            Self::BarsThickerThanOver { over, bars } => Sentence::new(
                "Bars of {} together leave no reel in {} over both. Check both readings.",
                &[bars.into(), over.into()],
            ),
            Self::NoRise => Sentence::new(
                "Both places are at the same height, and a slide is never flat. Back it off further and read again.",
                &[],
            ),
            Self::TravelLostInItsOff { travel, off } => Sentence::new(
                "The two places stand {} apart, and their readings together can be off by {}: no lean follows. Back it off further, or take a finer reading.",
                &[travel.into(), off.into()],
            ),
            Self::ShaftTooLow { height, radius } => Sentence::new(
                "The reel's shaft cannot stand {} over the plate: its radius is {}, and the reel would reach into the plate. Read from the plate up to the middle of the shaft.",
                &[height.into(), radius.into()],
            ),
            Self::UnderPlate { height } => Sentence::new(
                "A height of {} over the plate is not possible. Read from the plate up.",
                &[height.into()],
            ),
            Self::GapUnderStraightedge { gap, most } => Sentence::new(
                "No crest or hollow leaves a gap of {} under this straightedge: it must be zero or more, and stay under {}. Check both readings.",
                &[gap.into(), most.into()],
            ),
        }
    }
}

/// How far the edge stands from the vertical through the reel's centre, from its rise over the
/// reel's lowest point: `b² = (R + g)² − (R − S)²`, in the form that does not cancel.
///
/// With no gap it is the handbook's circular segment: half the chord from the rise,
/// `b² = 2RS − S²`. Without its sign: the edge may be behind centre or ahead of it.
///
/// # Errors
/// When the rise is below zero by more than the gap, or more than the circle is high.
pub fn behind_centre_from_rise<N: Number>(
    reel_radius_mm: N,
    gap_mm: N,
    rise_mm: N,
) -> Result<N, Misread> {
    let under_root = (rise_mm + gap_mm) * (reel_radius_mm * 2.0 + gap_mm - rise_mm);
    if under_root.re() < 0.0 || rise_mm.re() > reel_radius_mm.re() {
        return Err(Misread::RiseOffTheReel {
            rise: Length::from_mm(rise_mm.re()),
            least: Length::from_mm(-gap_mm.re()),
            most: Length::from_mm(reel_radius_mm.re()),
        });
    }
    Ok(under_root.root())
}

/// The edge's rise over the reel's lowest point, from the tallest gauge block on the plate that can
/// be pushed under the reel back to the bar, against the knife's front face: it is as high as the
/// reel stands clear of the plate, and the edge stands at the height of cut.
pub fn rise_from_block<N: Number>(height_of_cut_mm: N, block_height_mm: N) -> N {
    height_of_cut_mm - block_height_mm
}

/// Behind centre, from the length of a gauge block laid along the travel against the knife's front
/// face, its front end flush with a square that touches the reel's foremost blade: the square stands
/// a radius ahead of the centre. Negative when the edge is ahead of centre.
///
/// The reel hangs below the edge, so the block touches the face lower down, where it has gone back
/// by that depth times the tangent of its lean, the attitude and the front angle together: so much of
/// the block's length lies behind the edge.
///
/// # Errors
/// When the block would touch above the edge.
pub fn behind_centre_from_square<N: Number>(
    reel_radius_mm: N,
    block_length_mm: N,
    height_of_cut_mm: N,
    touches_at_mm: N,
    face_leans_rad: N,
) -> Result<N, Misread> {
    let below_edge_mm = height_of_cut_mm - touches_at_mm;
    if below_edge_mm.re() < 0.0 {
        return Err(Misread::TouchesOverEdge {
            touches_at: Length::from_mm(touches_at_mm.re()),
            height_of_cut: Length::from_mm(height_of_cut_mm.re()),
        });
    }
    Ok(block_length_mm - reel_radius_mm - below_edge_mm * face_leans_rad.tan())
}

/// How a slide leans, in radians, positive leaning ahead at the top, from how far what slides went
/// ahead and up between two places. Backed off downwards it is the same line.
///
/// # Errors
/// When both places stand equally high.
pub fn lean_from_travel<N: Number>(ahead_mm: N, up_mm: N) -> Result<N, Misread> {
    if up_mm.re() == 0.0 {
        return Err(Misread::NoRise);
    }
    let is_down = up_mm.re() < 0.0;
    let (ahead, up) = if is_down {
        (-ahead_mm, -up_mm)
    } else {
        (ahead_mm, up_mm)
    };
    Ok(ahead.angle_over(up))
}

/// Where the gap under a straightedge is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GapAt {
    /// Under its middle, both ends resting on the ground: a hollow.
    Middle,
    /// Under each end alike, its middle resting: a crest.
    EachEnd,
    /// Under one end, the other held down flat on the ground: a crest.
    OneEnd,
}

/// Radius of the ground under a straightedge, from the gap, measured square to it.
///
/// Handbook, circular segment: over half a chord *a* with the rise *s* the radius is
/// `(a² + s²)/(2s)`. The half chord is half the straightedge, and the whole of it where one end lies
/// flat. None for a gap of zero: level ground.
///
/// # Errors
/// When the gap is as much as the half chord, a step, or less than zero.
pub fn radius_under_straightedge<N: Number>(
    straightedge_mm: N,
    gap_mm: N,
    at: GapAt,
) -> Result<Option<N>, Misread> {
    let half_chord = match at {
        GapAt::Middle | GapAt::EachEnd => straightedge_mm * 0.5,
        GapAt::OneEnd => straightedge_mm,
    };
    if gap_mm.re() < 0.0 || gap_mm.re() >= half_chord.re() {
        return Err(Misread::GapUnderStraightedge {
            gap: Length::from_mm(gap_mm.re()),
            most: Length::from_mm(half_chord.re()),
        });
    }
    let is_level = gap_mm.re() <= 0.0;
    Ok((!is_level).then(|| (half_chord * half_chord + gap_mm * gap_mm) / (gap_mm * 2.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::rise_of_segment;

    #[test]
    fn a_seven_inch_reel_three_eighths_behind_centre_rises_by_the_handbook() {
        // Circular segment, handbook: radius 3.5, half chord 0.375: rise 0.02015.
        let behind = behind_centre_from_rise(3.5_f64, 0.0, 0.020_147).unwrap();
        assert!((behind - 0.375).abs() < 1e-5, "{behind}");
        let rise = rise_of_segment(Length::from_inches(3.5), Length::from_inches(0.375)).unwrap();
        let back = behind_centre_from_rise(88.9_f64, 0.0, rise.mm()).unwrap();
        assert!((back - 0.375 * 25.4).abs() < 1e-12);
    }

    #[test]
    fn the_straightedge_follows_the_handbook_segment() {
        // Circular segment, handbook: chord 10, rise 1: radius 13.
        for at in [GapAt::Middle, GapAt::EachEnd] {
            assert_eq!(radius_under_straightedge(10.0, 1.0, at), Ok(Some(13.0)));
        }
        assert_eq!(
            radius_under_straightedge(5.0, 1.0, GapAt::OneEnd),
            Ok(Some(13.0))
        );
        assert_eq!(
            radius_under_straightedge(10.0, 0.0, GapAt::Middle),
            Ok(None)
        );
        assert!(radius_under_straightedge(10.0, 5.0, GapAt::Middle).is_err());
        assert!(radius_under_straightedge(10.0, -0.1, GapAt::Middle).is_err());
    }

    #[test]
    fn a_block_and_a_square_give_what_they_are_named_for() {
        assert!((rise_from_block(12.7_f64, 12.2) - 0.5).abs() < 1e-12);
        let upright =
            |length| behind_centre_from_square(88.9_f64, length, 12.7, 10.0, 0.0).unwrap();
        assert!((upright(96.4) - 7.5).abs() < 1e-12);
        assert!((upright(87.9) + 1.0).abs() < 1e-12);
        // A face that leans 45 degrees has gone back by as much as it lies below the edge.
        let eighth = std::f64::consts::FRAC_PI_4;
        let leaning = behind_centre_from_square(88.9_f64, 96.4, 12.7, 10.0, eighth).unwrap();
        assert!((leaning - (7.5 - 2.7)).abs() < 1e-12);
        assert!(behind_centre_from_square(88.9_f64, 96.4, 12.7, 12.8, 0.1).is_err());
    }

    #[test]
    fn a_slide_leans_as_it_went_whichever_way_it_was_backed_off() {
        for (ahead, up) in [(1.0_f64, 3.0_f64), (-1.0, -3.0)] {
            let lean = lean_from_travel(ahead, up).unwrap();
            assert!((lean.to_degrees() - 18.434_948_8).abs() < 1e-6, "{lean}");
        }
        assert!(lean_from_travel(-2.0_f64, 5.0).unwrap() < 0.0);
        assert_eq!(lean_from_travel(1.0_f64, 0.0), Err(Misread::NoRise));
    }

    #[test]
    fn a_rise_off_the_reel_says_what_a_rise_can_be() {
        assert!(behind_centre_from_rise(88.9, 0.0, -0.1).is_err());
        assert!(behind_centre_from_rise(88.9, 0.0, 89.0).is_err());
        // In a gap the edge may stand a little lower than the reel's lowest point.
        assert!(behind_centre_from_rise(88.9, 0.2, -0.1).is_ok());
    }
}
