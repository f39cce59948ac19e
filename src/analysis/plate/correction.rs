//! What is done at a roller's adjuster to bring it parallel.

use crate::geometry::{EccentricTurn, Reach, ShimStack, turns_to_raise};
use crate::plate::{AdjusterReadings, Side};
use crate::units::Length;

/// What is done at an adjuster.
#[derive(Clone, Debug, PartialEq)]
pub enum Correction {
    /// An eccentric is turned.
    Eccentric {
        /// How far it can go from where it stands.
        reach: Reach,
        /// Where to, the nearer turn first; none where that is out of its throw.
        turns: Option<[EccentricTurn; 2]>,
        /// Both ends moved, where its own throw is not enough.
        split: Option<Split>,
    },
    /// A thread is turned so many times; less than zero: the way that lowers the roller's end.
    Thread {
        /// How many turns.
        turns: f64,
    },
    /// Shims go in, or are taken out.
    Shims(ShimStack),
}

/// A correction shared between both ends, because the one adjusted runs out of throw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Split {
    /// How far the end that is adjusted is raised: as far as it goes.
    pub here: Length,
    /// How far the other end is raised.
    pub there: Length,
}

/// How far an end must come down so that the roller is parallel; less than zero: up.
pub(super) fn at_adjuster(slope: f64, adjusters_apart: Length, adjust: Side) -> Length {
    let right_down = adjusters_apart * slope;
    match adjust {
        Side::Right => right_down,
        Side::Left => -right_down,
    }
}

impl Correction {
    /// What raises the roller's end by so much.
    pub(super) fn of(adjuster: &AdjusterReadings, raise: Length) -> Self {
        match adjuster {
            AdjusterReadings::Eccentric(eccentric) => {
                let reach = eccentric.reach();
                let turns = eccentric.raised_by(raise);
                let here = if raise.mm() > 0.0 {
                    reach.up
                } else {
                    reach.down
                };
                Self::Eccentric {
                    reach,
                    turns,
                    split: turns.is_none().then(|| Split {
                        here,
                        there: here - raise,
                    }),
                }
            }
            AdjusterReadings::Thread { pitch, tilt } => Self::Thread {
                turns: turns_to_raise(raise, *pitch, *tilt),
            },
            AdjusterReadings::Shims(sizes) => {
                let thickness = Length::from_mm(raise.mm().abs());
                Self::Shims(ShimStack::nearest(sizes, thickness))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Eccentric;
    use crate::units::Angle;

    #[test]
    fn what_one_end_cannot_do_the_other_does_the_opposite_way() {
        let adjuster = AdjusterReadings::Eccentric(Eccentric {
            throw: Length::from_inches(0.0625),
            now: Angle::from_deg(30.0),
        });
        let Correction::Eccentric {
            turns,
            split: Some(split),
            ..
        } = Correction::of(&adjuster, Length::from_inches(0.040))
        else {
            panic!("a split");
        };
        assert_eq!(turns, None);
        assert!((split.here.inches() - 0.03125).abs() < 1e-12);
        assert!((split.there.inches() + 0.00875).abs() < 1e-12);
    }
}
