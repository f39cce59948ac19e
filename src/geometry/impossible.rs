//! What cannot be built, said with the lengths that make it so.

use std::fmt;

use crate::units::{Angle, Length, Sentence, System, Value};

/// Geometry that cannot exist.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Impossible {
    /// The bench's edge stands further behind (or ahead of) centre than the reel and gap reach.
    BehindCentreBeyondReel {
        /// Behind centre as measured.
        behind_centre: Length,
        /// Reel radius and gap together.
        reach: Length,
    },
    /// Sliding the reel along its line never brings it to the edge.
    ReelSlidesPast {
        /// Reel diameter.
        reel_diameter: Length,
        /// Centre to edge that is needed: reel radius and gap.
        needed: Length,
        /// The nearest the sliding centre comes to the edge.
        nearest: Length,
    },
    /// Swinging the reel about its pivot never brings it to the edge.
    ReelPivotsPast {
        /// Reel diameter.
        reel_diameter: Length,
        /// Centre to edge that is needed: reel radius and gap.
        needed: Length,
        /// The nearest the swinging centre comes to the edge.
        nearest: Length,
        /// The farthest the swinging centre gets from the edge.
        farthest: Length,
    },
    /// Turning the knife about its pivot never brings its edge to the reel.
    KnifePivotsPast {
        /// Reel diameter.
        reel_diameter: Length,
        /// Centre to edge that is needed: reel radius and gap.
        needed: Length,
        /// The nearest the turning edge comes to the centre.
        nearest: Length,
        /// The farthest the turning edge gets from the centre.
        farthest: Length,
    },
    /// Sliding the knife along its line never brings its edge to the reel.
    KnifeSlidesPast {
        /// Reel diameter.
        reel_diameter: Length,
        /// Centre to edge that is needed: reel radius and gap.
        needed: Length,
        /// The nearest the sliding edge comes to the centre.
        nearest: Length,
    },
    /// The rollers stand so that no ground touches both from below.
    NoGroundUnderRollers {
        /// Front roller's centre ahead of the rear one's.
        ahead: Length,
        /// Distance between the roller centres.
        apart: Length,
        /// Difference of the roller radii.
        difference: Length,
    },
    /// No ground under one given roller leaves the edge at the wanted height.
    HeightBeyondRoller {
        /// The height of cut wanted.
        height_of_cut: Length,
        /// The given roller's radius.
        roller_radius: Length,
        /// Distance between its centre and the edge.
        apart: Length,
    },
    /// The wanted attitude would turn the frame through a right angle or more.
    TurnedOver {
        /// How far the frame would have to turn.
        turn: Angle,
    },
    /// The rollers as given would turn the frame through a right angle or more.
    RollersTurnOver {
        /// How far the frame would turn.
        turn: Angle,
        /// The front roller's move.
        front_move: Length,
        /// The rear roller's move.
        rear_move: Length,
    },
    /// One roller as given and the height of cut would turn the frame through a right angle or more.
    RollerTurnsOver {
        /// How far the frame would turn.
        turn: Angle,
        /// The given roller's move.
        moved: Length,
        /// The height of cut wanted.
        height_of_cut: Length,
    },
    /// A crest too tight for both rollers to rest on.
    CrestTooTight {
        /// The crest's radius.
        radius: Length,
        /// Distance between the roller centres.
        apart: Length,
    },
    /// A hollow too tight for both rollers to rest in.
    HollowTooTight {
        /// The hollow's radius.
        radius: Length,
        /// Distance between the roller centres.
        apart: Length,
    },
}

impl Impossible {
    /// The reason as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        match *self {
            Self::BehindCentreBeyondReel {
                behind_centre,
                reach,
            } => Sentence::new(
                "The edge cannot stand {} from the reel's centre line: reel radius and gap together come to only {}. Check the readings of behind centre, reel diameter and gap.",
                &[behind_centre.into(), reach.into()],
            ),
            Self::ReelSlidesPast {
                reel_diameter,
                needed,
                nearest,
            } => Sentence::new(
                "The reel, {}, cannot reach the edge: nearest approach of its sliding centre {}, and {} is needed. Less edge forward, a larger reel or another slide direction would bring them together.",
                &[reel_diameter.into(), nearest.into(), needed.into()],
            ),
            Self::ReelPivotsPast {
                reel_diameter,
                needed,
                nearest,
                farthest,
            } => Sentence::new(
                "The reel, {}, cannot reach the edge by swinging on its pivot: its centre comes within {} to {} of the edge, and {} is needed. Check where the pivot stands.",
                &[
                    reel_diameter.into(),
                    nearest.into(),
                    farthest.into(),
                    needed.into(),
                ],
            ),
            Self::KnifePivotsPast {
                reel_diameter,
                needed,
                nearest,
                farthest,
            } => Sentence::new(
                "The knife cannot reach the reel, {}, by turning on its pivot: its edge comes within {} to {} of the reel's centre, and {} is needed. Check where the pivot stands.",
                &[
                    reel_diameter.into(),
                    nearest.into(),
                    farthest.into(),
                    needed.into(),
                ],
            ),
            Self::KnifeSlidesPast {
                reel_diameter,
                needed,
                nearest,
            } => Sentence::new(
                "The knife cannot reach the reel, {}, by sliding: nearest approach of its edge to the reel's centre {}, and {} is needed. Check the direction of the slide, or fit a larger reel.",
                &[reel_diameter.into(), nearest.into(), needed.into()],
            ),
            Self::NoGroundUnderRollers {
                ahead,
                apart,
                difference,
            } => Sentence::new(
                "Both rollers cannot stand on one plate: the front roller stands {} ahead of the rear one, their centres {} apart, their radii differ by {}. The front roller must stand ahead, with the centres farther apart than the radii differ.",
                &[ahead.into(), apart.into(), difference.into()],
            ),
            Self::HeightBeyondRoller {
                height_of_cut,
                roller_radius,
                apart,
            } => Sentence::new(
                "With the given roller, {} in radius, the edge cannot stand {} high: its centre stands only {} from the edge. Check the roller's move and the height of cut.",
                &[roller_radius.into(), height_of_cut.into(), apart.into()],
            ),
            Self::TurnedOver { turn } => Sentence::new(
                "The frame would have to turn {} to give this attitude; the rollers cannot carry it past a right angle. Choose an attitude nearer the one measured.",
                &[turn.into()],
            ),
            Self::RollersTurnOver {
                turn,
                front_move,
                rear_move,
            } => Sentence::new(
                "With these roller moves, front {}, rear {}, the frame would turn {}, past a right angle. Check the roller moves.",
                &[front_move.into(), rear_move.into(), turn.into()],
            ),
            Self::RollerTurnsOver {
                turn,
                moved,
                height_of_cut,
            } => Sentence::new(
                "With the given move of one roller, {}, and a height of cut of {}, the frame would turn {}, past a right angle. Check the roller's move and the height of cut.",
                &[Value::Move(moved), height_of_cut.into(), turn.into()],
            ),
            Self::CrestTooTight { radius, apart } => Sentence::new(
                "A crest of {} radius is too tight for rollers {} apart to stand on. Choose a larger radius.",
                &[radius.into(), apart.into()],
            ),
            Self::HollowTooTight { radius, apart } => Sentence::new(
                "A hollow of {} radius is too tight for rollers {} apart to stand in. Choose a larger radius.",
                &[radius.into(), apart.into()],
            ),
        }
    }
}

impl fmt::Display for Impossible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence().shown_in(System::Millimetre))
    }
}

impl std::error::Error for Impossible {}
